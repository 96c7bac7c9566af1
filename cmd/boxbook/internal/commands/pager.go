package commands

import (
	"bytes"
	"cmp"
	"os"
	"os/exec"
	"os/signal"
	"strings"

	"github.com/spf13/cobra"
)

// A page that is longer than the terminal goes through the reader's pager.
const (
	defaultPager = "less -FRX"
	// pagerOptions are what less goes by where $LESS says nothing: no pager for
	// what fits after all, colours kept, the text left standing.
	pagerOptions = "FRX"
)

// pagerFlag sends long pages through a pager unless it is told not to.
func (a *app) pagerFlag(cmd *cobra.Command) {
	cmd.Flags().BoolVar(&a.unpaged, "no-pager", false, "write a long page without $PAGER")
	before(cmd, func([]string) error {
		a.paged = !a.unpaged
		return nil
	})
}

// pagedHelp sends the help of every command through the pager where it is long.
func (a *app) pagedHelp(root *cobra.Command) {
	help := root.HelpFunc()
	root.SetHelpFunc(func(cmd *cobra.Command, args []string) {
		if a.misspelt = a.noCommand(root, cmd); a.misspelt != nil {
			return
		}
		if word := cmd.Flags().Arg(0); cmd.Name() == "log" && word != "" && word != stdinName {
			a.misspelt = noKind(cmd, word)
			return
		}
		var page bytes.Buffer
		cmd.SetOut(&page)
		help(cmd, args)
		cmd.SetOut(a.out)
		a.unsaid = a.showHelp(page.Bytes()) // a help function gives no error
	})
}

// showHelp writes a page of help, through the pager where it is longer than the
// terminal.
func (a *app) showHelp(page []byte) error {
	a.paged = !a.unpaged
	if a.tooLong(page) && a.page(page) {
		return nil
	}
	if _, err := a.out.Write(page); err != nil {
		return &fileError{"write the output", err}
	}
	return nil
}

// tooLong reports whether text is a page to be read here that does not fit on the
// terminal with the prompt beneath. A pipe and a file have no height.
func (a *app) tooLong(text []byte) bool {
	return a.paged && a.terminal && a.height > 0 && a.plainText() && a.env("TERM") != "dumb" && bytes.Count(text, []byte("\n")) >= a.height
}

// page shows text in the reader's pager and reports whether it was shown: a pager
// that cannot be started or fails is no failure of the page, which is then
// written as it is.
func (a *app) page(text []byte) bool {
	words := strings.Fields(cmp.Or(a.env("PAGER"), defaultPager))
	if len(words) == 0 {
		return false
	}
	pager := exec.Command(words[0], words[1:]...)
	pager.Stdin, pager.Stdout, pager.Stderr = bytes.NewReader(text), a.out, a.err
	if a.env("LESS") == "" {
		pager.Env = append(os.Environ(), "LESS="+pagerOptions)
	}
	// Ctrl-C is the pager's while it runs.
	interrupts := make(chan os.Signal, 1)
	signal.Notify(interrupts, os.Interrupt)
	defer signal.Stop(interrupts)
	return pager.Run() == nil
}
