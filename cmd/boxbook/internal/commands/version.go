package commands

import (
	"io"
	"slices"

	"boxbook/data"
	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/words"

	"github.com/spf13/cobra"
)

func newVersion(a *app) *cobra.Command {
	var notices bool
	cmd := &cobra.Command{
		Use: "version", Short: "show the version of boxbook", GroupID: groupCare,
		Long: `Show the version of boxbook, the revision and the day that it was built from,
and the system that it was built for: the two lines to quote in a bug
report. boxbook --version shows the same. boxbook help changes says what each
version changed.

--notices prints the licences of everything that is built into the program.`,
		Example: "  boxbook version\n  boxbook version --notices",
		Args:    arguments(cobra.NoArgs),
		RunE: func(*cobra.Command, []string) error {
			switch {
			case !notices:
				return a.showVersion()
			case !a.plainText():
				return &usageError{text: "--notices are text, whatever the --format"}
			default:
				return a.deliver(func(w io.Writer) error {
					_, err := io.WriteString(w, data.Notices)
					return err
				})
			}
		},
	}
	cmd.Flags().BoolVar(&notices, "notices", false, "the licences of everything built into the program")
	a.formatFlags(cmd, versionFormats)
	a.pagerFlag(cmd)
	return cmd
}

// versionFormats are those of the version, which is no page.
var versionFormats = []string{"text", "json"}

// showVersion says what the program is, and what it was built from.
func (a *app) showVersion() error {
	program := answers.Program{
		Version: a.version, Revision: a.build.Revision, Date: a.build.Date, Changed: a.build.Changed,
		System: a.build.System, Toolchain: a.build.Toolchain,
	}
	if !slices.Contains(versionFormats, a.format) {
		return &usageError{text: "the version is " + orList(versionFormats) + ", not " + a.format}
	}
	if !a.plainText() {
		return a.show(report.Document{Data: program}, nil)
	}
	return a.deliver(func(w io.Writer) error {
		_, err := io.WriteString(w, words.Program(program))
		return err
	})
}
