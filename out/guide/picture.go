package guide

import (
	"path"
	"strings"

	"ferrule/compiler/model"
	"ferrule/compiler/picture"
)

// pictures is the folder of published pictures, below the public one.
const pictures = "pictures/"

// image is a picture on a page in a folder below the public one. Of says what is to
// be seen, in the workbook's words.
type image struct {
	Of            string
	Width, Height int
	Src           string // the narrowest
	Sources       []source
}

// source is the same picture in one width, in pixels.
type source struct {
	Src   string
	Width int
}

// image gives a picture that a row names; nil where none can be shown.
func (s *site) image(named model.Picture, of string) *image {
	p := s.pictures.Of(named)
	if p == nil {
		return nil
	}
	out := &image{Of: of, Width: p.Width, Height: p.Height, Src: s.above() + pictures + p.Files[0].Name}
	if len(p.Files) > 1 {
		for _, f := range p.Files {
			out.Sources = append(out.Sources, source{s.above() + pictures + f.Name, f.Width})
		}
	}
	return out
}

// above is the way from a page in a folder to the public one.
func (e *edition) above() string { return strings.Repeat("../", 1+strings.Count(e.folder, "/")) }

// seenAtMost is how many letters say what is to be seen on a picture.
const seenAtMost = 200

// seenOn says what is to be seen on a picture for those who see none: what it is of, and the workbook's
// words about that.
func seenOn(of, words string) string {
	of, words = plainTitle(of), plainTitle(words)
	switch {
	case of == "" || words == "":
		return shortened(of+words, seenAtMost)
	default:
		return shortened(of+": "+words, seenAtMost)
	}
}

// shareImage is a picture by its address on the web. Those who show links take no drawings (SVG).
type shareImage struct {
	Of            string
	Width, Height int
	Src           string
}

// share gives the widest file of a picture for whoever shows a link to a page; nil where there is
// none, or nobody knows where it will be.
func (s *site) share(named model.Picture, of string) *shareImage {
	src, file := s.published(named)
	if src == "" || path.Ext(file.Name) == ".svg" {
		return nil
	}
	return &shareImage{plainTitle(of), file.Width, file.Height, src}
}

// published gives the address on the web of the widest file of a picture; "" for none.
func (s *site) published(named model.Picture) (string, picture.File) {
	p := s.pictures.Of(named)
	if p == nil || s.base == "" || s.draft {
		return "", picture.File{}
	}
	file := p.Files[len(p.Files)-1]
	return s.base + pictures + file.Name, file
}

// images gives the pictures of the texts that hold for a platform, as tells does.
func (s *site) images(all []model.Tell, pl *model.Platform, of string) []*image {
	var own, general []*image
	for _, t := range all {
		switch i := s.image(t.Picture, seenOn(of, s.tr(t.Text))); {
		case i == nil:
		case t.Platform == pl:
			own = append(own, i)
		case t.Platform == nil:
			general = append(general, i)
		}
	}
	if own != nil {
		return own
	}
	return general
}

// emitPictures writes every picture that a page may show.
func (s *site) emitPictures(emit Emit) error {
	for _, p := range s.pictures.All() {
		err := p.Write(func(f picture.File, data []byte) error { return emit(pictures+f.Name, data) })
		if err != nil {
			return err
		}
	}
	return nil
}
