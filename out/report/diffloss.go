package report

import (
	"fmt"
	"strings"

	"ferrule/compiler/release/compare"
	"ferrule/sheets/cell"
)

// shownPlatforms is how many platforms of something that protects no more are told with
// their vehicles.
const shownPlatforms = 3

// bare tells something that protects no more.
func (p *page) bare(l *compare.Loss) {
	p.wrap("  ", 2, l.String())
	for i, b := range l.Where {
		if i == shownPlatforms {
			p.aside("platform", fmt.Sprintf("+%d more", len(l.Where)-i))
			break
		}
		p.aside("platform", b.Platform)
		if b.Region != nil {
			p.region(b.Region)
		}
	}
	for _, side := range lossSides(l) {
		p.aside(side.name, side.cells)
	}
	if l.Accepted != nil {
		p.aside("accepted", acceptedBy(l.Accepted))
	}
}

type lossSide struct{ name, cells string }

// lossSides names the cells of both releases, where there are any.
func lossSides(l *compare.Loss) []lossSide {
	var out []lossSide
	for _, side := range []struct {
		name string
		at   []cell.Place
	}{{"old", l.Old}, {"new", l.New}} {
		if len(side.at) > 0 {
			out = append(out, lossSide{side.name, strings.Join(cells(compare.Answer{Cells: side.at}, shownCells), ", ")})
		}
	}
	return out
}

// lossBullet tells something that protects no more for a pull request.
func lossBullet(l *compare.Loss) string {
	var m markdown
	m.line("")
	m.line("- **%s** %s  ", compare.Unprotected, code(l.String()))
	for i, b := range l.Where {
		if i == shownPlatforms {
			m.line("  - +%d more platforms", len(l.Where)-i)
			break
		}
		if b.Region != nil {
			m.line("  - %s: %s, %s on the road", code(b.Platform), count(b.Region.Configurations.String(), "configuration"), road(b.Region.OnTheRoad))
		}
	}
	for _, side := range lossSides(l) {
		m.line("  - %s cells %s", side.name, code(side.cells))
	}
	if l.Accepted != nil {
		m.line("  - accepted %s", code(acceptedBy(l.Accepted)))
	}
	return m.String()
}
