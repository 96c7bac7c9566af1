package commands

import (
	"slices"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"boxbook/report"
	"boxbook/report/display"
)

// named are commands whose suggestion names its flight in full, so that nothing is
// left to choose.
var named = []string{"flight", "debrief"}

// general are flags of where a page goes and what it looks like, which say nothing
// about what is on it.
var general = []string{"ledger", "format", "output", "color", "no-pager", "asof", "pilot", "all", "help"}

// keepSelection gives the commands that a page suggests what the person chose by
// flags, as far as they heed it: the same command all of it, another one what
// chooses among flights.
func (a *app) keepSelection(doc report.Document) {
	if a.asked == nil {
		return
	}
	doc.RewriteCommands(a.withSelection)
}

// withSelection is a suggested command with the flags that it keeps.
func (a *app) withSelection(line string) string {
	name := strings.Fields(line)[1]
	if slices.Contains(named, name) {
		return line
	}
	var to *cobra.Command // made for a flag that it may heed: most suggestions are made without any
	a.asked.Flags().Visit(func(f *pflag.Flag) {
		if slices.Contains(general, f.Name) {
			return
		}
		if to == nil {
			to = a.suggestedCommand(name)
		}
		if kept(a.asked, to, f.Name) && !strings.Contains(line, " --"+f.Name) {
			line += " --" + f.Name
			if f.NoOptDefVal == "" {
				line += " " + display.ShellWord(f.Value.String())
			}
		}
	})
	return line
}

// suggestedCommand is the command of a name with its flags, the one that was asked
// where it is that; the root for a pilot's name.
func (a *app) suggestedCommand(name string) *cobra.Command {
	root := a.asked.Root()
	if a.asked.Name() == name && a.asked.Parent() == root {
		return a.asked
	}
	for _, m := range makers() {
		if m.name == name {
			return m.make(&app{streams: a.streams})
		}
	}
	return root
}

// kept reports whether a flag that chooses, of the command that was asked, stands on
// another one that it suggests.
func kept(asked, to *cobra.Command, flag string) bool {
	if to.Flags().Lookup(flag) == nil {
		return false
	}
	return asked == to || slices.Contains(choosing, flag) || slices.Contains(settling, flag)
}
