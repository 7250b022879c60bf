package enumerate

import (
	"maps"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// adviceGuide is what a public guide says of complaints and inspections.
type adviceGuide struct {
	Platform   string `json:"platform"`
	Complaints []struct {
		Complaint  string `json:"complaint"`
		CheckFirst []struct {
			Text  string `json:"text"`
			Where []box  `json:"where"`
		} `json:"check_first"`
		Places []struct {
			Position string `json:"position"`
			Where    []box  `json:"where"`
		} `json:"places"`
	} `json:"complaints"`
	Inspections []struct {
		LookAt string `json:"what_to_look_at"`
		Where  []box  `json:"where"`
	} `json:"inspections"`
}

func within(where []box, v thing) bool {
	return where == nil || slices.ContainsFunc(where, func(b box) bool { return b.has(v) })
}

// says reads what a guide says of one vehicle.
func (g *adviceGuide) says(v thing) advised {
	out := newAdvised()
	for _, c := range g.Complaints {
		name := strings.Join(strings.Fields(strings.ToLower(c.Complaint)), " ")
		for _, t := range c.CheckFirst {
			if within(t.Where, v) {
				out.check[name] = append(out.check[name], t.Text)
			}
		}
		for _, p := range c.Places {
			if within(p.Where, v) {
				out.places[name] = append(out.places[name], p.Position)
			}
		}
	}
	for _, n := range g.Inspections {
		if within(n.Where, v) {
			out.looks = append(out.looks, n.LookAt)
		}
	}
	return out
}

// boxes gives all boxes of a guide's complaints and inspections.
func (g *adviceGuide) boxes() []box {
	var out []box
	for _, c := range g.Complaints {
		for _, t := range c.CheckFirst {
			out = append(out, t.Where...)
		}
		for _, p := range c.Places {
			out = append(out, p.Where...)
		}
	}
	for _, n := range g.Inspections {
		out = append(out, n.Where...)
	}
	return out
}

// What guides say of complaints and inspections is what plain enumeration finds, vehicle by vehicle,
// and so are the vehicles of which no fit answers a complaint.
func TestComplaints(t *testing.T) {
	places, looks, open := 0, 0, 0
	for seed := range uint64(usual(12, 300)) {
		c := generate(seed)
		a := advise(c)
		dir, out := t.TempDir(), filepath.Join(t.TempDir(), "out")
		require.NoError(t, c.write(dir))
		require.NoError(t, checkInto(dir, out), "seed %d", seed)
		o := c.enumerate()
		truth := c.truth(o)
		guides := adviceGuides(t, filepath.Join(out, "public", "guides"))
		for _, w := range o.worlds {
			g := guides[c.platforms[w.platform].name]
			for i, v := range truth.vehicles[g.Platform] {
				want, got := a.says(c, o, w, i), g.says(v)
				require.True(t, maps.EqualFunc(want.places, got.places, slices.Equal), "seed %d, %s %v: places %v, want %v", seed, g.Platform, v, got.places, want.places)
				require.True(t, maps.EqualFunc(want.check, got.check, sameTexts), "seed %d, %s %v: check %v, want %v", seed, g.Platform, v, got.check, want.check)
				require.Equal(t, want.looks, got.looks, "seed %d, %s %v", seed, g.Platform, v)
				places, looks = places+len(got.places), looks+len(got.looks)
			}
			for _, b := range g.boxes() {
				require.Empty(t, truth.loose(g.Platform, b), "seed %d, %s", seed, g.Platform)
			}
		}
		open += a.compareFindings(t, c, o, truth, out)
	}
	t.Logf("%d complaints and %d inspections of vehicles, %d of them without an answer", places, looks, open)
	assert.Positive(t, places)
	assert.Positive(t, looks)
	assert.Positive(t, open)
}

func sameTexts(a, b []string) bool {
	return slices.Equal(slices.Sorted(slices.Values(a)), slices.Sorted(slices.Values(b)))
}

func adviceGuides(t *testing.T, dir string) map[string]*adviceGuide {
	paths, err := filepath.Glob(filepath.Join(dir, "*.json"))
	require.NoError(t, err)
	out := map[string]*adviceGuide{}
	for _, path := range paths {
		var g adviceGuide
		require.NoError(t, loadFile(path, &g))
		out[g.Platform] = &g
	}
	return out
}

// compareFindings holds the vehicles of complaint-unanswered against the enumeration, where no row of
// the catalogue was set aside; it gives how many there are.
func (a advice) compareFindings(t *testing.T, c *catalogue, o *outlook, truth *truth, out string) int {
	res, err := load(out)
	require.NoError(t, err)
	if slices.ContainsFunc(res.findings, func(f finding) bool { return f.Severity == "error" && f.Platform == "" }) {
		return 0
	}
	open := 0
	for _, w := range o.worlds {
		platform := c.platforms[w.platform].name
		for name, rows := range a.complained() {
			var got []int
			for i, v := range truth.vehicles[platform] {
				if slices.ContainsFunc(res.findings, func(f finding) bool {
					return f.Code == "complaint-unanswered" && f.Platform == platform && strings.Contains(strings.ToLower(strings.Join(strings.Fields(f.Message), " ")), name) && within(f.Where, v)
				}) {
					got = append(got, i)
				}
			}
			want := a.unanswered(c, o, w, rows)
			require.Equal(t, want, got, "seed %d, %s: %s", c.seed, platform, name)
			open += len(want)
		}
	}
	return open
}
