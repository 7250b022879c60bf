package sheets

import (
	"bytes"
	"encoding/xml"
	"strconv"
	"strings"
)

// Namespaces of spreadsheets: transitional (ECMA-376 Part 4) and strict (Part 1).
const (
	transitional = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
	strict       = "http://purl.oclc.org/ooxml/spreadsheetml/main"
)

func ours(space string) bool { return space == transitional || space == strict }

// local gives the name of a spreadsheet element, and "" for those of other
// namespaces, which are extensions.
func local(t xml.StartElement) string {
	if ours(t.Name.Space) {
		return t.Name.Local
	}
	return ""
}

// attr gives an attribute without a namespace.
func attr(t xml.StartElement, name string) (string, bool) {
	for _, a := range t.Attr {
		if a.Name.Local == name && a.Name.Space == "" {
			return a.Value, true
		}
	}
	return "", false
}

// flag reads an xsd:boolean attribute; deflt where it is absent.
func (m *markup) flag(t xml.StartElement, name string, deflt bool) (bool, error) {
	v, ok := attr(t, name)
	if !ok {
		return deflt, nil
	}
	b, ok := truth(v)
	if !ok {
		return false, m.fault("the attribute %s of <%s> is %q, neither true nor false", name, t.Name.Local, v)
	}
	return b, nil
}

// truth reads an xsd:boolean.
func truth(v string) (is, ok bool) {
	switch strings.Trim(v, space) {
	case "1", "true":
		return true, true
	case "0", "false":
		return false, true
	}
	return false, false
}

// space is what XML counts as white space.
const space = " \t\r\n"

func blank(b []byte) bool { return len(bytes.Trim(b, space)) == 0 }

// index reads an attribute that counts something from 0; 0 where it is absent.
func (m *markup) index(t xml.StartElement, name string) (int, error) {
	v, ok := attr(t, name)
	if !ok {
		return 0, nil
	}
	n, ok := count(v)
	if !ok {
		return 0, m.fault("the attribute %s of <%s> is %q, not a whole number", name, t.Name.Local, v)
	}
	return n, nil
}

// count reads a whole number of at most nine digits, without a sign.
func count(v string) (int, bool) {
	if v == "" || len(v) > 9 {
		return 0, false
	}
	for i := range len(v) {
		if v[i] < '0' || v[i] > '9' {
			return 0, false
		}
	}
	n, err := strconv.Atoi(v)
	return n, err == nil
}
