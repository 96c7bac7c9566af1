package commands

import (
	"path/filepath"
	"regexp"
	"strings"
	"sync"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"boxbook/report"
	"boxbook/report/display"
)

// pasted gives a printed command as whoever reads it may paste it; nil: as it stands.
type pasted func(command string) string

// in gives a text with its commands to run as they may be pasted.
func (p pasted) in(text string) string {
	if p == nil {
		return text
	}
	return report.RewriteToRun(text, p)
}

// pasted gives printed commands the ledger, its file and the day that this one was given
// by flags.
func (a *app) pasted() pasted { return pastedBehind(a.asked, a.streams, whole) }

// pastedElsewhere is the same for a page that goes to others: files are named without
// the folders that they are in here.
func (a *app) pastedElsewhere() pasted { return pastedBehind(a.asked, a.streams, filepath.Base) }

func whole(path string) string { return path }

// carried are flags that say of which ledger, into which of its files and as of which
// day, as they are typed.
var carried = []struct {
	name, typed string
	file        bool
}{{"ledger", "-f", true}, {"into", "--into", true}, {"asof", "--asof", false}}

// pastedBehind gives printed commands what the command that was asked was given by
// these flags, as far as they take it: without, they would find no ledger or another
// one, and answer as of another day. Named is how a file is named.
func pastedBehind(asked *cobra.Command, s *streams, named func(path string) string) pasted {
	given := map[string]string{}
	for _, flag := range carried {
		if f := flagOf(asked, flag.name); f != nil && f.Changed {
			value := f.Value.String()
			if flag.file {
				value = named(value)
			}
			given[flag.name] = display.ShellWord(value)
		}
	}
	if len(given) == 0 {
		return nil
	}
	return func(line string) string {
		to := commandOf(line, s)
		for _, flag := range carried {
			value := given[flag.name]
			if value != "" && flagOf(to, flag.name) != nil && !strings.Contains(line, " "+flag.typed+" ") {
				line += " " + flag.typed + " " + value
			}
		}
		return line
	}
}

// flagOf is a command's flag, nil where there is none.
func flagOf(cmd *cobra.Command, name string) *pflag.Flag {
	if cmd == nil {
		return nil
	}
	return cmd.Flags().Lookup(name)
}

// commandOf is the command of a printed line, nil where the line could not be run as it
// stands: what a sentence goes on with behind a command's name is no word of it.
func commandOf(line string, s *streams) *cobra.Command {
	words := strings.Fields(quotedWord().ReplaceAllLiteralString(line, "quoted"))[1:]
	if strings.Contains(line, "[") { // how a command is used
		return nil
	}
	root := rootFor(s, words)
	to, rest, err := root.Find(words)
	if err != nil || to.ParseFlags(rest) != nil {
		return nil
	}
	switch given := to.Flags().Args(); {
	case to == root && len(given) > 1: // it takes a pilot's name
		return nil
	case to != root && to.HasSubCommands() && len(given) > 0 && given[0] != stdinName: // no kind of entry
		return nil
	case to != root && to.ValidateArgs(given) != nil:
		return nil
	}
	return to
}

var quotedWord = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`'[^']*'|"[^"]*"`) })
