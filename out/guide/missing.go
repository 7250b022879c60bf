package guide

import "net/url"

// missingFile is what web servers send where there is no page.
const missingFile = "404.html"

// missingPage stands where no page is. It may come up at any address, so that its links lead from
// the root of the server, where it is known what is there, and else from where the page itself stands.
type missingPage struct{ frame }

func (s *site) missing() *missingPage {
	p := &missingPage{s.frame(missingFile, s.tongue.Say("There is no such page"))}
	p.NoIndex, p.Canonical = true, ""
	if at, err := url.Parse(s.base); err == nil && s.base != "" {
		p.Shared = at.EscapedPath()
		p.Root = p.Shared + s.folder
		for i := range p.Languages {
			p.Languages[i].Href = p.Shared + s.all[i].folder + missingFile
		}
	}
	return p
}
