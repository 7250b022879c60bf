package kinds

import "ferrule/compiler/finding"

// pictures describes the codes of the pictures that a catalogue names.
func pictures() []finding.Kind {
	return []finding.Kind{
		{Code: finding.PictureMissing, Severity: "warning",
			Summary: "a picture is named that is not beside the workbook",
			Doc:     "A Picture cell names a file in the workbook's folder, or in a folder below it. Nothing is fetched from the web, and a name that leads out of the folder is not followed. The guide is published without the picture.",
			Before:  "Traits!G4  C:\\photos\\arm.jpg",
			After:   "Traits!G4  pictures/arm.jpg"},
		{Code: finding.PictureUnreadable, Severity: "warning",
			Summary: "a picture cannot be shown",
			Doc:     "Pictures are PNG, JPEG, WebP or SVG files of at most 20 MB and 30 million pixels. PNG and JPEG are drawn anew in the width of a page; one that can only be unpacked whole (a progressive JPEG, an interlaced PNG) must not take more than 256 MB of memory for that. WebP and SVG are published as they are, so they may have 2 MB; an SVG must be a plain drawing, without scripts, filters and movement, without references to anything outside it, and may not draw its parts over and over without end. The guide is published without the picture.",
			Before:  "Traits!G4  arm.heic",
			After:   "Traits!G4  arm.jpg"},
	}
}
