// Package man writes manual pages from a tree of commands: roff for the man macros, one
// page a command. The same commands give the same bytes, so a page has no date.
//
// cobra/doc was tried in its place: it reads the texts of commands as Markdown, so that a
// backslash and the asterisks of `*.xls[xm]` are lost, gives every switch as `[=false]`, and
// has no section for the exit status.
package man

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"unicode"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"
)

// Write writes the pages of a command and all below it into a folder, which exists or is
// made, and gives their names. Hidden commands have none.
func Write(dir string, root *cobra.Command) ([]string, error) {
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return nil, err
	}
	var names []string
	for _, c := range commands(root) {
		name := pageName(c) + ".1"
		if err := os.WriteFile(filepath.Join(dir, name), []byte(Page(c)), 0o644); err != nil {
			return nil, err
		}
		names = append(names, name)
	}
	return names, nil
}

// commands lists a command and those below it that are not hidden and not help itself.
func commands(c *cobra.Command) []*cobra.Command {
	if c.Hidden || c.Name() == "help" {
		return nil
	}
	out := []*cobra.Command{c}
	for _, sub := range c.Commands() {
		out = append(out, commands(sub)...)
	}
	return out
}

func pageName(c *cobra.Command) string { return strings.ReplaceAll(c.CommandPath(), " ", "-") }

// Page gives the page of one command.
func Page(c *cobra.Command) string {
	p := &page{}
	p.line(fmt.Sprintf(`.TH "%s" 1 "" "%s" ""`, escape(strings.ToUpper(pageName(c))), escape(c.Root().Name())))
	p.section("NAME")
	p.line(escape(pageName(c)) + ` \- ` + escape(c.Short))
	p.section("SYNOPSIS")
	p.text(c.UseLine())
	p.section("DESCRIPTION")
	long := c.Long
	if long == "" {
		long = c.Short + "."
	}
	p.paragraphs(long)
	p.options(c)
	if c.Example != "" {
		p.section("EXAMPLES")
		p.verbatim(c.Example)
	}
	p.section("EXIT STATUS")
	p.text("0: done. 1: findings stand in the way, or the answer is no. 2: wrong usage, or input that cannot be read. 3: a fault of the program.")
	p.related(c)
	return p.String()
}

// page gathers lines of roff.
type page struct{ strings.Builder }

func (p *page) line(s string) {
	p.WriteString(s)
	p.WriteByte('\n')
}

func (p *page) section(title string) { p.line(".SH " + title) }

// text writes a line of prose. A dot or an apostrophe at its beginning would be a
// request.
func (p *page) text(s string) {
	s = escape(s)
	if strings.HasPrefix(s, ".") || strings.HasPrefix(s, "'") {
		s = `\&` + s
	}
	p.line(s)
}

// escape keeps characters that roff would read: a backslash, a quote, and the hyphen,
// which it may turn into a dash that cannot be copied. What is not ASCII is named by its
// number, so that no encoding has to be guessed.
func escape(s string) string {
	var b strings.Builder
	for _, r := range s {
		switch {
		case r == '\\':
			b.WriteString(`\e`)
		case r == '-':
			b.WriteString(`\-`)
		case r == '"':
			b.WriteString(`\(dq`)
		case r > unicode.MaxASCII:
			fmt.Fprintf(&b, `\[u%04X]`, r)
		default:
			b.WriteRune(r)
		}
	}
	return b.String()
}

// paragraphs writes prose; lines that are set in stand as they are.
func (p *page) paragraphs(s string) {
	for i, para := range strings.Split(strings.Trim(s, "\n"), "\n\n") {
		if i > 0 {
			p.line(".PP")
		}
		if strings.HasPrefix(para, " ") {
			p.verbatim(para)
			continue
		}
		for l := range strings.Lines(para) {
			p.text(strings.TrimSpace(l))
		}
	}
}

func (p *page) verbatim(s string) {
	p.line(".RS 2")
	p.line(".nf")
	for l := range strings.Lines(strings.Trim(s, "\n")) {
		p.text(strings.TrimPrefix(strings.TrimRight(l, "\n"), "  "))
	}
	p.line(".fi")
	p.line(".RE")
}

// options lists the flags, those of the commands above included.
func (p *page) options(c *cobra.Command) {
	c.InitDefaultHelpFlag()
	first := true
	c.Flags().VisitAll(func(f *pflag.Flag) {
		if f.Hidden {
			return
		}
		if first {
			p.section("OPTIONS")
			first = false
		}
		kind, usage := pflag.UnquoteUsage(f)
		p.line(".TP")
		p.text(flagName(f, kind))
		if f.DefValue != "" && f.DefValue != "false" && f.DefValue != "[]" && !strings.Contains(usage, "default") {
			usage += " (default: " + f.DefValue + ")"
		}
		p.text(usage)
	})
}

// flagName gives a flag with what it takes.
func flagName(f *pflag.Flag, kind string) string {
	name := "--" + f.Name
	if f.Shorthand != "" {
		name = "-" + f.Shorthand + ", " + name
	}
	if kind != "" {
		name += " " + strings.ToUpper(kind)
	}
	return name
}

// related names the other pages.
func (p *page) related(c *cobra.Command) {
	var names []string
	for _, other := range commands(c.Root()) {
		if other != c {
			names = append(names, escape(pageName(other))+"(1)")
		}
	}
	if len(names) == 0 {
		return
	}
	slices.Sort(names)
	p.section("SEE ALSO")
	p.line(strings.Join(names, ", "))
}
