// Package model is the catalogue: what all workbooks together state, with names
// resolved and every value knowing the cell it came from.
//
// A Catalogue is built by the bind stage and never changed after it. Pointers stand
// for identity: two rows that name the same part hold the same *Part.
package model

import (
	"slices"
	"strings"
	"unicode"

	"ferrule/compiler/line"
	"ferrule/compiler/measure"
	"ferrule/compiler/space"
	"ferrule/schema/word"
	"ferrule/sheets/cell"
)

// Catalogue holds every table, in the order of file, sheet and row.
type Catalogue struct {
	Settings    Settings
	Platforms   []*Platform
	Traits      []*Trait
	YearTell    []Tell   // how to tell the model year, from the Traits sheet
	YearCalled  []Called // what else the model year is called
	Vehicles    []*Vehicles
	Breaks      []*Break
	Positions   []*Position
	Parts       []*Part // declared by Parts or Kits; what nothing declares is not here
	References  []*Reference
	SizeRows    []*SizeRow
	Sizes       measure.Table // the built-in nominal sizes and those of SizeRows
	Fitments    []*Fitment
	Rules       []*Rule
	Figures     []*Figure
	Facts       []*Fact
	FactRows    []*FactRow
	Limits      []*Limit
	Cautions    []*Caution
	Complaints  []*Complaint
	Inspections []*Inspection
	// Translations are what texts read in other languages, in the order of rows.
	Translations []*Translation
	Acceptances  []*Acceptance
	// Undeclared says that a sheet is missing which the rest refers to, or has no header that
	// can be read: what it means for vehicles would only repeat that.
	Undeclared bool
}

// Settings of the catalogue; the zero value of each field is its default.
type Settings struct {
	Title, Publisher, Release, BaseURL, Contact string
	Millimetres                                 bool // millimetres first in guides
	DecimalComma                                bool
	Language                                    string   // the tag of the language of the workbooks' texts; "" is DefaultLanguage
	Languages                                   []string // tags of those that guides are published in as well, each once
	TitleAt, LanguagesAt                        cell.Place
}

// System gives the system of units that guides print first.
func (s *Settings) System() measure.System {
	if s.Millimetres {
		return measure.MetricSystem
	}
	return measure.InchSystem
}

// Platform is one chassis platform.
type Platform struct {
	Index   int
	Name    string
	Years   []int // chassis model years, ascending; holes are left out
	Maker   string
	Summary string
	Tell    string // how to tell that a vehicle is of this platform
	Picture Picture
	Called  []Called   // what else it is called
	At      cell.Place // the Platform cell
	// Partial says that its Years, or a Vehicles row that is or may be about it, could not be
	// read: more vehicles of it exist than are known.
	Partial bool
}

// TraitKind says which conditions a trait's values allow.
type TraitKind uint8

const (
	Choice  TraitKind = iota
	Ordered           // `from` and `to` follow the declared order
	Size              // values are sizes, matched by magnitude
	Serial            // values are serial numbers
	Date              // values are days
)

// TraitKinds gives all kinds.
func TraitKinds() []TraitKind { return []TraitKind{Choice, Ordered, Size, Serial, Date} }

func (k TraitKind) String() string {
	return [...]string{"choice", "ordered", "size", "serial", "date"}[k]
}

// Trait is something to be seen or measured on a vehicle.
type Trait struct {
	Index    int
	Name     string
	Kind     TraitKind
	Question string
	Effort   int // 1 to 5
	Picture  Picture
	Tell     []Tell   // texts about the trait as a whole
	Called   []Called // what else the trait is called
	// Values are those that are declared; of a trait on a line the stretches of a platform, and
	// none where it is not about one.
	Values []*Value
	// Extents say which values a trait on a line has.
	Extents []Extent
	At      cell.Place

	declared *Trait // see Declared
}

// Absent is the index that stands for 'does not apply' in a Set of the trait's
// values: the one after the last declared value.
func (t *Trait) Absent() int { return len(t.Values) }

// Value is one declared value of a trait, or a stretch of one on a line.
type Value struct {
	Name    string
	Stretch line.Range   // of traits on a line
	Size    measure.Size // of traits of kind Size; Num is nil where it could not be read
	Tell    []Tell
	Called  []Called // what else it is called
	Picture Picture
	At      cell.Place
}

// Tell is a text that says how to see which vehicle one has; Platform is nil where
// it holds for all.
type Tell struct {
	Platform *Platform
	Text     string
	Picture  Picture
	Effort   int        // 0 where the row leaves it to the trait
	At       cell.Place // its How to tell cell
}

// Vehicles is one row of a Vehicles sheet: a box of vehicles that exist.
type Vehicles struct {
	When   When   // Traits holds every trait; a trait left blank is {Absent}
	Road   Number // on the road; not Stated where the row has none
	Note   string // for the staff only
	At     cell.Place
	RoadAt cell.Place
}

// Break is one row of a Breaks sheet: when values of a trait are built. A vehicle of the
// platform with one of the values exists only where the conditions of such a row hold.
type Break struct {
	When   When
	Value  TraitSet
	Source string
	Note   string     // for the staff only
	At     cell.Place // the Value cell
}

// Position is a place where something is fitted.
type Position struct {
	Index    int
	Name     string
	Axle     string    // front, pusher, drive, tag or ""
	Side     string    // left, right, centre, both or ""
	Pair     *Position // the one opposite
	Coverage Coverage
	Summary  string
	Picture  Picture
	Rows     []*PositionRow
	At       cell.Place // the Position cell of its first row
	PairAt   cell.Place // the cell that makes the two a pair: its own Pair cell or the other's
	// Families are those of the parts that belong there, as written. Empty and not
	// AnyFamily: nobody says.
	Families  []string
	AnyFamily bool // said on purpose
	FamilyAt  cell.Place
}

// Takes tells whether a part belongs at the position, of which its Families say so: its
// own Family is one of them or, of a kit, that of something it holds.
func (p *Position) Takes(part *Part) bool {
	takes := p.lists(part.Family)
	if part.Kit() {
		part.Within(func(held *Part) { takes = takes || p.lists(held.Family) })
	}
	return takes
}

func (p *Position) lists(family string) bool {
	return family != "" && slices.ContainsFunc(p.Families, func(f string) bool { return word.Fold(f) == word.Fold(family) })
}

// Lined gives the rows that name an Air line.
func (p *Position) Lined() []*PositionRow {
	var out []*PositionRow
	for _, r := range p.Rows {
		if r.AirLine != nil {
			out = append(out, r)
		}
	}
	return out
}

// Coverage says how much it matters that every vehicle has a part there.
type Coverage uint8

const (
	Required Coverage = iota
	Wanted
	Optional
)

func (c Coverage) String() string { return [...]string{"required", "wanted", "optional"}[c] }

// PositionRow is one row of a Positions sheet: where the position exists, with
// which quantity and line.
type PositionRow struct {
	Position *Position
	When     When
	Quantity int
	AirLine  *Trait // nil where no line is named
	At       cell.Place
	LineAt   cell.Place
}

// Status of a part.
type Status uint8

const (
	Current Status = iota
	Superseded
	Withdrawn
)

func (s Status) String() string { return [...]string{"current", "superseded", "withdrawn"}[s] }

// Part is one part number or kit.
type Part struct {
	Number     string
	Name       string
	Family     string
	Status     Status
	ReplacedBy *Fits // nil where nothing is named
	Line       *measure.Size
	Cautions   []Note
	Summary    string
	Picture    Picture
	Properties []Property
	Readings   []Reading   // its figures, as far as they are known
	Contents   []Component // not empty: a kit
	Listed     bool        // has a row in a Parts sheet
	Known      bool        // false: a number that nothing declares
	Misread    bool        // it stands in for a text that says something else than a number, and is never published
	At         cell.Place  // the Part cell, or the first Kit cell
	StatusAt   cell.Place
	LineAt     cell.Place
	ReplacedAt cell.Place
	FamilyAt   cell.Place
}

// Kit tells whether the number stands for several parts.
func (p *Part) Kit() bool { return len(p.Contents) > 0 }

// Property is what a part says under a further column of its Parts sheet.
type Property struct {
	Name     string
	Unit     string // from the header's brackets
	Text     string
	Quantity measure.Quantity // not Known where the column is not measured, or the cell no value
	Refused  bool             // it contradicts itself, or is no value of its column: never published
	By       *Calculated      // what calculates the property; nil where the part states it
	Public   bool             // for the world, and not for the staff alone
	At       cell.Place
}

// Behind gives the unit of the header where it belongs behind the text of a property: the
// text is a number without one, and was read as a value, or the unit is none that is known
// here. What could not be read may have a unit of its own.
func (p *Property) Behind() string {
	bare := strings.ContainsFunc(p.Text, unicode.IsNumber) &&
		!strings.ContainsFunc(p.Text, func(r rune) bool { return unicode.IsLetter(r) || strings.ContainsRune("\"'°º˚%″′”’", r) })
	if _, known := measure.ParseUnit(p.Unit); !bare || known && !p.Quantity.Known() {
		return ""
	}
	return p.Unit
}

// Component is one line of a kit.
type Component struct {
	Part     *Part
	Quantity int
	At       cell.Place // the Part cell
}

// Reference is another number of a part.
type Reference struct {
	Number string
	Part   *Part
	Source string
	Kind   string // original, former, other
	Note   string // for the staff only
	At     cell.Place
}

// SizeRow is one row of a Sizes sheet: a nominal size beside the built-in ones.
type SizeRow struct {
	measure.Row
	Outside string // Outside diameter, Tolerance and Wall with their units, "" where blank
	Within  string
	Wall    string
	At      cell.Place // the Nominal cell
}

// Fitment is one row of a Fitment sheet.
type Fitment struct {
	Index      int
	Row        int32 // of its sheet; At may be a merged range's first row
	When       When
	Precedence int
	Notes      *Notes // the row's own, printed with each of its cells; nil for none
	Cells      []*FitCell
	At         cell.Place // the leftmost filled cell
}

// FitCell says what one row fits at one position.
type FitCell struct {
	Row      *Fitment
	Position *Position
	Fits     *Fits
	Notes    *Notes // the row's and the cell's own; nil for none
	At       cell.Place
}

// Note is a text that guides print beside a part, or a caution from the Cautions
// sheet.
type Note struct {
	Text    string
	Caution *Caution // nil for plain text
}

// Notes are those of a fitment row or cell. Most have none, and the cells of a row share its own.
type Notes []Note

// NotesOf gives nil where there are none.
func NotesOf(list ...Note) *Notes {
	if len(list) == 0 {
		return nil
	}
	return (*Notes)(&list)
}

// All lists them.
func (n *Notes) All() []Note {
	if n == nil {
		return nil
	}
	return *n
}

// Caution is a text that guides print.
type Caution struct {
	Key   string
	Text  string
	Level string // one of Levels
	At    cell.Place
}

// Levels gives the levels of cautions, the gravest first.
func Levels() []string { return []string{"danger", "warning", "notice", "note"} }

// Effect of a Rule.
type Effect uint8

const (
	Forbid Effect = iota
	Require
	Care
)

func (e Effect) String() string { return [...]string{"forbid", "require", "caution"}[e] }

// Rule is one row of a Compatibility sheet.
type Rule struct {
	Part   *Part  // nil: any
	Family string // "": any
	With   *Part  // nil: the rule is about the vehicle alone
	When   When
	Effect Effect
	Reason string
	At     cell.Place // the leftmost filled cell
	PartAt cell.Place // the Part or Family cell
	WithAt cell.Place
}

// Acceptance is one row of an Accepted sheet.
type Acceptance struct {
	Code     string
	When     When
	Position *Position // nil: any
	Part     *Part     // nil: any
	Reason   string
	By       string
	Until    string // ISO date, "" for no end
	At       cell.Place
	UntilAt  cell.Place
}

// When is a condition: which vehicles a row is about.
type When struct {
	Platforms []*Platform // nil: any; ascending by Index
	Years     *Years      // nil: any
	Traits    []TraitSet  // restricted traits only, ascending by Index
	SetAside  bool        // a name in it is unknown: the row is set aside
}

// TraitSet restricts one trait; the set may hold Trait.Absent.
type TraitSet struct {
	Trait  *Trait
	Values space.Set
	// Line says which values are meant of a trait on a line that is not about one platform. Such
	// a trait has no Values, and the set holds its Absent or nothing.
	Line *Line
}

// Span is a closed range of years.
type Span struct{ From, To int }

// Years is a condition on the chassis model year.
type Years struct {
	Not   bool
	Spans []Span
}

// Open ends of a Span.
const (
	FirstYear = -1 << 30
	LastYear  = 1 << 30
)

// Has tells whether the condition holds for a year.
func (y *Years) Has(year int) bool {
	if y == nil {
		return true
	}
	for _, s := range y.Spans {
		if s.From <= year && year <= s.To {
			return !y.Not
		}
	}
	return y.Not
}
