package commands

import (
	"slices"

	"boxbook/data"
	"boxbook/report/words"
	"boxbook/season/ledger"

	"github.com/spf13/cobra"
)

// languageName is the topic that has a page by example and one that is whole.
const languageName = "language"

// newLanguageTopic is the ledger language: by example, or with --all every rule.
func newLanguageTopic(a *app) *cobra.Command {
	cmd := newTopic(a, languageName, "the ledger language by example; --all: every rule", func() string {
		if !a.whole {
			return data.Language
		}
		text, err := languagePage()
		if err != nil {
			return err.Error()
		}
		return text
	})
	a.allFlag(cmd)
	return cmd
}

// languagePage is the specification of the language.
func languagePage() (string, error) {
	tables, err := ledger.Specify(data.Builtin())
	if err != nil {
		return "", err
	}
	return words.LanguagePage(data.Specification, tables)
}

func (a *app) allFlag(cmd *cobra.Command) {
	cmd.Flags().BoolVar(&a.whole, "all", false, "the whole page: help language --all")
}

// wholeLanguage lets the help command take --all, for the language alone.
func (a *app) wholeLanguage(help *cobra.Command) {
	a.allFlag(help)
	help.PreRunE = func(_ *cobra.Command, args []string) error {
		if a.whole && !slices.Equal(args, []string{languageName}) {
			return &usageError{"--all is for the page on the language", "boxbook help language --all"}
		}
		return nil
	}
}
