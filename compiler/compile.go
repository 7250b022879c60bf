package compiler

import (
	"context"
	"errors"
	"fmt"
	"runtime"
	"slices"
	"strings"

	"ferrule/compiler/bind"
	"ferrule/compiler/finding"
	"ferrule/compiler/imprint"
	"ferrule/compiler/intake"
	"ferrule/compiler/intake/drag"
	"ferrule/compiler/intake/sorted"
	"ferrule/compiler/intake/stray"
	"ferrule/compiler/intake/table"
	"ferrule/compiler/intake/written"
	"ferrule/compiler/judge"
	"ferrule/compiler/judge/accept"
	"ferrule/compiler/judge/decide"
	"ferrule/compiler/kinds"
	"ferrule/compiler/owed"
	"ferrule/compiler/parallel"
	"ferrule/compiler/propose"
	"ferrule/compiler/repair"
	"ferrule/schema/word"
)

// Input names what is read: folders, each with its workbooks, or single workbooks.
type Input struct {
	Paths []string // of folders and of workbooks
	// Instead gives, for workbooks by their names in findings, the files that are read in their place:
	// what copies say is worked out as if they stood where the workbooks stand.
	Instead map[string]string
}

// Options of a run.
type Options struct {
	Today   string // ISO date that acceptances are read on; changes findings only
	Workers int    // 0: as many as there are processors; the result is the same
	Guides  bool   // work out the cases that guides are made of
	Compare bool   // work out what two releases are compared by
	Brief   bool   // findings are only to be counted: do not list their vehicles
	// Unchecked stops where the catalogue is bound: nothing is said about vehicles, and
	// no finding is held against Accepted rows.
	Unchecked bool
	// Progress is told of each stage as it begins and when it is done; nil: nobody.
	Progress func(Stage)
}

// Compile reads the workbooks and works everything out. The error says that the
// program could not run: nothing to read, a folder that cannot be opened, a cancelled
// context. What is wrong with the data is in the findings. With the context it ends at once,
// whatever it is at.
func Compile(ctx context.Context, in Input, o Options) (*Result, error) {
	o.Progress = until(ctx, o.Progress)
	var res *Result
	var err error
	if stopped := parallel.Until(ctx, func() { res, err = compile(ctx, in, o, nil) }); stopped != nil {
		return nil, stopped
	}
	return res, err
}

// compile is all of Compile, for as long as anybody waits for it, as far as it is not known from
// before; kept is nil where nothing is kept.
func compile(ctx context.Context, in Input, o Options, kept *Resident) (*Result, error) {
	src, err := intake.Find(in.Paths)
	if err != nil {
		return nil, err
	}
	src.Replace(in.Instead)
	res := &Result{}
	r := intake.NewReader()
	report := func(f *finding.Finding) {
		if f = r.Place(f); f == nil {
			return
		}
		f.Message = finding.Short(f.Message)
		res.Findings = append(res.Findings, f)
	}

	for i, b := range src.Books {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		stage := begin(o.Progress, Stage{Name: StageRead, File: b.Name, Number: i + 1, Of: len(src.Books)})
		before := len(r.Tables)
		r.Take(kept.load(r, b))
		stage.Rows, stage.Cells = table.Extent(r.Tables[before:])
		stage.done()
	}
	lost := r.Finish(src, report)
	res.Read, res.Whole, res.Fleets = r.Read, r.Whole, r.Fleets
	if len(r.Tables) == 0 && r.Whole {
		return nil, noSheet(src, res.Findings, r.Unlike())
	}

	rows, cells := table.Extent(r.Tables)
	stage := begin(o.Progress, Stage{Name: StageValidate, Rows: rows, Cells: cells})
	set := intake.Schemas(src, report)
	stray.SetAside(r.Tables, report)
	intake.Validate(set, r.Tables, report)
	stage.done()

	stage = begin(o.Progress, Stage{Name: StageBind, Rows: rows, Cells: cells})
	var imprints *imprint.Sheets
	var runs []*drag.Run
	var inOrder []*sorted.Column
	parallel.Do(o.Workers,
		func() { imprints = kept.imprints(r.Tables, lost, src) },
		func() { runs = drag.Find(r.Tables) },
		func() { inOrder = sorted.Find(r.Tables, drag.Positions(r.Tables)) })
	if o.Compare || o.Guides {
		res.Sheets = written.Of(r.Tables)
	}
	late := intake.Ahead(r.Tables, o.Today)
	aside := &owed.Ledger{}
	mending := repair.New(r.Tables)
	cat := bind.Catalogue(bind.Input{Tables: r.Tables, Aside: lost, Codes: codes(), Told: res.Findings, Report: guarded(r.Whole, report), Owed: aside})
	res.Findings = append(res.Findings, intake.NotOutside(late, res.Findings)...)
	if r.Whole {
		res.Findings = drag.Fold(runs, cat, res.Findings)
	}
	mending.Propose(cat, res.Findings)
	collect(rows)
	stage.done()

	use := accept.Use{}
	ledger := accept.New(cat, o.Today)
	if res.Whole {
		res.Catalogue, res.ask = cat, judge.Options{Ledger: ledger, Owed: aside, Ready: &judge.Ready{}}
	}
	if res.Whole && !o.Unchecked {
		if err := res.pictures(ctx, src, o, kept.seen(), report); err != nil {
			return nil, err
		}
		rows, cells := fitted(cat)
		stage := begin(o.Progress, Stage{Name: StageCheck, Rows: rows, Cells: cells})
		tell := report
		if cat.Undeclared {
			tell = func(*finding.Finding) {}
		}
		if o.Guides || o.Compare {
			res.Guides = make([]*decide.Packed, len(cat.Platforms))
		}
		_, err = judge.Platforms(ctx, cat, judge.Options{Ledger: ledger, Owed: aside, Use: use, Workers: o.Workers, Cases: o.Guides, Unsettled: o.Compare, Brief: o.Brief, Ready: res.ask.Ready,
			Guide: func(i int, g *decide.Guide) { res.Guides[i] = decide.Pack(g) }, Recall: kept.recall(imprints, cat, aside, res.Findings, o)}, tell)
		if err != nil {
			return nil, err
		}
		if !cat.Undeclared {
			res.Findings = sorted.Tell(inOrder, cat, res.Findings)
		}
		res.settle(ledger, use, aside, tell)
		stage.done()
	}
	finding.Sort(res.Findings)
	return res, nil
}

// manyRows is from how many rows on the tables of a catalogue, which are as large as all that is
// kept of them, are worth collecting at once.
const manyRows = 100_000

// collect has the tables collected, which are bound now. Left to itself the collector would only
// come when the heap is twice what it was with them.
func collect(rows int) {
	if rows >= manyRows {
		runtime.GC()
	}
}

// settle lets Accepted rows quiet the findings that are not about certain vehicles, counts
// those that rows of sheets which are not used would quiet, and reports the rows that are past their date or matched nothing.
func (res *Result) settle(ledger *accept.Rows, use accept.Use, aside *owed.Ledger, report func(*finding.Finding)) {
	lost := ledger.Lost(aside.Acceptances())
	res.Findings = slices.DeleteFunc(res.Findings, func(f *finding.Finding) bool {
		if f.Region != nil && f.Region.Exact {
			return false
		}
		ledger.Whole(f, use)
		cause := lost.Whole(f)
		if cause == nil || cause == f {
			return false
		}
		cause.Owe(f.Code, 1)
		return true
	})
	ledger.Findings(use, aside, report)
}

// guarded holds back findings that say that something is missing while a workbook is
// missing: they may be its fault.
func guarded(whole bool, report func(*finding.Finding)) func(*finding.Finding) {
	if whole {
		return report
	}
	return func(f *finding.Finding) {
		switch f.Code {
		case finding.ConditionMalformed, finding.FitmentMalformed, finding.SizeUnitless, finding.SizeMalformed, finding.SizeUnusual,
			finding.SizeMixedUnits, finding.SizeContradiction, finding.KitCycle, finding.ReplacementCycle, finding.DeclaredTwice, finding.RuleIncomplete:
			report(f)
		}
	}
}

// ErrNoSheet says that the workbooks hold nothing that belongs to a catalogue.
var ErrNoSheet = errors.New("no sheet of these workbooks belongs to a catalogue")

// noSheet says what the sheets look like instead, where that is known, and else what is not read.
func noSheet(src *intake.Sources, fs []*finding.Finding, unlike []string) error {
	if like := propose.Like(src); like != "" {
		return fmt.Errorf("%w: these look like %s; ferrule layout proposes how to read them", ErrNoSheet, like)
	}
	var words []string
	for _, f := range fs {
		if f.Code == finding.SheetIgnored {
			words = append(words, f.Cells[0].Place.String()+": "+f.Message)
		}
	}
	if len(unlike) > 0 {
		look := "looks like a table in a shape of its own: a Layouts sheet says how it is read"
		if len(unlike) > 1 {
			look = "look like tables in a shape of their own: a Layouts sheet says how they are read"
		}
		words = append(words, fmt.Sprintf("%s %s, and ferrule layout proposes one", word.List(unlike, "and"), look))
	}
	return fmt.Errorf("%w: %s", ErrNoSheet, strings.Join(words, "; "))
}

func codes() []finding.Code {
	var out []finding.Code
	for _, k := range kinds.All() {
		out = append(out, k.Code)
	}
	return out
}
