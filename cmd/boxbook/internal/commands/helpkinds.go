package commands

import (
	"strings"

	"boxbook/data"
	"boxbook/season/ledger"

	"github.com/spf13/cobra"
)

// kindPage is the help page of a kind of diagnostic, false where there is no such
// kind.
func kindPage(code string) (string, bool) {
	_, page, ok := strings.Cut("\n"+data.Kinds, "\n=== "+code+"\n")
	page, _, _ = strings.Cut(page, "\n=== ")
	return strings.TrimRight(page, "\n"), ok && code != ""
}

// kindNames are the names of all kinds of diagnostic.
func kindNames() []string {
	var names []string
	for _, k := range ledger.Kinds() {
		names = append(names, string(k.Code))
	}
	return names
}

// helpOnKinds lets the help command explain kinds of diagnostic as well, and say
// of a word that it does not know what was meant.
func helpOnKinds(a *app, help *cobra.Command) {
	help.Use = "help [COMMAND|TOPIC|KIND]"
	help.Long = `Explain a command, a topic, or a kind of error that check names.

Topics: marks, methods, language, kinds, money, sources, editors, changes;
boxbook help families has the keys of the families, boxbook help export the
tables.`
	help.Example = "  boxbook help flight\n  boxbook help marks\n  boxbook help grade-not-half"
	commands, complete := help.Run, help.ValidArgsFunction
	help.Run = nil
	help.RunE = func(cmd *cobra.Command, args []string) error {
		if len(args) == 1 {
			if page, ok := kindPage(args[0]); ok {
				return a.showHelp([]byte(page + "\n"))
			}
		}
		if found, rest, err := cmd.Root().Find(args); err != nil || found == nil || found == cmd.Root() && len(rest) > 0 {
			return unknownTopic(cmd.Root(), strings.Join(args, " "))
		}
		commands(cmd, args)
		return nil
	}
	help.ValidArgsFunction = func(cmd *cobra.Command, args []string, typed string) ([]cobra.Completion, cobra.ShellCompDirective) {
		offered, directive := complete(cmd, args, typed)
		for _, name := range kindNames() {
			if len(args) == 0 && strings.HasPrefix(name, typed) {
				offered = append(offered, name)
			}
		}
		return offered, directive
	}
}

// unknownTopic is the error of a name that is no command, topic or kind.
func unknownTopic(root *cobra.Command, name string) error {
	var known []string
	for _, cmd := range root.Commands() {
		if !cmd.Hidden {
			known = append(known, cmd.Name())
		}
	}
	return noTopic(name, append(known, kindNames()...))
}
