package commands

import (
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// A home page is a page: twenty lines at eighty columns, whoever's it is.
func TestHomeFitsTwentyLines(t *testing.T) {
	for _, pilot := range []string{"ines", "tobias", "yuki"} {
		for _, day := range []string{"2025-05-01", "2026-04-30", "2026-07-01", "2026-09-30", "2026-11-25", "2027-03-01"} {
			text := screenOf(t, 80, "--pilot", pilot, "--asof", day, "-f", filepath.FromSlash("../../../../data/demo/longmere.boxbook"))
			lines := strings.Split(strings.TrimSuffix(text, "\n"), "\n")
			assert.LessOrEqual(t, len(lines), 20, "%s, %s\n%s", pilot, day, text)
		}
	}
}
