package picture

// The colours of all pictures.
const (
	paper  = "#f4f5f2"
	steel  = "#8c9794"
	dark   = "#3a4346"
	rubber = "#22282a"
	mark   = "#c2571a" // what is to be looked at
	pale   = "#c9d0cc"
	glass  = "#9db7c2"
	body   = "#4f7f6b"
)

type drawing struct {
	name   string
	shapes []shape
}

func drawings() []drawing {
	return []drawing{
		{"h7-side.png", side()},
		{"frame-plate.svg", plate()},
		{"front-air-beam.svg", append(axle(true), springs(72, 216, 54)...)},
		{"front-air-independent.svg", append(axle(false),
			bar(mark, 60, 92, 128, 84, 8), bar(mark, 60, 138, 128, 132, 8), bar(mark, 260, 92, 192, 84, 8), bar(mark, 260, 138, 192, 132, 8),
			box(dark, 70, 54, 50, 4), box(dark, 200, 54, 50, 4), box(rubber, 78, 58, 32, 12), box(rubber, 78, 72, 32, 12), box(rubber, 210, 58, 32, 12), box(rubber, 210, 72, 32, 12))},
		{"front-leaf.svg", append(axle(true), leaves(84)...)},
		{"front-rubber.svg", append(axle(true), box(rubber, 72, 66, 32, 30), box(rubber, 216, 66, 32, 30), box(mark, 72, 62, 32, 4), box(mark, 216, 62, 32, 4))},
		{"arm-welded.svg", append(arm(), bar(mark, 50, 128, 228, 128, 3), bar(mark, 50, 94, 228, 94, 3), bar(dark, 50, 94, 50, 128, 3))},
		{"arm-cast.svg", append(arm(), disc(steel, 52, 111, 17), box(mark, 104, 104, 8, 14), box(mark, 118, 104, 8, 14), box(mark, 132, 104, 8, 14))},
		{"level-valve.svg", append(lever(), bar(mark, 214, 78, 300, 78, 6), bar(mark, 214, 96, 300, 112, 6))},
		{"level-sensor.svg", append(lever(), bar(mark, 214, 86, 252, 70, 2), bar(mark, 252, 70, 300, 74, 2))},
		{"tee-none.svg", line()},
		{"tee-left.svg", append(line(), bar(mark, 160, 84, 250, 44, 6), box(steel, 146, 72, 28, 20))},
		{"restrictor.jpg", []shape{bar(pale, 10, 100, 310, 100, 22), box(steel, 110, 78, 100, 44), box(dark, 98, 84, 12, 32), box(dark, 210, 84, 12, 32),
			bar(mark, 128, 100, 186, 100, 6), polygon(mark, 184, 88, 204, 100, 184, 112)}},
		{"steering-damper.svg", []shape{bar(steel, 20, 150, 300, 150, 12), disc(dark, 20, 150, 14), disc(dark, 300, 150, 14),
			bar(mark, 60, 108, 170, 108, 26), bar(dark, 170, 108, 250, 108, 8), disc(dark, 56, 108, 12), disc(dark, 254, 108, 12), bar(dark, 254, 108, 254, 150, 8)}},
	}
}

// side is a vehicle from its side.
func side() []shape {
	out := []shape{polygon(body, 16, 140, 16, 62, 28, 48, 300, 48, 306, 140), box(pale, 16, 118, 290, 6), polygon(glass, 16, 62, 27, 52, 48, 52, 48, 96, 16, 96)}
	for x := 96.0; x < 280; x += 46 {
		out = append(out, box(glass, x, 62, 36, 30))
	}
	out = append(out, box(dark, 56, 60, 30, 78), box(glass, 60, 64, 22, 44), box(mark, 60, 128, 22, 5))
	for _, x := range []float64{92, 238} {
		out = append(out, disc(rubber, x+18, 142, 20), disc(pale, x+18, 142, 9))
	}
	return out
}

// plate is the plate of a chassis, with the tenth of a row of characters marked.
func plate() []shape {
	out := []shape{box(steel, 20, 40, 280, 120), box(pale, 26, 46, 268, 108), disc(dark, 34, 54, 4), disc(dark, 286, 54, 4), disc(dark, 34, 146, 4), disc(dark, 286, 146, 4)}
	for i := range 17 {
		fill := dark
		if i == 9 {
			fill = mark
		}
		out = append(out, box(fill, 48+float64(i)*13.4, 84, 8, 22))
	}
	return append(out, polygon(mark, 172.6, 112, 164, 128, 181, 128), box(steel, 48, 136, 150, 6))
}

// axle is a front axle from behind, with or without a beam.
func axle(beam bool) []shape {
	out := []shape{box(rubber, 14, 70, 40, 90), box(rubber, 266, 70, 40, 90), box(dark, 60, 36, 200, 16)}
	if beam {
		return append(out, box(mark, 54, 104, 212, 18))
	}
	return append(out, box(dark, 128, 52, 64, 92))
}

// springs is an air spring of three folds at each side.
func springs(left, right, y float64) []shape {
	var out []shape
	for i := range 3 {
		for _, x := range []float64{left, right} {
			out = append(out, box(rubber, x, y+17*float64(i), 32, 15))
		}
	}
	return out
}

func leaves(y float64) []shape {
	var out []shape
	for i := range 4 {
		d := float64(i)
		out = append(out, box(steel, 66+3*d, y+5*d, 44-6*d, 4), box(steel, 210+3*d, y+5*d, 44-6*d, 4))
	}
	return append(out, box(mark, 66, y-6, 44, 4), box(mark, 210, y-6, 44, 4))
}

func arm() []shape {
	return []shape{disc(dark, 262, 111, 36), disc(pale, 262, 111, 16), bar(steel, 50, 111, 236, 111, 34), disc(dark, 52, 111, 7), box(dark, 20, 40, 280, 14)}
}

func lever() []shape {
	return []shape{box(dark, 20, 30, 280, 14), box(steel, 158, 66, 56, 42), bar(dark, 92, 86, 186, 86, 7), bar(steel, 92, 86, 92, 160, 5), disc(dark, 186, 86, 9), disc(dark, 92, 86, 6), box(dark, 60, 160, 90, 16)}
}

func line() []shape {
	return []shape{box(rubber, 110, 118, 100, 20), box(rubber, 104, 140, 112, 20), box(dark, 120, 106, 80, 12), box(steel, 150, 84, 20, 22), bar(pale, 160, 84, 160, 60, 12), bar(pale, 160, 64, 20, 40, 12)}
}
