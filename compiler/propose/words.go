package propose

import (
	"slices"
	"strings"

	"ferrule/schema"
	"ferrule/schema/word"
)

// Role is what a column is taken for.
type Role uint8

const (
	Unclear  Role = iota // nothing says what stands there
	PartNo               // the number of the part that the row is about
	Name                 // what the part is called
	Family               // what sort of part it is
	Place                // the position at which it is fitted
	Platform             // the vehicle, perhaps with years behind its name
	Years                // model years
	Maker                // who makes the vehicle
	Quantity             // how many
	Note                 // remarks on the row
	Other                // another number of the part
	Source               // who says so
	Replaced             // what replaces the part
	Kit                  // what the part belongs to
	Property             // something measured of the part
	Trait                // something that tells vehicles apart
	PlaceOf              // its heading is a position, its cells are parts
	Grid                 // its heading is one of several values that stand side by side
	Running              // a running number of the row
)

// heads are usual headings of each role, folded, without points. They are trade terms; the list is
// common practice, no source.
var heads = map[Role][]string{
	PartNo: {"part", "part no", "part number", "part nr", "part #", "parts no", "p/n", "pn", "item no", "item number", "article", "article no",
		"art no", "art nr", "order no", "order number", "stock no", "sku", "number", "no fitted", "catalogue no", "catalog no", "our no", "our number", "part code", "code"},
	Name:   {"name", "description", "designation", "part name", "item", "product", "part description", "what", "title"},
	Family: {"family", "part family", "product group", "category", "part type", "kind of part", "group"},
	Place:  {"position", "location", "place", "where", "where fitted", "fitted at", "fitting position", "mounting position", "mounted at"},
	Platform: {"platform", "vehicle", "model", "chassis", "application", "vehicle type", "chassis type", "vehicle model", "chassis model", "body on", "series",
		"fits", "for", "used on"},
	Years: {"years", "year", "model year", "model years", "year(s)", "my", "built", "build years", "production", "year range"},
	Maker: {"maker", "make", "manufacturer", "brand", "chassis maker", "vehicle maker"},
	Quantity: {"quantity", "qty", "qty per vehicle", "quantity per vehicle", "no off", "pcs", "pieces", "how many", "per vehicle", "number per vehicle",
		"amount", "qnty"},
	Note: {"note", "notes", "remark", "remarks", "comment", "comments", "restriction", "restrictions", "conditions", "condition", "details", "exceptions", "limitations",
		"fitment notes", "application notes"},
	Other: {"other number", "reference", "cross reference", "cross-reference", "cross ref", "original no", "original number", "oem", "oem no",
		"oem number", "oe", "oe no", "oe number", "maker's no", "maker's number", "former no", "former number", "old no", "old number", "interchange", "supplier no", "competitor no"},
	Source:   {"source", "according to", "data from"},
	Replaced: {"replaced by", "superseded by", "replacement", "new no", "new number", "successor"},
	Kit:      {"kit", "kit no", "kit number", "set", "set no", "assembly"},
	Running:  {"#", "no", "nr", "pos", "line", "row", "item #", "id"},
}

// roleOfHead gives what a heading is usually over, Unclear where it is none of the usual ones.
func roleOfHead(head string) Role {
	plain := plainHead(head)
	for r := PartNo; r <= Running; r++ {
		if slices.Contains(heads[r], plain) {
			return r
		}
	}
	return Unclear
}

// plainHead is how headings are compared: folded, without points, signs behind and units.
func plainHead(head string) string {
	head, _, _ = strings.Cut(head, "[")
	plain := strings.TrimRight(word.Fold(strings.ReplaceAll(head, ".", " ")), ":*? ")
	return strings.Join(strings.Fields(plain), " ")
}

// usualHead tells headings that people use, of whatever kind of sheet.
func (n *Names) usualHead(text string) bool {
	if roleOfHead(text) != Unclear {
		return true
	}
	if n.Is(AsTrait, text) || n.Is(AsPosition, text) {
		return true
	}
	for _, kind := range schema.Kinds() {
		if c, ok := schema.Find(kind, text); ok && c.Required {
			return true
		}
	}
	return false
}

// placeWords begin or make up the names of places on a vehicle. Common practice, no source.
var placeWords = []string{"front", "rear", "left", "right", "upper", "lower", "inner", "outer", "axle", "drive", "tag", "pusher", "steering", "lift",
	"lh", "rh", "nearside", "offside", "centre", "center", "driver", "bogie"}

// placeLike tells texts that name a place by a word for one.
func placeLike(text string) bool {
	for _, w := range strings.FieldsFunc(word.Fold(text), func(r rune) bool { return r == ' ' || r == '-' || r == ',' || r == '/' }) {
		if slices.Contains(placeWords, w) {
			return true
		}
	}
	return false
}

// restricting are words that a remark limits what it stands beside with. Common practice, no source.
var restricting = []string{"except", "exc", "excl", "excluding", "only", "with", "without", "w/", "w/o", "not", "no", "if", "from", "to", "up", "until", "till", "before",
	"after", "since", "thru", "through", "unless", "when", "where", "where fitted", "for", "models", "left", "right", "lh", "rh", "lhd", "rhd",
	"chassis", "vin", "serial", "requires", "require", "must", "needs", "limited", "vehicle", "automatic", "manual", "option", "optional"}

// restricts tells whether a remark may limit the vehicles that its row is about. A digit may stand
// for years or numbers, so it counts as a limit as well.
func restricts(text string) bool {
	if strings.ContainsAny(text, "0123456789") {
		return true
	}
	for _, w := range strings.FieldsFunc(word.Fold(text), func(r rune) bool { return strings.ContainsRune(" ,;.:()", r) }) {
		if slices.Contains(restricting, w) || strings.HasPrefix(w, "w/") {
			return true
		}
	}
	return false
}
