package guide

// usual is a caution that stands on every page, whatever the catalogue says.
type usual struct{ Level, Head, Text string }

// usualCautions holds what must be known before any work on the parts of a guide,
// gravest first.
func (e *edition) usualCautions() []usual {
	say := e.tongue.Say
	return []usual{
		// HSE (UK) bulletin of July 2022 on air suspension.
		{"danger", say("An air spring is not a support"),
			say("Keep out from under a vehicle on air suspension until rated stands or props carry it, or the air is out of its springs and it has come down to rest.")},
		// 29 CFR 1910.147(d)(5): stored energy is relieved and kept from coming back.
		{"danger", say("Let the stored air out first"),
			say("Before you open a line, a fitting, a tank or a spring, release its air, and make sure that no compressor, tank or other circuit can fill it again while you work.")},
		// Restrictors: common practice, no source. Brakes: 49 CFR 396.25.
		{"danger", say("Nothing of this guide goes into a brake line"),
			say("A restrictor belongs in the line of an air spring and nowhere else. Work on brakes is for a qualified brake inspector.")},
		// HSE (UK), working under vehicles; 29 CFR 1910.244(a)(2).
		{"warning", say("Chocks, stands, capacity"),
			say("Stand on firm, level ground and chock the wheels. A jack lifts and does not hold: use stands, and load nothing beyond its rated capacity.")},
		// 49 CFR 396.3(a)(1) and 393.209(d).
		{"warning", say("Steering and suspension must be sound"),
			say("The vehicle stays off the road until every steering and suspension part is in safe working order. A steering joint is never welded.")},
		// Common practice, no source.
		{"notice", say("The vehicle maker’s torque wins"),
			say("Tighten to the figure of the vehicle maker, whatever any other table says, and check again when and as the maker asks.")},
		// Common practice, no source.
		{"notice", say("Handbook, rules and licence come first"),
			say("This guide says which part belongs where. It gives way to the vehicle maker’s handbook, to the rules of your place, and to work that the law leaves to licensed people.")},
	}
}
