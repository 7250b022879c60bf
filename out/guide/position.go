package guide

// axleWords says on which axle a place is; "" where that is not said.
func (e *edition) axleWords(axle string) string {
	say := e.tongue.Say
	switch axle {
	case "front":
		return say("front axle")
	case "drive":
		return say("drive axle")
	case "tag":
		return say("tag axle")
	case "pusher":
		return say("pusher axle")
	}
	return axle
}

// sideWords says on which side of its axle a place is; "" where that is not said.
func (e *edition) sideWords(side string) string {
	say := e.tongue.Say
	switch side {
	case "left":
		return say("left")
	case "right":
		return say("right")
	case "both":
		return say("both sides")
	case "centre":
		return say("centre")
	}
	return side
}
