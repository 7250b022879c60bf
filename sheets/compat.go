package sheets

import (
	"encoding/xml"
	"slices"
	"strings"
)

// compatibility is the namespace in which a writer says what readers may do with markup
// that they do not know (ECMA-376 Part 3).
const compatibility = "http://schemas.openxmlformats.org/markup-compatibility/2006"

// compat follows markup compatibility while a part is read, so that whoever takes its tags
// sees what a reader of this workbook should see: of alternatives the one that is
// meant for readers like this one, and nothing of what may be ignored.
type compat struct {
	prefixes []scoped // that open elements declare, the innermost last
	ignored  []scoped // namespaces that may be ignored
	kept     []scoped // elements in them whose content counts all the same: space, blank, name
	choices  []choice // alternatives that are being read, the innermost last
	unseen   []int    // depths of open tags that are not given out, while their content is
	dropped  int      // depth of the element that is left out whole; 0 for none
}

// scoped is a pair of words that holds inside the element of a depth.
type scoped struct {
	depth       int
	name, space string
}

// choice is an element AlternateContent.
type choice struct {
	depth             int
	seen, taken, last bool // a Choice came; one of the branches was taken; Fallback came
}

// known tells whether markup of a namespace is understood here.
func known(space string) bool {
	return ours(space) || space+"/" == relTransitional || space+"/" == relStrict || space == compatibility
}

// plain tells whether all tags are given out as they are written.
func (c *compat) plain() bool { return len(c.unseen) == 0 && c.dropped == 0 }

// begin takes the start of an element, whose depth is m.depth. It tells whether the tag is
// given out.
func (c *compat) begin(m *markup, t xml.StartElement) (bool, error) {
	if c.dropped > 0 {
		return false, nil
	}
	if err := c.declare(m, t); err != nil {
		return false, err
	}
	if n := len(c.choices); n > 0 && m.depth == c.choices[n-1].depth+1 {
		return false, c.branch(m, t, &c.choices[n-1])
	}
	switch space := t.Name.Space; {
	case ours(space) || m.depth == 1:
		return true, nil
	case space == compatibility && t.Name.Local == "AlternateContent":
		c.choices = append(c.choices, choice{depth: m.depth})
		c.unseen = append(c.unseen, m.depth)
		return false, nil
	case !known(space) && c.ignores(m, space):
		if has(c.kept, t.Name.Local, space) || has(c.kept, "*", space) {
			c.unseen = append(c.unseen, m.depth)
		} else {
			c.dropped = m.depth
		}
		return false, nil
	}
	return true, nil
}

// ignores tells whether a namespace may be ignored.
func (c *compat) ignores(m *markup, space string) bool {
	m.work.spent += int64(len(c.ignored) + len(c.kept)) // that are gone through
	return has(c.ignored, "", space)
}

// end takes the end of the element at m.depth+1, and tells whether it is given out.
func (c *compat) end(m *markup) (bool, error) {
	depth := m.depth + 1
	if c.dropped > 0 {
		if c.dropped == depth {
			c.dropped = 0
			c.leave(depth)
		}
		return false, nil
	}
	c.leave(depth)
	n := len(c.unseen)
	if n == 0 || c.unseen[n-1] != depth {
		return true, nil
	}
	c.unseen = c.unseen[:n-1]
	if n := len(c.choices); n > 0 && c.choices[n-1].depth == depth {
		if !c.choices[n-1].seen {
			return false, m.fault("it offers alternatives and names none")
		}
		c.choices = c.choices[:n-1]
	}
	return false, nil
}

// text takes text and tells whether it is given out: between alternatives stands none.
func (c *compat) text(m *markup, t xml.CharData) (bool, error) {
	if c.dropped > 0 {
		return false, nil
	}
	if n := len(c.choices); n > 0 && c.choices[n-1].depth == m.depth {
		if !blank(t) {
			return false, m.damaged("text stands loose between alternatives")
		}
		return false, nil
	}
	return true, nil
}

// branch takes one alternative: the first whose needs are all understood, or else the one
// that is there for everybody.
func (c *compat) branch(m *markup, t xml.StartElement, of *choice) error {
	take := !of.taken
	switch {
	case t.Name.Space != compatibility:
		if has(c.ignored, "", t.Name.Space) && !known(t.Name.Space) {
			c.dropped = m.depth
			return nil
		}
		return m.unknown(t, "AlternateContent")
	case t.Name.Local == "Choice" && !of.last:
		of.seen = true
		needs, ok := attr(t, "Requires")
		if !ok || strings.Trim(needs, space) == "" {
			return m.fault("it offers an alternative and does not say whom it is for")
		}
		if len(needs) > maxScopes {
			return m.fault("it offers an alternative for too many programs at once (%q)", needs)
		}
		for prefix := range strings.FieldsSeq(needs) {
			take = take && known(c.resolve(prefix))
		}
	case t.Name.Local == "Fallback" && of.seen && !of.last:
		of.last = true
	default:
		return m.unknown(t, "AlternateContent")
	}
	if !take {
		c.dropped = m.depth
		return nil
	}
	of.taken = true
	c.unseen = append(c.unseen, m.depth)
	return nil
}

// declare notes what an element says of prefixes and of what may be ignored in it.
func (c *compat) declare(m *markup, t xml.StartElement) error {
	for _, a := range t.Attr {
		if a.Name.Space == "xmlns" {
			if len(a.Name.Local) > maxName || len(a.Value) > maxName {
				return m.fault("a namespace in it has a name of more than %d bytes", maxName)
			}
			c.prefixes = append(c.prefixes, scoped{m.depth, a.Name.Local, a.Value})
		}
	}
	if len(c.prefixes) > maxScopes {
		return m.fault("it declares more than %d namespaces at one place", maxScopes)
	}
	for _, a := range t.Attr {
		if a.Name.Space != compatibility {
			continue
		}
		for word := range strings.FieldsSeq(a.Value) {
			m.work.spent += int64(len(c.prefixes) + len(c.ignored)) // that are gone through
			if len(c.ignored)+len(c.kept) > maxScopes {
				return m.fault("it says of more than %d namespaces what a reader may ignore", maxScopes)
			}
			prefix, name, _ := strings.Cut(word, ":")
			space := c.resolve(prefix)
			switch a.Name.Local {
			case "Ignorable":
				if space != "" && !has(c.ignored, "", space) {
					c.ignored = append(c.ignored, scoped{m.depth, "", space})
				}
			case "ProcessContent":
				c.kept = append(c.kept, scoped{m.depth, name, space})
			case "MustUnderstand":
				if !known(space) {
					return m.fault("only a program that knows %q may read it", space)
				}
			}
		}
	}
	return nil
}

// resolve gives the namespace of a prefix, "" where nothing declares it.
func (c *compat) resolve(prefix string) string {
	for _, p := range slices.Backward(c.prefixes) {
		if p.name == prefix {
			return p.space
		}
	}
	return ""
}

// leave forgets what held inside an element.
func (c *compat) leave(depth int) {
	c.prefixes = left(c.prefixes, depth)
	c.ignored = left(c.ignored, depth)
	c.kept = left(c.kept, depth)
}

func left(all []scoped, depth int) []scoped {
	for len(all) > 0 && all[len(all)-1].depth >= depth {
		all = all[:len(all)-1]
	}
	return all
}

func has(all []scoped, name, space string) bool {
	return space != "" && slices.ContainsFunc(all, func(s scoped) bool { return s.name == name && s.space == space })
}
