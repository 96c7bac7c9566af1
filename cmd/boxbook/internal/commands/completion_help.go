package commands

import (
	"fmt"

	"github.com/spf13/cobra"
)

// shellSteps say how a shell is given its completions: for the shell that is
// open, and for every one to come.
var shellSteps = map[string][2]string{
	"bash":       {"source <(boxbook completion bash)", "boxbook completion bash > ~/.local/share/bash-completion/completions/boxbook"},
	"zsh":        {"source <(boxbook completion zsh)", `boxbook completion zsh > "${fpath[1]}/_boxbook"`},
	"fish":       {"boxbook completion fish | source", "boxbook completion fish > ~/.config/fish/completions/boxbook.fish"},
	"powershell": {"boxbook completion powershell | Out-String | Invoke-Expression", "boxbook completion powershell >> $PROFILE"},
}

// completionInOurVoice gives the commands that write completion scripts the words
// of the rest; the scripts stay the library's.
func completionInOurVoice(cmd *cobra.Command) {
	cmd.Short = "write the completion script of a shell"
	cmd.Long = `Write a script that lets a shell complete boxbook's commands and flags, and out
of the ledger its pilots, flights, sequences, contests, categories, kinds and
families. Each shell's help says where the script goes.`
	cmd.Args = cobra.ArbitraryArgs
	cmd.RunE = func(_ *cobra.Command, args []string) error {
		if len(args) == 0 {
			return cmd.Help()
		}
		return unknown("shell", args[0], namesOf(cmd.Commands(), (*cobra.Command).Name))
	}
	for _, shell := range cmd.Commands() {
		name := shell.Name()
		shell.DisableFlagsInUseLine = false
		shell.Short = "write the completion script of " + name
		shell.Long = fmt.Sprintf(`Write the completion script of %s.

In the shell that is open:

  %s

In every shell to come:

  %s`, name, shellSteps[name][0], shellSteps[name][1])
		if name == "bash" {
			shell.Long += "\n\nIt needs the package bash-completion. The folder must be there: mkdir -p makes\nit."
		}
		if flag := shell.Flags().Lookup("no-descriptions"); flag != nil {
			flag.Usage = "complete names alone, without what they are"
		}
	}
}
