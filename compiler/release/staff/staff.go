// Package staff is the staff's folder of a build as JSON: what a build writes to it, and how it
// is read back as an earlier release. Each file is written and read by types of its own,
// which say what a workbook stated and in which cell; what the world may see of them
// is embedded from package wire.
//
// What the folder lacks to be a release is a fault of this package.
package staff
