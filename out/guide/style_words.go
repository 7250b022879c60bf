package guide

import (
	"bytes"
	"fmt"
	"strings"

	"ferrule/out/tongue"
)

// styleWords gives what the style sheet says itself, before and after the elements of pages, as properties of
// the page: in English, and for pages in each of some other languages. It goes with the style sheet of a theme as with ours. With paper, sheets of paper say of a draft
// that it is one.
func styleWords(all []*tongue.Tongue, fragment, paper bool) []byte {
	out := bytes.NewBufferString("\n")
	said := map[string]bool{}
	for _, t := range append([]*tongue.Tongue{tongue.English()}, all...) {
		if said[t.Tag()] {
			continue
		}
		said[t.Tag()] = true
		root, page := ":root", "draft"
		if len(said) > 1 {
			root, page = ":root:lang("+t.Tag()+")", "draft-"+t.Tag()
		}
		if fragment {
			root = strings.Replace(root, ":root", scopeClass, 1)
		}
		fmt.Fprintf(out, "%s{--and:%s;--line-begin:%s;--line-end:%s;--line-years:%s;--colon:%s;--semicolon:%s;--query:%s}\n", root,
			cssText(t.Say("and")+" "), cssText(t.Piece("Line %s:", 0)), cssText(t.Piece("Line %s:", 1)), cssText(t.Piece("Line %s, years:", 1)+" "),
			cssText(t.Say(":")), cssText(t.Say("; ")), cssText(t.Say("?")))
		if !paper {
			continue
		}
		fmt.Fprintf(out, "@media print{@page %s{margin:13mm 11mm 12mm;@top-center{content:%s;font:bold 9pt sans-serif}}%s body.draft{page:%s}}\n",
			page, cssText(t.Say("Draft: not for use on vehicles")), root, page)
	}
	return out.Bytes()
}

// cssText writes a text as a string of a style sheet (CSS Syntax 3, section 4.3.5): signs that could end it, as their code.
func cssText(text string) string {
	var out strings.Builder
	out.WriteByte('"')
	for _, r := range text {
		if r < ' ' || r == '"' || r == '\\' || r == '<' || r == 0x7F {
			fmt.Fprintf(&out, `\%x `, r)
			continue
		}
		out.WriteRune(r)
	}
	out.WriteByte('"')
	return out.String()
}
