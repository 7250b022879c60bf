// Package fleet writes the answers about a customer's vehicles: as the sheets of a workbook, and as
// text files of them.
package fleet

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"ferrule/compiler/ask/fleet"
	"ferrule/compiler/model"
	"ferrule/out/markup"
	"ferrule/schema/word"
)

// The names of the sheets.
const (
	Cautions = "Cautions"
	Parts    = "Parts by vehicle"
	Order    = "To order"
	Ask      = "To ask"
	NotRead  = "Not read"
)

// Names gives the sheets in the order of the workbook: what protects comes first.
func Names() []string { return []string{Cautions, Parts, Order, Ask, NotRead} }

// Tables gives the sheets of a fleet that has been answered.
func Tables(f *fleet.Fleet) []markup.Long {
	return []markup.Long{cautions(f), parts(f), order(f), asks(f), refused(f)}
}

func col(title string, width float64) markup.LongColumn {
	return markup.LongColumn{Title: title, Width: width}
}

// columns gives columns with those that are carried along behind some of them. A heading that is
// one of ours, or stands there already, gets a number.
func columns(f *fleet.Fleet, before []markup.LongColumn, behind ...markup.LongColumn) []markup.LongColumn {
	out := slices.Clone(before)
	taken := map[string]bool{}
	for _, c := range slices.Concat(before, behind) {
		taken[word.Fold(c.Title)] = true
	}
	for _, title := range f.Carried {
		name := title
		for n := 2; taken[word.Fold(name)]; n++ {
			name = fmt.Sprintf("%s (%d)", title, n)
		}
		taken[word.Fold(name)] = true
		out = append(out, col(name, 18))
	}
	return append(out, behind...)
}

func cautions(f *fleet.Fleet) markup.Long {
	return markup.Long{Name: Cautions,
		Columns: []markup.LongColumn{col("No.", 6), col("Level", 10), col("Caution", 90), col("Positions", 40), col("Vehicles", 10)},
		Rows: func(yield func([]any) error) error {
			for i := range f.Cautions {
				c := &f.Cautions[i]
				if err := yield([]any{int64(i + 1), c.Level, c.Text, cmp.Or(positions(c.Positions), "the vehicle"), c.Vehicles}); err != nil {
					return err
				}
			}
			return nil
		}}
}

func positions(all []*model.Position) string {
	names := make([]string, len(all))
	for i, p := range all {
		names[i] = p.Name
	}
	return strings.Join(names, ", ")
}

// vehicle puts where a row stands, what it says and what it carries along into cells.
func vehicle(to []any, at fleet.At, says string, carried []string) []any {
	to = append(to, at.Sheet, int64(at.Row), says)
	for _, text := range carried {
		to = append(to, text)
	}
	return to
}

func vehicleColumns() []markup.LongColumn {
	return []markup.LongColumn{col("Sheet", 12), col("Row", 7), col("Vehicle", 36)}
}

func parts(f *fleet.Fleet) markup.Long {
	t := markup.Long{Name: Parts, Columns: columns(f, vehicleColumns(), col("Position", 22), col("Number", 16), col("Name", 30),
		col("Least quantity", 10), col("Most quantity", 10), col("Choice", 30), col("What is open", 50), col("See cautions", 12))}
	t.Rows = func(yield func([]any) error) error {
		var row []any
		for i := range f.Rows {
			r := &f.Rows[i]
			head := vehicle(row[:0], r.At, r.Says(), r.Carried)
			n := len(head)
			if len(r.Places()) == 0 {
				if err := yield(append(head[:n], nil, nil, nil, int64(0), int64(0), nil, "the catalogue has no place on such a vehicle", nil)); err != nil {
					return err
				}
			}
			for _, p := range r.Places() {
				see := numbers(p.Cautions)
				if len(p.Items) == 0 {
					row = append(head[:n], p.Position.Name, nil, nil, int64(0), int64(0), p.Choice, p.Says, see)
					if err := yield(row); err != nil {
						return err
					}
				}
				for _, it := range p.Items {
					row = append(head[:n], p.Position.Name, it.Part.Number, it.Part.Name, it.Least*r.Quantity, it.Most*r.Quantity, p.Choice, p.Says, see)
					if err := yield(row); err != nil {
						return err
					}
				}
			}
			row = head
		}
		return nil
	}
	return t
}

func numbers(all []int) string {
	words := make([]string, len(all))
	for i, n := range all {
		words[i] = strconv.Itoa(n)
	}
	return strings.Join(words, ", ")
}

func order(f *fleet.Fleet) markup.Long {
	return markup.Long{Name: Order,
		Columns: []markup.LongColumn{col("Number", 16), col("Name", 40), col("Least quantity", 10), col("Most quantity", 10), col("Vehicles", 10),
			col("Holds", 50), col("Status", 14)},
		Rows: func(yield func([]any) error) error {
			for _, l := range f.Order {
				status := ""
				if l.Part.Status != model.Current {
					status = l.Part.Status.String()
				}
				if err := yield([]any{l.Part.Number, l.Part.Name, l.Least, l.Most, l.Vehicles, Holds(l.Part), status}); err != nil {
					return err
				}
			}
			return nil
		}}
}

// Holds says what is in a kit, "" for a part that is none.
func Holds(p *model.Part) string {
	words := make([]string, len(p.Contents))
	for i, c := range p.Contents {
		words[i] = fmt.Sprintf("%d x %s", c.Quantity, c.Part.Number)
	}
	return strings.Join(words, " + ")
}

func asks(f *fleet.Fleet) markup.Long {
	t := markup.Long{Name: Ask, Columns: columns(f, vehicleColumns(), col("Question", 40), col("How to tell", 70), col("It decides", 40),
		col("Write under", 20), col("It may be", 40), col("Effort", 8))}
	t.Rows = func(yield func([]any) error) error {
		var row []any
		for r, a := range f.Asks() {
			row = append(vehicle(row[:0], r.At, r.Says(), r.Carried), a.Question, a.HowTell, positions(a.Decides), a.Column, a.May, effort(a))
			if err := yield(row); err != nil {
				return err
			}
		}
		return nil
	}
	return t
}

// effort is what it takes to see the answer, nil for what no column answers.
func effort(a *fleet.Ask) any {
	if a.Column == "" {
		return nil
	}
	return int64(a.Effort)
}

func refused(f *fleet.Fleet) markup.Long {
	t := markup.Long{Name: NotRead, Columns: columns(f, vehicleColumns(), col("Taken", 8), col("What is wrong", 60), col("What is nearest, or what to write", 60))}
	t.Rows = func(yield func([]any) error) error {
		for _, all := range []struct {
			rows  []fleet.Refused
			taken string
		}{{f.Refused, "no"}, {f.Remarks, "yes"}} {
			for _, r := range all.rows {
				carried := r.Carried
				if carried == nil {
					carried = make([]string, len(f.Carried))
				}
				row := append(vehicle(nil, r.At, r.Says, carried), all.taken, r.What, r.Nearest)
				if err := yield(row); err != nil {
					return err
				}
			}
		}
		return nil
	}
	return t
}
