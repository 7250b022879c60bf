package schema

import "maps"

// few is how many objects and lists a schema may hold to be compiled as what it is.
const few = 1000

// quick tells whether schemas hold so much that they had better be compiled by the draft before
// 2020-12, and read the same there: of 2020-12 the library looks through all that a schema holds
// for each rule, for anchors that `$dynamicRef` may mean. The drafts differ in the keywords below
// (JSON Schema 2020-12, release notes), and in those that the earlier one alone knows.
func quick(docs map[string]any) bool {
	n := 0
	for _, doc := range docs {
		if mentions(doc) {
			return false
		}
		n += holds(doc)
	}
	return n > few
}

// holds counts the objects and lists of a document.
func holds(doc any) int {
	n := 0
	switch v := doc.(type) {
	case map[string]any:
		n++
		for _, inner := range v {
			n += holds(inner)
		}
	case []any:
		n++
		for _, inner := range v {
			n += holds(inner)
		}
	}
	return n
}

// mentions tells whether something in a document has a name that the two drafts read differently.
// One that is no keyword where it stands counts, too: then the document is compiled as it is meant.
func mentions(doc any) bool {
	switch v := doc.(type) {
	case map[string]any:
		for name, inner := range v {
			switch name {
			case "$dynamicAnchor", "$dynamicRef", "$recursiveAnchor", "$recursiveRef", "$vocabulary",
				"items", "prefixItems", "additionalItems", "contains", "minContains", "maxContains", "unevaluatedItems", "unevaluatedProperties":
				return true
			}
			if mentions(inner) {
				return true
			}
		}
	case []any:
		for _, inner := range v {
			if mentions(inner) {
				return true
			}
		}
	}
	return false
}

// undated is a document that does not say itself of which draft it is: it has been looked at.
func undated(doc any) any {
	top, ok := doc.(map[string]any)
	if !ok {
		return doc
	}
	top = maps.Clone(top)
	delete(top, "$schema")
	return top
}
