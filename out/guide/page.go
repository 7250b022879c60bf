package guide

// page is all that one page says; a template lays it out.
type page interface {
	head() *frame
	template() string
}

func (f *frame) head() *frame { return f }

func (*indexPage) template() string    { return "index.tmpl" }
func (*platformPage) template() string { return "platform.tmpl" }
func (*partPage) template() string     { return "part.tmpl" }
func (*aToZPage) template() string     { return "a-z.tmpl" }
func (*numbersPage) template() string  { return "numbers.tmpl" }
func (*gonePage) template() string     { return "gone.tmpl" }
func (*changesPage) template() string  { return "changes.tmpl" }
func (*missingPage) template() string  { return "missing.tmpl" }
func (*platformChangesPage) template() string {
	return "platform-changes.tmpl"
}

// blankPages gives a page of each kind that says nothing.
func blankPages() []page {
	return []page{&indexPage{}, &platformPage{}, &partPage{}, &aToZPage{}, &numbersPage{}, &gonePage{},
		&changesPage{}, &platformChangesPage{}, &missingPage{}}
}
