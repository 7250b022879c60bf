package guide

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"strings"
)

// What one sitemap may hold (sitemaps.org, protocol 0.9: 50,000 addresses, and 50 MB before it is packed).
const (
	urlsAtMost  = 50_000
	bytesAtMost = 50 << 20
)

const (
	sitemapFile = "sitemap.xml"
	robotsFile  = "robots.txt"
	// sitemapSpace is the namespace of the protocol, version 0.9.
	sitemapSpace = "http://www.sitemaps.org/schemas/sitemap/0.9"
	xhtmlSpace   = "http://www.w3.org/1999/xhtml" // of links between languages (Google Search Central, localized versions)
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
	parts := s.cut(pages, d)
	if len(parts) == 1 {
		return emit(sitemapFile, s.sitemap("urlset", "url", pages, d))
	}
	var files []string
	for _, part := range parts {
		name := fmt.Sprintf("sitemap-%d.xml", len(files)+1)
		if err := emit(name, s.sitemap("urlset", "url", part, d)); err != nil {
			return err
		}
		files = append(files, name)
	}
	return emit(sitemapFile, s.sitemap("sitemapindex", "sitemap", files, d))
}

// cut parts pages so that each part is as long as one sitemap may be.
func (s *site) cut(pages []string, d *dates) [][]string {
	most := urlsAtMost / max(len(s.all), 1) // an address in several languages is told with all of them
	frame := len(s.sitemap("urlset", "url", nil, d))
	var out [][]string
	var b bytes.Buffer
	from, size := 0, frame
	for i, p := range pages {
		b.Reset()
		s.address(&b, "url", p, d)
		if i > from && (i-from == most || size+b.Len() > bytesAtMost) {
			out, from, size = append(out, pages[from:i]), i, frame
		}
		size += b.Len()
	}
	return append(out, pages[from:])
}

// sitemap lists addresses below the base in elements of a name.
func (s *site) sitemap(root, each string, paths []string, d *dates) []byte {
	var b bytes.Buffer
	space := ""
	if each == "url" && len(s.all) > 1 {
		space = fmt.Sprintf(" xmlns:xhtml=%q", xhtmlSpace)
	}
	fmt.Fprintf(&b, "%s<%s xmlns=%q%s>\n", xml.Header, root, sitemapSpace, space)
	for _, p := range paths {
		s.address(&b, each, p, d)
	}
	fmt.Fprintf(&b, "</%s>\n", root)
	return b.Bytes()
}

// address is an element of a sitemap: an address, and the day since which what stands there says what it
// says, where that is known.
func (s *site) address(b *bytes.Buffer, each, path string, d *dates) {
	fmt.Fprintf(b, "<%s><loc>", each)
	xml.EscapeText(b, []byte(s.base+path)) // a buffer takes everything
	b.WriteString("</loc>")
	if at, ok := d.now[path]; ok {
		fmt.Fprintf(b, "<lastmod>%s</lastmod>", at.Since)
	}
	if each == "url" && len(s.all) > 1 {
		s.inLanguages(b, path)
	}
	fmt.Fprintf(b, "</%s>\n", each)
}

// inLanguages says where the page at a path stands in each language, also its own.
func (s *site) inLanguages(b *bytes.Buffer, path string) {
	for _, e := range s.all {
		if e.folder != "" {
			path = strings.TrimPrefix(path, e.folder)
		}
	}
	for i, e := range s.all {
		tags := []string{e.tongue.Tag()}
		if i == 0 {
			tags = append(tags, "x-default")
		}
		for _, tag := range tags {
			fmt.Fprintf(b, `<xhtml:link rel="alternate" hreflang="%s" href="`, tag)
			xml.EscapeText(b, []byte(s.base+e.folder+path)) // a buffer takes everything
			b.WriteString(`"/>`)
		}
	}
}
