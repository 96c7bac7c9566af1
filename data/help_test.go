package data_test

import (
	"strings"
	"testing"

	"boxbook/data"

	"github.com/stretchr/testify/require"
)

// TestHelpPagesFitATerminal: nothing on a help page is wider than 80 columns.
func TestHelpPagesFitATerminal(t *testing.T) {
	for name, page := range map[string]string{"language": data.Language, "template": data.Template, "changes": data.Changes, "kinds": data.Kinds, "editors": data.Editors, "money": data.Money} {
		for i, line := range strings.Split(page, "\n") {
			require.LessOrEqual(t, len([]rune(line)), 80, "%s, line %d: %s", name, i+1, line)
		}
	}
}
