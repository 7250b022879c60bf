package picture

import (
	"encoding/base64"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// svg is a drawing of 100 by 100 units.
func svg(inside string) []byte {
	return []byte(`<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" viewBox="0 0 100 100">` + inside + `</svg>`)
}

// However an address is written, a drawing that has one is refused.
func TestNoAddressGetsBy(t *testing.T) {
	for _, inside := range []string{
		// pieces of a style text that a reader puts together
		`<style>@im<!-- -->port "http://other.example";</style>`,
		`<style>@im<![CDATA[port "http://other.example";]]></style>`,
		`<style>svg{background:u<![CDATA[rl(http://other.example)]]>}</style>`,
		`<style>svg{background:u<g/>rl(http://other.example)}</style>`,
		`<style>svg{background:u<?xml x?>rl(http://other.example)}</style>`,
		`<style><x:y xmlns:x="https://pen.example">@import "a"</x:y></style>`,
		// functions that take an address without url
		`<style>svg{background:image-set("http://other.example" 1x)}</style>`,
		`<style>svg{cursor:image-set("http://other.example" 1x),auto}</style>`,
		`<style>svg{background:IMAGE-SET("http://other.example" 1x)}</style>`,
		`<style>svg{background:-webkit-image-set("http://other.example" 1x)}</style>`,
		`<style>svg{background:cross-fade("a.png", "b.png")}</style>`, `<style>svg{background:image("a.png")}</style>`,
		`<style>svg{background:src("a.png")}</style>`, `<style>svg{content:attr(d url)}</style>`, `<style>@namespace "http://other.example";</style>`,
		`<rect style="background:image-set('http://other.example' 1x)"/>`,
		`<rect style="-webkit-mask-image:image-set('http://other.example' 1x);mask-image:image-set('http://other.example' 1x)"/>`,
		`<rect mask="url(http://other.example#a)"/>`, `<rect cursor="url(http://other.example), auto"/>`, `<rect filter="url(a.svg#b)"/>`,
		`<rect marker-end="url(a.svg#b)"/>`, `<rect clip-path="url( a.svg#b )"/>`, `<rect fill="URL(a.svg)"/>`, `<rect fill="url(&quot;a.svg#b&quot;)"/>`,
		`<rect fill="url(#a) url(b)"/>`, `<rect filter="blur(900px)"/>`,
		// the same in other words
		`<style>\69mport{}</style>`, `<style>@\69mport "a";</style>`, `<rect fill="u\72l(a)"/>`, `<rect fill="u&#x5c;72l(a)"/>`,
		`<style>@media screen{@import "a"}</style>`, `<style>@font-face{font-family:a;src:url(a.woff)}</style>`,
		// comments and quotes that look like each other
		`<style>a{content:"/*";background:url(a);content:"*/"}</style>`, `<style>a{background:url(#b/*);x:url(a)*/}</style>`,
		`<style>/*"*/a{background:url(a)}/*"*/</style>`, `<style>a{content:"@media";background:url(a)}</style>`,
		`<style>a{content:"} @media" url(a)}</style>`, `<style>a{b:url(#c @media ) url(d)}</style>`,
		`<style>a{}--><!--b{fill:u<!--rl(a)}</style>`,
		// elements that fetch or act
		`<feImage href="a.png"/>`, `<filter/>`, `<a href="#b"/>`, `<font-face-uri href="a"/>`, `<cursor href="a"/>`, `<tref href="a#b"/>`, `<audio/>`, `<script/>`,
		`<image href="HTTP://other.example/a.png"/>`, `<image src="a.png"/>`, `<use href=" other.svg#a"/>`, `<linearGradient xlink:href="a.svg#b"/>`,
		`<textPath href="a.svg#b"/>`, `<pattern href="a.svg#b"/>`, `<image href="data:image/svg+xml,&lt;svg/&gt;"/>`, `<use href="data:image/svg+xml;base64,AA#a"/>`,
		`<x:y xmlns:x="https://pen.example" xlink:href="http://other.example"/>`,
	} {
		_, err := look(source{}, svg(inside), newRoom())
		assert.Error(t, err, inside)
	}
}

// What drawing programs write is published.
func TestPlainDrawings(t *testing.T) {
	tall := `<path d="` + strings.Repeat("M0 0L9 9", 20_000) + `" marker-end="url(#m)"/>`
	for _, inside := range []string{
		`<style type="text/css"><![CDATA[ .st0{fill:url(#SVGID_1_);} .st1,.st2{clip-path:url(#c);stroke-dasharray:4,2} ]]></style><linearGradient id="SVGID_1_"><stop offset="0" style="stop-color:#FF0000"/></linearGradient><clipPath id="c"><rect id="Layer_1_(copy)" class="st0" width="9" height="9"/></clipPath><path class="st1" d="M0 0h9"/>`,
		`<style>@charset "utf-8"; @media (max-width: 30em) { text { font-family: "Sans (Bold)", serif; transform: rotate(3deg) } } rect:not(.a):nth-child(2) { fill: rgba(1,2,3,.5) }</style>`,
		`<style>/* drawn by hand (twice) */ rect { fill: var(--ink) }</style>`,
		`<s:namedview xmlns:s="https://pen.example" pagecolor="#fff" s:zoom="0.7" s:href="anything(at all)"/><g inkscape:label="arm (left)" xmlns:inkscape="https://pen.example" transform="matrix(.5 0 0 .5 10 10)"><path d="M0 0h9" style="fill:none;stroke:#000;-pen-stroke:none"/></g>`,
		`<metadata><r:RDF xmlns:r="http://www.w3.org/1999/02/22-rdf-syntax-ns#"><r:Work r:about="" r:resource="http://purl.org/dc/dcmitype/StillImage"/></r:RDF></metadata>`,
		`<defs><pattern id="hatch" width="2" height="2" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><path d="M0 0v2"/></pattern></defs><rect width="100" height="100" fill="url(#hatch)"/>`,
		`<marker id="m"><path d="M0 0h1"/></marker>` + tall,
		`<defs><symbol id="bolt" viewBox="0 0 10 10"><circle r="4"/></symbol></defs>` + strings.Repeat(`<use href="#bolt" x="3"/>`, 3_000),
		`<use href="#nowhere"/><rect fill="url(#nowhere)" aria-label="see image(1)"/>`,
		`<image href="data:image/png;base64,` + base64.StdEncoding.EncodeToString(pngOf(t, noise(30, 30))) + `"/>`,
		strings.Repeat(`<path d="M0 0h1"/>`, 60_000),
	} {
		_, err := look(source{}, svg(inside), newRoom())
		assert.NoError(t, err, "%.300s", inside)
	}
}

// doubling is n groups, each of which draws the one before it ten times.
func doubling(n int, use string) string {
	var b strings.Builder
	b.WriteString(`<g id="a0"><path d="M0 0h1"/></g>`)
	for i := 1; i <= n; i++ {
		fmt.Fprintf(&b, `<g id="a%d">%s</g>`, i, strings.Repeat(fmt.Sprintf(use, i-1), 10))
	}
	return b.String()
}

// A few lines that ask for thousands of millions of lines are refused.
func TestDrawingBombs(t *testing.T) {
	const over = "draws its parts over and over, more than 200000 in all"
	const small = "so small that it is laid more than 1000000 times"
	mask := func(i int) string {
		return fmt.Sprintf(`<mask id="m%d">%s</mask>`, i, strings.Repeat(fmt.Sprintf(`<rect mask="url(#m%d)"/>`, i-1), 10))
	}
	masks, patterns := `<mask id="m0"><rect/></mask>`, `<pattern id="p0" width="1" height="1"><rect/></pattern>`
	for i := 1; i < 9; i++ {
		masks += mask(i)
		patterns += fmt.Sprintf(`<pattern id="p%d" width="1" height="1">%s</pattern>`, i, strings.Repeat(fmt.Sprintf(`<rect style="fill:url(#p%d)"/>`, i-1), 10))
	}
	tile := `<pattern id="p" width="1" height="1" patternUnits="userSpaceOnUse"><path d="M0 0h1"/></pattern>`
	for inside, want := range map[string]string{
		doubling(9, `<use href="#a%d"/>`):       over,
		doubling(9, `<use xlink:href="#a%d"/>`): over,
		masks:                                   over,
		patterns:                                over,
		`<style>.a0{mask:url(#b)}</style>` + doubling(6, `<use href="#a%d"/>`):                                                                                           over,
		`<marker id="m">` + strings.Repeat(`<path/>`, 100) + `</marker><path marker="url(#m)" d="M` + strings.Repeat("1 1 ", 9_000) + `"/>`:                              over,
		`<style>path{marker-mid:url(#m)}</style><marker id="m"><g>` + strings.Repeat(`<rect/>`, 100) + `</g></marker><path d="M` + strings.Repeat("1 1 ", 9_000) + `"/>`: over,
		`<g id="a"><use href="#a"/></g>`:                                                                             "drawn within itself",
		`<pattern id="p" width="1" height="1"><rect fill="url(#p)"/></pattern>`:                                      "drawn within itself",
		`<pattern id="p" width="0.0001" height="0.0001" patternUnits="userSpaceOnUse"/>`:                             small,
		`<pattern id="p" width="0.01%" height="0.001%"/>`:                                                            small,
		`<pattern id="p" width="1" height="1" patternUnits="userSpaceOnUse" patternTransform="scale(.001)"/>`:        small,
		tile + `<pattern id="q" href="#p" patternTransform="matrix(.001 0 0 .001 0 0)"/>`:                            small,
		tile + `<g transform="scale(.01)"><g transform="scale(.1)"><rect fill="url(#p)"/></g></g>`:                   small,
		tile + `<svg viewBox="0 0 100000 100000"><rect fill="url(#p)"/></svg>`:                                       small,
		tile + `<style>rect{transform:scale(.001)}</style><rect fill="url(#p)"/>`:                                    small,
		`<path d="M0 0h99" stroke-dasharray="0.00001"/>`:                                                             "dashes so short",
		`<path d="M0 0h99" style="stroke-dasharray:1e-5 1e-5"/>`:                                                     "dashes so short",
		`<style>path{stroke-dasharray:1e-5}</style>`:                                                                 "dashes so short",
		strings.Repeat("<g>", 300) + strings.Repeat("</g>", 300):                                                     "more than 200 deep",
		`<style>` + strings.Repeat(`.a{fill:url(#b)}`, 9_000) + `</style>` + strings.Repeat(`<g class="a"/>`, 9_000): "its styles have too many rules",
		`<g class="` + strings.Repeat("a ", 9_000) + `"/>`:                                                           "more than 100 classes",
		`<g style="fill:url(#` + strings.Repeat("url(#", 90_000) + `)"/>`:                                            "something outside it",
		`<image href="data:image/png;base64,` + base64.StdEncoding.EncodeToString(bigPNG(t, 9_000, 9_000)) + `"/>`:   "more than 30 million pixels",
	} {
		_, err := look(source{}, svg(inside), newRoom())
		assert.ErrorContains(t, err, want, "%.200s", inside)
	}
}
