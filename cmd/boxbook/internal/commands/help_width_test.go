package commands

import (
	"bytes"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/spf13/cobra"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestHelpPagesFitTheirWidth reads the help page of every command there is.
func TestHelpPagesFitTheirWidth(t *testing.T) {
	var walk func(path []string, cmd *cobra.Command)
	pages := 0
	walk = func(path []string, cmd *cobra.Command) {
		var page bytes.Buffer
		require.Equal(t, exitDone, run(append(path, "--help"), readmeStreams(&page)))
		pages++
		for _, line := range strings.Split(page.String(), "\n") {
			typed := strings.HasPrefix(line, "  boxbook ") // an example can be copied
			assert.True(t, typed || utf8.RuneCountInString(line) <= helpWidth, "%v: %s", path, line)
		}
		for _, sub := range cmd.Commands() {
			walk(append(append([]string{}, path...), sub.Name()), sub)
		}
	}
	walk(nil, newRoot(systemStreams()))
	require.Greater(t, pages, 50)
}
