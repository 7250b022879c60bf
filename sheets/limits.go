package sheets

// What a workbook may ask of the computer that reads it. Each limit is far above
// what people keep in catalogues and far below what would stop the machine.
const (
	// maxDirectory bounds the bytes read to list the package: 8 MiB name well over
	// maxEntries parts.
	maxDirectory = 8 << 20
	// maxEntries bounds the parts: one for each sheet and picture, and a few more.
	maxEntries = 20_000
	// maxPart bounds one inflated part. A full sheet of 1,048,576 rows with a dozen
	// filled columns takes about half of it.
	maxPart = 1 << 30
	// maxBook bounds the sum of all inflated parts.
	maxBook = 4 << 30
	// maxStrings bounds the shared strings, which are the only part kept in memory
	// as a whole.
	maxStrings = 512 << 20
	// maxSmall bounds the parts that describe the workbook: the list of sheets,
	// relationships and styles.
	maxSmall = 64 << 20
	// maxRatio bounds how much a part above ratioFloor may grow when inflated.
	// Sheets grow 8 to 40 times; deflate cannot exceed about 1,030; a bomb is made
	// close to that.
	maxRatio   = 300
	ratioFloor = 32 << 20
	// maxToken bounds one tag, text or comment of XML, since the parser holds it in
	// memory. A cell's text takes at most about 300 KiB however it is escaped.
	maxToken = 4 << 20
	// maxDepth bounds the nesting of XML; real parts stay below 25.
	maxDepth = 100
	// maxAttrs bounds the attributes of one tag; real tags have below 40.
	maxAttrs = 256
	// maxText is what a cell can hold, counted in UTF-16 units as spreadsheet
	// programs do (ECMA-376 names no figure; all programs keep 32,767).
	maxText = 32_767
	// maxRaw is the longest stored form of maxText: each unit as _xHHHH_. What is
	// longer is too long whatever it says.
	maxRaw = 7 * maxText
	// maxMerges bounds the merged ranges of a sheet, which are kept in memory.
	maxMerges = 1 << 20
)
