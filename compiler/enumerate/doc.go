// Package enumerate checks the compiler from outside. It holds tests only.
//
// The tests write workbooks, have them built as a person would, and work out
// every answer again by looking at one configuration after another, or by SQL
// in SQLite. The answers are worked out from the words of the workbook format
// and from what the test meant to write. Nothing here reads the compiler's
// code or shares any of it; harness_test.go alone calls the program.
package enumerate
