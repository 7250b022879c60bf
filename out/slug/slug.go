// Package slug turns the names of platforms and parts into names of files that are
// safe on every file system and in every address.
//
// A name that is safe as it stands stays as it is, so that addresses can be guessed
// from part numbers. What another name becomes depends on the name alone, unless two
// of them would share a file: the order of the catalogue never changes an address.
package slug

import (
	"crypto/sha256"
	"encoding/hex"
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// Longest is the greatest length of a name, in bytes. It leaves room for an ending
// within the 255 bytes that common file systems allow, and for readable addresses.
const Longest = 80

// tagLength is how many digits of a name's hash tell it from others.
const tagLength = 8

// Names gives one file name (with no ending) for each of the names, in order. A file
// name consists of ASCII letters, digits and `-`; no two are equal, even where case
// is folded; none is reserved by an operating system or by a web server. A name that
// is such a file name already is kept, case included.
func Names(names []string) []string { return Keep(names, nil) }

// Keep is Names for names of which some had a file name before, given by earlier: the
// first of equal names has it again, whatever names have come since.
func Keep(names []string, earlier map[string]string) []string {
	out := make([]string, len(names))
	taken := map[string]bool{}
	take := func(i int, file string) {
		out[i] = file
		taken[strings.ToLower(file)] = true
	}
	for i, n := range names {
		if file := earlier[n]; Is(file) && !taken[strings.ToLower(file)] {
			take(i, file)
		}
	}
	for i, n := range names {
		if out[i] == "" && safe(n) && plain(n) == n && !taken[strings.ToLower(n)] {
			take(i, n)
		}
	}
	wanted := map[string]int{}
	for i, n := range names {
		if out[i] == "" {
			wanted[strings.ToLower(plain(n))]++
		}
	}
	for i, n := range names {
		p := plain(n)
		if low := strings.ToLower(p); out[i] == "" && safe(p) && wanted[low] == 1 && !taken[low] {
			take(i, p)
		}
	}
	for i, n := range names {
		if out[i] == "" {
			take(i, tagged(n, taken))
		}
	}
	return out
}

// Is tells whether a text can be the name of a file as Names gives them.
func Is(file string) bool { return file == plain(file) && safe(file) }

// plain replaces what a file name cannot hold: accents go, other signs become `-`.
func plain(name string) string {
	var b strings.Builder
	gap := false
	for _, r := range norm.NFKD.String(name) {
		switch {
		case unicode.Is(unicode.Mn, r):
			continue
		case r == '-' || r < 0x80 && (unicode.IsLetter(r) || unicode.IsDigit(r)):
			if gap && b.Len() > 0 && r != '-' && !strings.HasSuffix(b.String(), "-") {
				b.WriteByte('-')
			}
			gap = false
			b.WriteRune(r)
		default:
			gap = true
		}
	}
	return strings.Trim(b.String(), "-")
}

// safe tells whether a plain name can be used as it is.
func safe(p string) bool {
	return p != "" && len(p) <= Longest && !reserved(strings.ToLower(p))
}

// reserved tells whether a name has a meaning of its own: devices of Windows (from
// memory: the list of its documentation on naming files), and what web servers show
// for a folder.
func reserved(low string) bool {
	switch low {
	case "con", "prn", "aux", "nul", "index", "default":
		return true
	}
	if len(low) == 4 && low[3] >= '0' && low[3] <= '9' {
		return low[:3] == "com" || low[:3] == "lpt"
	}
	return false
}

// tagged tells a name from all others by a few digits of its hash.
func tagged(name string, taken map[string]bool) string {
	p := plain(name)
	if room := Longest - tagLength - 1; len(p) > room {
		p = strings.TrimRight(p[:room], "-")
	}
	if p != "" {
		p += "-"
	}
	for salt := ""; ; salt += "\x00" {
		sum := sha256.Sum256([]byte(name + salt))
		file := p + hex.EncodeToString(sum[:])[:tagLength]
		if !taken[strings.ToLower(file)] {
			return file
		}
	}
}
