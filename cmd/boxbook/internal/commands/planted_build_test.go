//go:build planted

package commands

import (
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// builtWith builds the program with other texts in place of its own, by path,
// and says what the compiler says where it refuses.
func builtWith(t testing.TB, texts map[string]string) (binary, refused string) {
	t.Helper()
	folder := t.TempDir()
	replace := map[string]string{}
	for path, text := range texts {
		source, err := filepath.Abs(path)
		require.NoError(t, err)
		edited := filepath.Join(folder, fmt.Sprintf("%d.txt", len(replace)))
		require.NoError(t, os.WriteFile(edited, []byte(text), 0o600))
		replace[source] = edited
	}
	raw, err := json.Marshal(map[string]any{"Replace": replace})
	require.NoError(t, err)
	overlay := filepath.Join(folder, "overlay.json")
	require.NoError(t, os.WriteFile(overlay, raw, 0o600))
	binary = filepath.Join(folder, "boxbook.exe")
	said, err := exec.Command("go", "build", "-ldflags=-s -w", "-overlay", overlay, "-o", binary, "boxbook/cmd/boxbook").CombinedOutput()
	if err != nil {
		return "", string(said)
	}
	return binary, ""
}

// built asks a program that was built, on a machine whose user has set nothing.
func built(binary string) asking {
	return func(t testing.TB, args ...string) string {
		t.Helper()
		cmd := exec.Command(binary, append(args, "--asof", demoDay().Format("2006-01-02"))...)
		cmd.Env = append(os.Environ(), "NO_COLOR=1", "BOXBOOK_LEDGER=", "BOXBOOK_PILOT=", "COLUMNS=")
		var complaint strings.Builder
		cmd.Stderr = &complaint
		out, err := cmd.Output()
		require.NoError(t, err, "%v: %s", args, complaint.String())
		return string(out)
	}
}
