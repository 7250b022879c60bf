package enumerate

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
)

// output is what a build wrote, as far as the enumeration speaks of it.
type output struct {
	findings      []finding
	summary       map[string]int
	coverage      []platformCoverage
	public, staff map[string]guide // by platform
}

type box struct {
	Years  [][2]int         `json:"years"`
	Traits map[string]inBox `json:"traits"`
}

type finding struct {
	Code           string      `json:"code"`
	Severity       string      `json:"severity"`
	Message        string      `json:"message"`
	Platform       string      `json:"platform"`
	Position       string      `json:"position"`
	Part           string      `json:"part"`
	Configurations int         `json:"configurations"`
	OnTheRoad      float64     `json:"on_the_road"`
	Where          []box       `json:"where"`
	Rest           int         `json:"rest"`
	Exact          *bool       `json:"exact"`
	Example        *example    `json:"example"`
	Cells          []ref       `json:"cells"`
	Accepted       *acceptance `json:"accepted"`
}

type example struct {
	Year   int                `json:"year"`
	Traits map[string]*string `json:"traits"`
}

type acceptance struct {
	Reason string `json:"reason"`
	By     string `json:"by"`
	Cell   ref    `json:"cell"`
}

type platformCoverage struct {
	Platform       string             `json:"platform"`
	Configurations int                `json:"configurations"`
	OnTheRoad      float64            `json:"on_the_road"`
	Positions      []positionCoverage `json:"positions"`
}

type positionCoverage struct {
	Position       string             `json:"position"`
	Configurations int                `json:"configurations"`
	Fitted         int                `json:"fitted"`
	None           int                `json:"none"`
	Planned        int                `json:"planned"`
	Ask            int                `json:"ask"`
	Conflict       int                `json:"conflict"`
	Gap            int                `json:"gap"`
	OnTheRoad      map[string]float64 `json:"on_the_road"`
}

func (p positionCoverage) counts() map[string]int {
	return map[string]int{"fitted": p.Fitted, "none": p.None, "planned": p.Planned,
		"ask": p.Ask, "conflict": p.Conflict, "gap": p.Gap}
}

type guide struct {
	Platform  string          `json:"platform"`
	Years     [][2]int        `json:"years"`
	Positions []guidePosition `json:"positions"`
}

type guidePosition struct {
	Position string      `json:"position"`
	Cases    []guideCase `json:"cases"`
}

type guideCase struct {
	Where        box       `json:"where"`
	Outcome      string    `json:"outcome"`
	Settled      *bool     `json:"settled"`
	With         string    `json:"with"`
	Alternatives [][]offer `json:"alternatives"`
	Text         string    `json:"text"`
	Notes        []string  `json:"notes"`
}

type offer struct {
	Part     string `json:"part"`
	Quantity int    `json:"quantity"`
}

// load reads the JSON of an output folder.
func load(dir string) (output, error) {
	var out output
	var found struct {
		Findings []finding      `json:"findings"`
		Summary  map[string]int `json:"summary"`
	}
	var coverage struct {
		Platforms []platformCoverage `json:"platforms"`
	}
	if err := loadFile(filepath.Join(dir, "staff", "findings.json"), &found); err != nil {
		return out, err
	}
	if err := loadFile(filepath.Join(dir, "staff", "coverage.json"), &coverage); err != nil {
		return out, err
	}
	out.findings, out.summary, out.coverage = found.Findings, found.Summary, coverage.Platforms
	var err error
	if out.public, err = loadGuides(filepath.Join(dir, "public", "guides")); err != nil {
		return out, err
	}
	out.staff, err = loadGuides(filepath.Join(dir, "staff", "guides"))
	return out, err
}

func loadFile(path string, into any) error {
	data, err := os.ReadFile(path)
	if err != nil {
		return err
	}
	if err := json.Unmarshal(data, into); err != nil {
		return fmt.Errorf("%s: %w", path, err)
	}
	return nil
}

func loadGuides(dir string) (map[string]guide, error) {
	paths, err := filepath.Glob(filepath.Join(dir, "*.json"))
	if err != nil {
		return nil, err
	}
	out := map[string]guide{}
	for _, path := range paths {
		var g guide
		if err := loadFile(path, &g); err != nil {
			return nil, err
		}
		out[g.Platform] = g
	}
	return out, nil
}
