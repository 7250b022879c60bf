package cli

import (
	"os"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"ferrule/compiler"
	"ferrule/compiler/kinds"
	"ferrule/compiler/model"
	"ferrule/out/report"
	"ferrule/out/visible"
	"ferrule/schema/word"
)

// complete lets the flags of a command be completed, those that it has: words of the
// format, and names from the catalogue.
func complete(cmd *cobra.Command) *cobra.Command {
	formats := []string{"text", "json"}
	if cmd.Flags().Lookup("fail-on") != nil || cmd.Flags().Lookup("draft") != nil {
		formats = report.Formats()
	}
	register(cmd, "format", fixedWords(formats...))
	register(cmd, "fail-on", fixedWords("error", "warning", "note", "never"))
	register(cmd, "severity", fixedWords("error", "warning", "note"))
	register(cmd, "code", fixedWords(codeNames()...))
	register(cmd, "platform", fromCatalogue(func(c *model.Catalogue) []string {
		return names(c.Platforms, func(p *model.Platform) string { return p.Name })
	}))
	register(cmd, "position", fromCatalogue(func(c *model.Catalogue) []string {
		return names(c.Positions, func(p *model.Position) string { return p.Name })
	}))
	register(cmd, "part", fromCatalogue(func(c *model.Catalogue) []string {
		return names(c.Parts, func(p *model.Part) string { return p.Number })
	}))
	register(cmd, "complaint", fromCatalogue(func(c *model.Catalogue) []string {
		return names(model.Named(c.Complaints), func(rows []*model.Complaint) string { return rows[0].Name })
	}))
	return cmd
}

func register(cmd *cobra.Command, flag string, f cobra.CompletionFunc) {
	if _, done := cmd.GetFlagCompletionFunc(flag); done || cmd.Flags().Lookup(flag) == nil {
		return // or the command knows better
	}
	if err := cmd.RegisterFlagCompletionFunc(flag, f); err != nil {
		panic("cli: a flag is completed once: " + err.Error())
	}
}

func names[T any](of []T, name func(T) string) []string {
	out := make([]string, len(of))
	for i, v := range of {
		out[i] = name(v)
	}
	return out
}

func codeNames() []string {
	var out []string
	for _, k := range kinds.All() {
		out = append(out, string(k.Code))
	}
	return out
}

// fixedWords completes one of a few words.
func fixedWords(words ...string) cobra.CompletionFunc {
	return func(_ *cobra.Command, _ []string, begun string) ([]string, cobra.ShellCompDirective) {
		return beginning(words, begun), cobra.ShellCompDirectiveNoFileComp
	}
}

// listOf completes the last word of a list that is separated by commas.
func listOf(words ...string) cobra.CompletionFunc {
	return func(_ *cobra.Command, _ []string, begun string) ([]string, cobra.ShellCompDirective) {
		cut := strings.LastIndexByte(begun, ',') + 1
		out := beginning(words, begun[cut:])
		for i, w := range out {
			out[i] = begun[:cut] + w
		}
		return out, cobra.ShellCompDirectiveNoFileComp | cobra.ShellCompDirectiveNoSpace
	}
}

// fromCatalogue completes names of the catalogue on the line, or in the current folder.
func fromCatalogue(list func(*model.Catalogue) []string) cobra.CompletionFunc {
	return func(cmd *cobra.Command, args []string, begun string) ([]string, cobra.ShellCompDirective) {
		cat := nearby(cmd, args)
		if cat == nil {
			return nil, cobra.ShellCompDirectiveNoFileComp
		}
		return beginning(list(cat), begun), cobra.ShellCompDirectiveNoFileComp
	}
}

// nearby binds the catalogue that a line names; nil where there is none.
func nearby(cmd *cobra.Command, args []string) *model.Catalogue {
	paths, _ := split(args)
	if len(paths) == 0 {
		paths = []string{"."}
	}
	r, err := compiler.Compile(cmd.Context(), compiler.Input{Paths: paths}, compiler.Options{Unchecked: true})
	if err != nil {
		return nil
	}
	return r.Catalogue
}

// beginning gives the names that begin as begun does, in any case. Names with signs that
// cannot be seen are left out: they cannot be shown as they are, and are not found otherwise.
func beginning(names []string, begun string) []string {
	var out []string
	for _, n := range names {
		if strings.HasPrefix(word.Fold(n), word.Fold(begun)) && !visible.Any(n) {
			out = append(out, n)
		}
	}
	return out
}

// completeAnswer completes `trait=value` behind the paths: first the trait, then its values.
func completeAnswer(cmd *cobra.Command, args []string, begun string) ([]string, cobra.ShellCompDirective) {
	paths, told := split(args)
	if _, err := os.Stat(begun); len(paths) == 0 || err == nil && begun != "" {
		return nil, cobra.ShellCompDirectiveDefault
	}
	cat := nearby(cmd, args)
	if cat == nil {
		return nil, cobra.ShellCompDirectiveDefault
	}
	if name, _, ok := strings.Cut(begun, "="); ok {
		return beginning(answersTo(cat, name), begun), cobra.ShellCompDirectiveNoFileComp
	}
	var open []string
	for _, t := range cat.Traits {
		if len(beginning(told, t.Name+"=")) == 0 {
			open = append(open, t.Name+"=")
		}
	}
	return beginning(open, begun), cobra.ShellCompDirectiveNoSpace
}

// answersTo lists all answers about a trait.
func answersTo(cat *model.Catalogue, name string) []string {
	var out []string
	for _, t := range cat.Traits {
		if word.Fold(t.Name) != word.Fold(name) {
			continue
		}
		for _, v := range valuesOf(t) {
			out = append(out, t.Name+"="+v)
		}
		out = append(out, t.Name+"=n/a")
	}
	return out
}

// valuesOf gives what can be answered of a trait: its values, and of one on a line the ends of what
// there is, which show how such values are written.
func valuesOf(t *model.Trait) []string {
	if !t.Kind.OnLine() {
		return names(t.Values, func(v *model.Value) string { return v.Name })
	}
	var out []string
	for _, e := range t.Extents {
		for _, r := range e.Values {
			k := t.Kind.Line()
			out = append(out, k.Point(r.First()), k.Point(r.End()))
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// completeCode completes the code that explain takes.
func completeCode(_ *cobra.Command, args []string, begun string) ([]string, cobra.ShellCompDirective) {
	if len(args) > 0 {
		return nil, cobra.ShellCompDirectiveNoFileComp
	}
	return beginning(codeNames(), begun), cobra.ShellCompDirectiveNoFileComp
}

// nothingToComplete tells whether a shell asks what goes on from words with signs that cannot
// be seen. No name that is offered has any, and the library would tell errors about such words
// as they are.
func nothingToComplete(args []string) bool {
	return len(args) > 0 && (args[0] == cobra.ShellCompRequestCmd || args[0] == cobra.ShellCompNoDescRequestCmd) &&
		visible.Any(strings.Join(args[1:], ""))
}
