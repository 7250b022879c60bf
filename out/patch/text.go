package patch

import (
	"regexp"
	"strings"

	"ferrule/out/visible"
)

// looksEscaped is text that a spreadsheet program would decode (ECMA-376 Part 1, 22.9.2.19, ST_Xstring).
var looksEscaped = regexp.MustCompile(`_(x[0-9A-Fa-f]{4}_)`)

var escapes = strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;", `"`, "&quot;", "\t", "&#9;", "\n", "&#10;", "\r", "&#13;")

// escaped writes text for XML, as the content of an element or in quotation marks. Characters that
// XML cannot hold, or that nobody would see, are written as signs; line breaks and tabs stay.
func escaped(s string) string {
	lines := strings.Split(s, "\n")
	for i, l := range lines {
		lines[i] = visible.Text(l)
	}
	return escapes.Replace(looksEscaped.ReplaceAllString(strings.Join(lines, "\n"), "_x005F_$1"))
}

// stored writes the text of a cell exactly as it is; false where XML cannot hold it.
func stored(s string) (string, bool) {
	for _, r := range s {
		if r < ' ' && r != '\n' && r != '\t' || r == 0xfffe || r == 0xffff || r == 0xfffd {
			return "", false
		}
	}
	return escapes.Replace(looksEscaped.ReplaceAllString(s, "_x005F_$1")), true
}
