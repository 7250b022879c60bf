package written

// prose holds the columns that say something to readers and nothing about fits.
var prose = map[string]bool{
	"Note": true, "Cautions": true, "Summary": true, "Picture": true, "Name": true, "Source": true, "Reason": true,
	"How to tell": true, "Question": true, "Message": true, "By": true, "Text": true,
}

// Prose tells whether a column that a kind of sheet defines says nothing about fits.
func Prose(column string) bool { return prose[column] }
