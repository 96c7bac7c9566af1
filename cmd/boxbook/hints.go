package main

import (
	"regexp"
	"slices"
	"strings"
	"sync"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"boxbook/report"
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
	to := a.asked.Root() // of a pilot's name
	if i := slices.IndexFunc(makers(), func(m maker) bool { return m.name == name }); i >= 0 {
		to = makers()[i].make(&app{streams: a.streams})
	}
	a.asked.Flags().Visit(func(f *pflag.Flag) {
		if kept(a.asked, to, f.Name) && !strings.Contains(line, " --"+f.Name) {
			line += " --" + f.Name
			if f.NoOptDefVal == "" {
				line += " " + shellWord(f.Value.String())
			}
		}
	})
	return line
}

// kept reports whether a flag of the command that was asked stands on another one
// that it suggests.
func kept(asked, to *cobra.Command, flag string) bool {
	if slices.Contains(general, flag) || to.Flags().Lookup(flag) == nil {
		return false
	}
	return asked.Name() == to.Name() || slices.Contains(choosing, flag) || slices.Contains(settling, flag)
}

// shellWord is a text as one word of a shell's command line.
func shellWord(text string) string {
	if plainWord().MatchString(text) {
		return text
	}
	return "'" + strings.ReplaceAll(text, "'", `'\''`) + "'"
}

var plainWord = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`^[\pL\pN._/:+-]+$`) })
