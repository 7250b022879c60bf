package mistakes

// inCells are mistakes in what a single cell says.
func inCells() []mistake {
	return nil
}
