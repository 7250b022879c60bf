package enumerate

import (
	"encoding/json"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"

	"golang.org/x/net/html"
)

// published is what a build wrote for the world.
type published struct {
	guides map[string]*publicGuide // by platform
	parts  map[string]*publicPart  // by number
}

type publicGuide struct {
	Format        int             `json:"format"`
	Release       string          `json:"release"`
	Platform      string          `json:"platform"`
	Years         [][2]int        `json:"years"`
	Vehicles      []box           `json:"vehicles"`
	Positions     []guidePosition `json:"positions"`
	Compatibility []publicRule    `json:"compatibility"`

	tables [][]string // of each place that exists, the years of its lines
}

type publicRule struct {
	Platform string `json:"platform"`
	Part     string `json:"part"`
	Family   string `json:"family"`
	With     string `json:"with"`
	Where    []box  `json:"where"`
	Effect   string `json:"effect"`
	Reason   string `json:"reason"`
}

type publicPart struct {
	Part          string       `json:"part"`
	Page          string       `json:"page"`
	Family        string       `json:"family"`
	Contents      []offer      `json:"contents"`
	Fits          []publicFit  `json:"fits"`
	Compatibility []publicRule `json:"compatibility"`

	rows  []pageRow
	rules []string            // as the page says them
	years map[string][]string // by the name of the vehicle, as search engines are told
}

type publicFit struct {
	Platform string `json:"platform"`
	Position string `json:"position"`
	Where    []box  `json:"where"`
	Choice   int    `json:"choice"`
	Kit      string `json:"kit"`
}

// pageRow is a row of the table of where a part fits.
type pageRow struct {
	place string
	boxes []pageBox
}

// pageBox is a box as a page says it, with what follows from it: no terms and no years
// for all vehicles of a platform.
type pageBox struct {
	years string
	terms map[string]string
}

// readPublished reads a public folder, its pages too.
func readPublished(dir string) (*published, error) {
	out := &published{map[string]*publicGuide{}, map[string]*publicPart{}}
	guides, _ := filepath.Glob(filepath.Join(dir, "guides", "*.json"))
	for _, path := range guides {
		g := &publicGuide{}
		if err := loadFile(path, g); err != nil {
			return nil, err
		}
		page, err := readPage(filepath.Join(dir, "platforms", strings.ToLower(strings.TrimSuffix(filepath.Base(path), ".json"))+".html"))
		if err != nil {
			return nil, err
		}
		g.tables = yearsOfTables(page)
		out.guides[g.Platform] = g
	}
	parts, _ := filepath.Glob(filepath.Join(dir, "parts", "*.json"))
	for _, path := range parts {
		p := &publicPart{}
		if err := loadFile(path, p); err != nil {
			return nil, err
		}
		page, err := readPage(filepath.Join(dir, filepath.FromSlash(p.Page)))
		if err != nil {
			return nil, err
		}
		if err := p.read(page); err != nil {
			return nil, err
		}
		out.parts[p.Part] = p
	}
	return out, nil
}

func readPage(path string) (*html.Node, error) {
	file, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer file.Close()
	return html.Parse(file)
}

// read takes from the page of a part what it says of where it fits.
func (p *publicPart) read(page *html.Node) error {
	p.years = map[string][]string{}
	for _, s := range elements(page, "script", "") {
		if s.FirstChild == nil || attribute(s, "type") != "application/ld+json" {
			continue
		}
		var told struct {
			For []struct {
				Name  string   `json:"name"`
				Years []string `json:"vehicleModelDate"`
			} `json:"isAccessoryOrSparePartFor"`
		}
		if err := json.Unmarshal([]byte(s.FirstChild.Data), &told); err != nil {
			return err
		}
		for _, v := range told.For {
			p.years[v.Name] = v.Years
		}
	}
	for _, table := range elements(page, "table", "uses") {
		for _, tr := range elements(elements(table, "tbody", "")[0], "tr", "") {
			p.rows = append(p.rows, pageRow{shownText(elements(tr, "th", "")[0]), pageBoxes(elements(tr, "td", "")[0])})
		}
	}
	for _, li := range elements(page, "li", "rule") {
		p.rules = append(p.rules, shownText(li))
	}
	return nil
}

// lacking is how a page says that a trait does not apply to what it tells of: `no Tag axle`, or by what there
// is instead, `Air independent (no Beam arm)`.
var lacking = regexp.MustCompile(`(?:^|\()no ([^()]+)\)?$`)

func pageBoxes(cell *html.Node) []pageBox {
	items := elements(cell, "li", "")
	if len(items) == 0 {
		items = []*html.Node{cell}
	}
	var out []pageBox
	for _, item := range items {
		b := pageBox{terms: map[string]string{}}
		for i, term := range elements(item, "div", "term") {
			if words := shownText(term); i == 0 {
				b.years = words
			} else if trait, values, ok := strings.Cut(words, ": "); ok {
				b.terms[trait] = values
			} else if lack := lacking.FindStringSubmatch(words); lack != nil {
				b.terms[lack[1]] = words
			}
		}
		for _, so := range elements(item, "div", "so") {
			b.terms["so"] = strings.TrimPrefix(shownText(so), "so: ")
		}
		out = append(out, b)
	}
	return out
}

// yearsOfTables gives the years of each line of each place's table.
func yearsOfTables(page *html.Node) [][]string {
	var out [][]string
	for _, table := range elements(page, "table", "fits") {
		var years []string
		for _, tr := range elements(elements(table, "tbody", "")[0], "tr", "") {
			years = append(years, shownText(elements(tr, "th", "")[0]))
		}
		out = append(out, years)
	}
	return out
}

func elements(root *html.Node, tag, class string) []*html.Node {
	var out []*html.Node
	for n := range root.Descendants() {
		if n.Type == html.ElementNode && n.Data == tag && (class == "" || slices.Contains(strings.Fields(attribute(n, "class")), class)) {
			out = append(out, n)
		}
	}
	return out
}

func attribute(n *html.Node, key string) string {
	for _, a := range n.Attr {
		if a.Key == key {
			return a.Val
		}
	}
	return ""
}

// shownText gives the text of an element, white space collapsed.
func shownText(n *html.Node) string {
	var b strings.Builder
	for d := range n.Descendants() {
		if d.Type == html.TextNode {
			b.WriteString(d.Data)
		}
	}
	return strings.Join(strings.Fields(b.String()), " ")
}
