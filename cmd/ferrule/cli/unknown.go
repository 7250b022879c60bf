package cli

import (
	"fmt"

	"github.com/spf13/cobra"

	"ferrule/schema/word"
)

// answerHelp lets help about a command that is not there be wrong usage.
func answerHelp(root *cobra.Command) {
	root.InitDefaultHelpCmd()
	help, _, err := root.Find([]string{"help"})
	if err != nil {
		panic("cli: answerHelp: there is no command help")
	}
	help.Run = nil
	help.RunE = func(_ *cobra.Command, args []string) error {
		about, _, err := root.Find(args)
		if err != nil || about == root && len(args) > 0 {
			return unknownCommand(root, args[0])
		}
		return about.Help()
	}
}

// unknownCommand says which command was probably meant.
func unknownCommand(root *cobra.Command, name string) error {
	var names []string
	for _, c := range root.Commands() {
		names = append(names, c.Name())
	}
	return &misuse{root, fmt.Sprintf("there is no command %q%s", name, word.DidYouMean(name, names))}
}
