//go:build planted

package scoring_test

import (
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Tests that cannot fail prove nothing. Here faults are planted in the sources
// of the package, one at a time and in a copy, and the comparison with the
// oracle must fail on each:
//
//	go test -tags planted -run TestPlantedFaults -v ./scoring

// fault is one edit of one source file. The old text occurs in it exactly
// once. Test is the test that must fail, the comparison with the oracle if "".
type fault struct {
	name, file, old, new string
	test                 string
}

const (
	oracleTest    = "TestScoreEqualsOracle"
	reconcileTest = "TestReconcileEqualsOracle" // of what explains a printed total
)

// saidByOracle finds a difference in numbers or rulings in a test's output; a
// mere panic is none.
var saidByOracle = regexp.MustCompile(`[a-z0-9: ]+ is \S*, the oracle says [^\s\]]+`)

func TestPlantedFaults(t *testing.T) {
	none := fault{name: "no fault", file: "score.go", old: "package scoring", new: "package scoring", test: oracleTest}
	output, err := runWith(t, none)
	require.NoError(t, err, "the sound sources must pass, else nothing is shown:\n%s", output)
	for _, f := range faults {
		t.Run(f.name, func(t *testing.T) {
			t.Parallel()
			requireCaught(t, f)
		})
	}
}

func requireCaught(t *testing.T, f fault) {
	byOracle := f.test == ""
	if byOracle {
		f.test = oracleTest
	}
	output, err := runWith(t, f)
	exit := &exec.ExitError{}
	require.ErrorAs(t, err, &exit, "NOT CAUGHT: %s", f.name)
	require.Contains(t, output, "--- FAIL: "+f.test, f.name)
	difference := f.test
	if byOracle {
		difference = saidByOracle.FindString(output)
		require.NotEmpty(t, difference, "%s fails without a difference:\n%s", f.name, output)
	}
	t.Logf("%s: caught (%s)", f.name, strings.TrimSpace(difference))
}

// runWith builds the package's tests with the fault planted, which must
// compile, and runs the fault's test.
func runWith(t *testing.T, f fault) (output string, err error) {
	folder := t.TempDir()
	binary := filepath.Join(folder, "scoring.test")
	build := exec.Command("go", "test", "-c", "-vet=off", "-ldflags=-s -w", "-overlay", overlay(t, folder, f), "-o", binary, ".")
	text, err := build.CombinedOutput()
	require.NoError(t, err, "%s does not compile:\n%s", f.name, text)
	text, err = exec.Command(binary, "-test.run", "^"+f.test+"$", "-oracle-sheets", "2000").CombinedOutput()
	return string(text), err
}

// overlay writes the edited copy and the file that tells the go command to
// read it in place of the source; it gives that file's name.
func overlay(t *testing.T, folder string, f fault) string {
	source, err := filepath.Abs(f.file)
	require.NoError(t, err)
	text, err := os.ReadFile(source)
	require.NoError(t, err)
	require.Equal(t, 1, strings.Count(string(text), f.old), "%s: %q in %s", f.name, f.old, f.file)
	edited := filepath.Join(folder, f.file)
	require.NoError(t, os.WriteFile(edited, []byte(strings.Replace(string(text), f.old, f.new, 1)), 0o600))
	replace, err := json.Marshal(map[string]any{"Replace": map[string]string{source: edited}})
	require.NoError(t, err)
	name := filepath.Join(folder, "overlay.json")
	require.NoError(t, os.WriteFile(name, replace, 0o600))
	return name
}

func TestPlantedFaultsHaveNamesOfTheirOwn(t *testing.T) {
	names := map[string]bool{}
	for _, f := range faults {
		assert.False(t, names[f.name], f.name)
		assert.NotEqual(t, f.old, f.new, f.name)
		names[f.name] = true
	}
}
