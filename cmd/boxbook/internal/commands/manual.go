//go:build manual

package commands

import (
	"fmt"
	"os"
	"strings"

	"boxbook/data"

	"github.com/spf13/cobra"
	"github.com/spf13/cobra/doc"
)

// Built with the tag manual the program writes its manual pages into the folder
// that it is given, and nothing else: `go run -tags manual ./cmd/boxbook FOLDER`.
// They are dated by $SOURCE_DATE_EPOCH. So the generator is never part of the
// program that people have.
func init() {
	if err := writeManual(os.Args[1:]); err != nil {
		fmt.Fprintln(os.Stderr, "manual:", err)
		os.Exit(1)
	}
	os.Exit(0)
}

func writeManual(args []string) error {
	if len(args) != 1 {
		return fmt.Errorf("one folder is needed, not %d", len(args))
	}
	root := newRoot(systemStreams())
	asMarkdown(root)
	return doc.GenManTree(root, &doc.GenManHeader{Section: "1", Source: "boxbook " + data.Version(), Manual: "boxbook"}, args[0])
}

// asMarkdown makes the texts of a tree's commands what the generator takes:
// indented lines stay as they are, and no character means more than itself.
func asMarkdown(cmd *cobra.Command) {
	cmd.DisableAutoGenTag = true
	var lines []string
	indented := false
	for line := range strings.SplitSeq(cmd.Long, "\n") {
		inside := strings.HasPrefix(line, "  ")
		switch {
		case inside && !indented, !inside && indented && line != "":
			lines = append(lines, "")
		}
		if inside {
			line = "    " + line
		} else {
			line = literal.Replace(line)
		}
		lines, indented = append(lines, line), inside
	}
	cmd.Long = strings.Join(lines, "\n")
	for _, sub := range cmd.Commands() {
		asMarkdown(sub)
	}
}

// literal puts a backslash before what would be markup.
var literal = strings.NewReplacer(`\`, `\\`, "*", `\*`, "_", `\_`, "<", `\<`, "[", `\[`, "`", "\\`")
