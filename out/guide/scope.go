package guide

import (
	"bytes"
	"strings"
)

// scopeClass is the class of the element that holds a fragment: our style holds for nothing
// outside of it.
const scopeClass = ".fitment"

// scoped makes of our style sheet one that holds for what is in the class alone: its selectors
// begin with it, and where they name the page, they are the class. What is for the sheet of paper
// is the host's (@page).
func scoped(style []byte) []byte {
	var out bytes.Buffer
	scope(&out, string(style))
	return out.Bytes()
}

// scope goes through rules one after another. It knows what our style sheet is made of:
// comments, rules, and conditions (@media) with rules in them.
func scope(out *bytes.Buffer, style string) {
	for {
		style = strings.TrimLeft(style, " \t\r\n")
		switch {
		case style == "":
			return
		case strings.HasPrefix(style, "/*"):
			_, style, _ = strings.Cut(style, "*/")
			continue
		}
		head, rest, ok := strings.Cut(style, "{")
		if !ok {
			return
		}
		body := block(rest)
		style = rest[min(len(body)+1, len(rest)):]
		head = strings.TrimSpace(head)
		switch {
		case strings.HasPrefix(head, "@page"):
		case strings.HasPrefix(head, "@"):
			out.WriteString(head + " {\n")
			scope(out, body)
			out.WriteString("}\n")
		default:
			out.WriteString(scopedSelectors(head) + " {" + body + "}\n")
		}
	}
}

// block gives what stands before the brace that closes it.
func block(text string) string {
	depth := 1
	for i := range len(text) {
		switch text[i] {
		case '{':
			depth++
		case '}':
			if depth--; depth == 0 {
				return text[:i]
			}
		}
	}
	return text
}

// scopedSelectors puts the class before every selector of a list.
func scopedSelectors(list string) string {
	var out []string
	depth, from := 0, 0
	for i := range len(list) {
		switch list[i] {
		case '(', '[':
			depth++
		case ')', ']':
			depth--
		case ',':
			if depth == 0 {
				out, from = append(out, scopedSelector(list[from:i])), i+1
			}
		}
	}
	return strings.Join(append(out, scopedSelector(list[from:])), ", ")
}

func scopedSelector(selector string) string {
	selector = strings.TrimSpace(selector)
	for _, whole := range []string{":root", "html", "body", "main"} {
		rest, ok := strings.CutPrefix(selector, whole)
		if ok && (rest == "" || strings.ContainsRune(" .:[>", rune(rest[0]))) {
			return scopeClass + rest
		}
	}
	return scopeClass + " " + selector
}
