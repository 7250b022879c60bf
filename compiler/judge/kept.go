package judge

import (
	"slices"
	"sync"

	"ferrule/compiler/finding"
	"ferrule/compiler/imprint"
	"ferrule/compiler/judge/check"
	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
	"ferrule/sheets/cell"
)

// Kept holds what was worked out for platforms, for catalogues made later in which the same is
// said of them. The zero value holds nothing. No catalogue but the last is kept alive by it.
type Kept struct {
	Reused    int // platforms of the last run that were not worked out again
	today     string
	brief     bool
	said      string // what findings depend on that stands in rows of other platforms
	placed    string // and where it stands
	platforms map[string]keptPlatform
}

type keptPlatform struct {
	key   imprint.Key
	found *check.Kept
}

// Recall is what a run takes from what was kept, and gives to it.
type Recall struct {
	*Kept
	Keys   []imprint.Key      // by platform
	Sheets []*cell.Sheet      // all that there are
	Told   []*finding.Finding // before platforms are looked at
	Today  string             // that acceptances are read on
}

// recaller recalls platforms for one run.
type recaller struct {
	*Recall
	mutex  sync.Mutex
	index  *decide.Index
	checks *check.Run
	cat    *model.Catalogue
	old    map[string]keptPlatform
	moved  bool                     // what stands in rows of other platforms does so elsewhere
	odd    map[*model.Platform]bool // what is said of them is found among other platforms, too
	parts  map[string]*model.Part
	causes map[check.Cause]*finding.Finding
	sheets map[sheetName]*cell.Sheet
}

type sheetName struct{ file, name string }

func nameOf(s *cell.Sheet) sheetName { return sheetName{s.File, s.Name} }

// recaller gets ready; nil where nothing is kept. What was kept for other options is
// forgotten.
func (o *Options) recaller(index *decide.Index, checks *check.Run, cat *model.Catalogue) *recaller {
	k := o.Recall
	if k == nil || o.guided() || o.Within != nil || o.Checks != nil || o.Budget != 0 {
		return nil
	}
	said, placed := checks.Across()
	r := &recaller{Recall: k, index: index, checks: checks, cat: cat, old: k.platforms, moved: k.placed != placed, odd: checks.Odd(),
		parts: map[string]*model.Part{}, causes: map[check.Cause]*finding.Finding{}, sheets: map[sheetName]*cell.Sheet{}}
	if k.today != k.Today || k.brief != o.Brief || k.said != said {
		r.old = nil
	}
	k.today, k.brief, k.said, k.placed, k.Reused, k.platforms = k.Today, o.Brief, said, placed, 0, map[string]keptPlatform{}
	for _, p := range cat.Parts {
		r.parts[p.Number] = p
	}
	for _, f := range k.Told {
		cause := check.CauseOf(f)
		if _, twice := r.causes[cause]; twice {
			f = nil // which of them is meant cannot be told
		}
		r.causes[cause] = f
	}
	for _, s := range k.Sheets {
		r.sheets[nameOf(s)] = s
	}
	return r
}

// again gives what was found on a platform, and keeps it on; false where it has to be found
// anew.
func (r *recaller) again(p *model.Platform) (*check.Result, bool) {
	if r == nil || r.odd[p] {
		return nil, false
	}
	kept, ok := r.old[p.Name]
	if !ok || kept.key.Said != r.Keys[p.Index].Said {
		return nil, false
	}
	from := kept.key.Placed
	to := r.Keys[p.Index].Placed
	moved := r.moved || !slices.EqualFunc(from, to, func(a, b imprint.Placed) bool { return a.Row == b.Row && nameOf(a.Sheet) == nameOf(b.Sheet) })
	at := r.movers(from, to, moved)
	found, ok := r.checks.Again(kept.found, check.Home{Index: r.index, Platform: p, Cat: r.cat, Moved: moved,
		Place: at, Part: func(number string) *model.Part { return r.parts[number] }, Cause: func(c check.Cause) *finding.Finding { return r.causes[c] }})
	if ok {
		r.keep(p, found, true)
	}
	return found, ok
}

// movers gives where a cell stands now. Rows about the platform are known wherever they stand; a
// cell in another row of their sheets is found where nothing has moved.
func (r *recaller) movers(from, to []imprint.Placed, moved bool) func(cell.Place) (cell.Place, bool) {
	type row struct {
		sheet  *cell.Sheet
		number int32
	}
	rows, sheets := map[row]int32{}, map[*cell.Sheet]bool{}
	for i, f := range from {
		sheets[f.Sheet] = true
		if moved {
			rows[row{f.Sheet, f.Row}] = to[i].Row
		}
	}
	return func(at cell.Place) (cell.Place, bool) {
		if at.Sheet == nil {
			return at, true
		}
		sheet := r.sheets[nameOf(at.Sheet)]
		if sheet == nil {
			return at, false
		}
		out := cell.Place{Sheet: sheet, Pos: at.Pos}
		if !moved {
			return out, true
		}
		n, ok := rows[row{at.Sheet, at.Pos.Row}]
		if !ok {
			return out, !sheets[at.Sheet]
		}
		out.Pos.Row = n
		return out, true
	}
}

// keep keeps what was found on a platform, before it is told. Workers may call it at once.
func (r *recaller) keep(p *model.Platform, found *check.Result, reused bool) {
	if r == nil || r.odd[p] {
		return
	}
	kept := keptPlatform{r.Keys[p.Index], found.Keep(r.index, p, r.cat)}
	r.mutex.Lock()
	defer r.mutex.Unlock()
	r.platforms[p.Name] = kept
	if reused {
		r.Reused++
	}
}

// forget forgets all: the run did not come to its end.
func (r *recaller) forget() {
	if r != nil {
		*r.Kept = Kept{}
	}
}
