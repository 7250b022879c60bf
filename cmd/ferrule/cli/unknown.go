package cli

import (
	"fmt"

	"github.com/spf13/cobra"

	"ferrule/schema/word"
)

// unknownCommand says which command was probably meant.
func unknownCommand(root *cobra.Command, name string) error {
	var names []string
	for _, c := range root.Commands() {
		names = append(names, c.Name())
	}
	return &misuse{root, fmt.Sprintf("there is no command %q%s", name, word.DidYouMean(name, names))}
}
