package sheets

import "ferrule/sheets/cell"

// What a workbook may ask of the computer that reads it. Each limit is far above
// what people keep in catalogues and far below what would stop the machine.
const (
	// maxDirectory bounds the bytes read to list the package: 4 MiB name maxEntries parts
	// with 200 bytes each.
	maxDirectory = 4 << 20
	// maxEntries bounds the parts: one for each sheet and picture, and a few more.
	maxEntries = 20_000
	// maxPart bounds one inflated part. A full sheet of 1,048,576 rows with a dozen
	// filled columns takes about half of it.
	maxPart = 1 << 30
	// maxBook bounds the sum of all inflated parts.
	maxBook = 4 << 30
	// maxStrings bounds the shared strings, which are the only part kept in memory
	// as a whole. What is kept of them may take keptFloor bytes and keptRatio more for each
	// byte of the file: the cells that show a text cost three bytes at least.
	maxStrings = 512 << 20
	keptFloor  = 24 << 20
	keptRatio  = 12
	// maxSmall bounds the parts that describe the workbook: the list of sheets,
	// relationships and styles.
	maxSmall = 64 << 20
	// maxRatio bounds how much a part above ratioFloor may grow when inflated.
	// Sheets grow 8 to 40 times; deflate cannot exceed about 1,030; a bomb is made
	// close to that.
	maxRatio   = 300
	ratioFloor = 32 << 20
	// What is read of a file may inflate to inflateRatio times what it takes there, and to
	// inflateFloor bytes more for all parts together. Rows that hold nothing but a height, a
	// million of them, grow 60 times.
	inflateRatio = 100
	inflateFloor = 64 << 20
	// The XML parser may take parseRatio for each byte of a part, and parseFloor more for
	// all parts together, counted as bytes and tokenCost for each tag or text. Cells that are
	// written in a way that only the parser reads take about 25 for each byte of the file.
	parseRatio = 32
	parseFloor = 32 << 20
	tokenCost  = 16
	// maxToken bounds one tag, text or comment of XML, since the parser holds it in
	// memory. A cell's text takes at most about 300 KiB however it is escaped.
	maxToken = 1 << 20
	// maxName bounds the names of tags and namespaces, of sheets, and of what leads from part
	// to part. The longest of the standard has 80 bytes.
	maxName = 1 << 10
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
	// maxScopes bounds how many prefixes, and how many namespaces that may be ignored, hold
	// at one place. Real parts declare below 40.
	maxScopes = 256
	// maxMerges bounds the merged ranges of a sheet, which are kept in memory.
	maxMerges = 1 << 20
	// maxHidden bounds how often a sheet says that columns are hidden: each has 16,384 of
	// them (ECMA-376 Part 1, 18.3.1.73 and 18.2.22: XFD is the last).
	maxHidden = cell.MaxCol
	// maxFormats bounds the cell formats, fonts, fills and number formats, each, of a
	// workbook: four times the 65,490 cell formats that the most used program keeps
	// ("Specifications and limits" of its documentation, from memory).
	maxFormats = 4 * 65_490
	// maxCode bounds the code of a number format in bytes; programs keep about 255.
	maxCode = 4 << 10
	// maxStops bounds the colours of one gradient; programs offer about ten.
	maxStops = 100
	// maxRelations bounds what one part leads to: the parts of a workbook, or the 65,530
	// hyperlinks of a sheet (the same page, from memory).
	maxRelations = 100_000
	// maxRemarks bounds the cells with comments of a sheet.
	maxRemarks = 1 << 20
)
