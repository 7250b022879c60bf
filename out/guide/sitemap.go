package guide

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"slices"
)

// urlsAtMost is how many addresses one sitemap may hold (sitemaps.org protocol 0.9).
const urlsAtMost = 50_000

const (
	sitemapFile = "sitemap.xml"
	robotsFile  = "robots.txt"
	// sitemapSpace is the namespace of the protocol, version 0.9.
	sitemapSpace = "http://www.sitemaps.org/schemas/sitemap/0.9"
)

// writeSitemap writes robots.txt and, where it is known where the pages will be and they
// may be indexed, a sitemap of the pages; of more than one may hold, several and a list of
// them. Drafts ask not to be indexed page by page: a crawler that robots.txt keeps out
// would never read that.
func (s *site) writeSitemap(pages []string, d *dates, emit Emit) error {
	robots := "User-agent: *\nDisallow:\n"
	if s.base == "" || s.draft {
		return emit(robotsFile, []byte(robots))
	}
	robots += "\nSitemap: " + s.base + sitemapFile + "\n"
	if err := emit(robotsFile, []byte(robots)); err != nil {
		return err
	}
	if len(pages) <= urlsAtMost {
		return emit(sitemapFile, s.sitemap("urlset", "url", pages, d))
	}
	var files []string
	for part := range slices.Chunk(pages, urlsAtMost) {
		name := fmt.Sprintf("sitemap-%d.xml", len(files)+1)
		if err := emit(name, s.sitemap("urlset", "url", part, d)); err != nil {
			return err
		}
		files = append(files, name)
	}
	return emit(sitemapFile, s.sitemap("sitemapindex", "sitemap", files, d))
}

// sitemap lists addresses below the base in elements of a name, with the day since which each
// says what it says, where that is known.
func (s *site) sitemap(root, each string, paths []string, d *dates) []byte {
	var b bytes.Buffer
	fmt.Fprintf(&b, "%s<%s xmlns=%q>\n", xml.Header, root, sitemapSpace)
	for _, p := range paths {
		fmt.Fprintf(&b, "<%s><loc>", each)
		xml.EscapeText(&b, []byte(s.base+p)) // a buffer takes everything
		b.WriteString("</loc>")
		if at, ok := d.now[p]; ok {
			fmt.Fprintf(&b, "<lastmod>%s</lastmod>", at.Since)
		}
		fmt.Fprintf(&b, "</%s>\n", each)
	}
	fmt.Fprintf(&b, "</%s>\n", root)
	return b.Bytes()
}
