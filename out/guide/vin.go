package guide

// yearCodes are the characters that stand for a model year as the tenth of a vehicle
// identification number, from 1980 to 2009 and again from 2010 to 2039 (49 CFR 565.15,
// table VII). The seventh character tells the two rounds apart only for vehicles of up
// to 10 000 lb.
const yearCodes = "ABCDEFGHJKLMNPRSTVWXY123456789"

const (
	firstCoded = 1980
	lastCoded  = firstCoded + 2*len(yearCodes) - 1
)

// yearCode gives the character of a model year, "" where it has none.
func yearCode(year int) string {
	if year < firstCoded || year > lastCoded {
		return ""
	}
	i := (year - firstCoded) % len(yearCodes)
	return yearCodes[i : i+1]
}

// twice lists the characters that stand for two of the years.
func twice(years []int) []string {
	seen := map[string]bool{}
	var out []string
	for _, y := range years {
		code := yearCode(y)
		if code != "" && seen[code] {
			out = append(out, code)
		}
		seen[code] = true
	}
	return out
}
