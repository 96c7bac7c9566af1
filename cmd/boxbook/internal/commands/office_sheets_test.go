package commands

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"text/tabwriter"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// officeFolder has the sheets of contest offices, their ledger, and what each
// must give.
const officeFolder = "../../../../testdata/sheets/office"

// officeCase is what one sheet must give with what is typed beside it: its marks,
// a refusal, or either.
type officeCase struct {
	file, layout string
	given        []string            // arguments of import
	marks        map[string][]string // by judge: figures in order, then positioning
	refused      []string            // lists of words that one message must hold
	says         []string            // lists of words that must be said in any case
}

// officeCases reads expected.txt; its head says what its lines mean.
func officeCases(t *testing.T) []*officeCase {
	t.Helper()
	raw, err := os.ReadFile(filepath.Join(officeFolder, "expected.txt"))
	require.NoError(t, err)
	var cases []*officeCase
	for i, line := range strings.Split(string(raw), "\n") {
		key, value, _ := strings.Cut(strings.TrimSpace(line), " ")
		if key == "" || strings.HasPrefix(key, "#") {
			continue
		}
		value = strings.TrimSpace(value)
		if key == "sheet" {
			cases = append(cases, &officeCase{file: value, marks: map[string][]string{}})
			continue
		}
		require.NotEmpty(t, cases, "expected.txt:%d: a line before the first sheet", i+1)
		require.True(t, cases[len(cases)-1].take(key, value), "expected.txt:%d: no such line: %s", i+1, key)
	}
	return cases
}

// take reads one line of a case; false where there is no such line.
func (c *officeCase) take(key, value string) bool {
	switch key {
	case "layout":
		c.layout = value
	case "given":
		c.given = strings.Fields(value)
	case "panel":
		c.given = append(c.given, "--panel", value)
	case "marks":
		words := strings.Fields(strings.Replace(value, "/", " ", 1))
		c.marks[words[0]] = words[1:]
	case "refused":
		c.refused = append(c.refused, value)
	case "says":
		c.says = append(c.says, value)
	default:
		return false
	}
	return true
}

// imported is what an import of a sheet did to a copy of the ledger.
type imported struct {
	code     int
	out, err string
	ledger   string // the copy
	changed  bool   // it is no longer what it was
}

// importSheet imports a sheet as a person would, and writes.
func importSheet(t *testing.T, c *officeCase) imported {
	t.Helper()
	before, err := os.ReadFile(filepath.Join(officeFolder, "office.boxbook"))
	require.NoError(t, err)
	path := filepath.Join(t.TempDir(), "office.boxbook")
	require.NoError(t, os.WriteFile(path, before, 0o600))
	args := append([]string{"import", filepath.Join(officeFolder, c.file), "-f", path, "--write"}, c.given...)
	var out, said bytes.Buffer
	pipe := readmeStreams(&out)
	pipe.err = &said
	code := run(args, pipe)
	after, err := os.ReadFile(path)
	require.NoError(t, err)
	return imported{code, out.String(), said.String(), path, !bytes.Equal(before, after)}
}

// marksIn are the marks that a ledger has: by judge, figures in order, then
// positioning.
func marksIn(t *testing.T, path string) map[string][]string {
	t.Helper()
	var out bytes.Buffer
	require.Equal(t, exitDone, run([]string{"export", "-f", path, "--format", "json"}, readmeStreams(&out)), out.String())
	var rows []struct{ Judge, Mark string }
	require.NoError(t, json.Unmarshal(out.Bytes(), &rows), out.String())
	marks := map[string][]string{}
	for _, r := range rows {
		marks[r.Judge] = append(marks[r.Judge], r.Mark)
	}
	return marks
}

// errorLine is a line that says one error, of a place or of the command.
var errorLine = regexp.MustCompile(`^(boxbook|error): |: error: `)

// errorsOf are the messages on the error stream, each with its hint.
func errorsOf(said string) (messages []string) {
	for _, line := range strings.Split(said, "\n") {
		switch {
		case errorLine.MatchString(line):
			messages = append(messages, line)
		case strings.HasPrefix(line, " ") && len(messages) > 0:
			messages[len(messages)-1] += "\n" + line
		}
	}
	return messages
}

// holds says whether a text has one word of each list: lists parted by &, words
// by |. A number is not found within another.
func holds(text, lists string) bool {
	for _, list := range strings.Split(lists, "&") {
		found := false
		for _, word := range strings.Split(list, "|") {
			whole := `(?i)(^|[^\pL\pN.,])` + regexp.QuoteMeta(strings.TrimSpace(word)) + `($|[^\pL\pN.,]|[.,]($|[^\pN]))`
			found = found || regexp.MustCompile(whole).MatchString(text)
		}
		if !found {
			return false
		}
	}
	return true
}

// What becomes of a sheet, from best to worst.
const (
	officeRead    = "read"
	officeRefused = "refused rightly"
	officeFails   = "fails"
	officeWrong   = "READ WRONGLY"
)

// judge is what became of a sheet, and why where it is not as it should be.
func (c *officeCase) judge(t *testing.T, got imported) (result, why string) {
	t.Helper()
	for _, lists := range c.says {
		if !holds(got.out+"\n"+got.err, lists) {
			why = "does not say " + lists
		}
	}
	if got.code == exitDone {
		return c.judgeMarks(t, got, why)
	}
	messages := errorsOf(got.err)
	switch {
	case got.changed:
		return officeWrong, "refused, but the ledger is changed"
	case got.code != exitInvalid && got.code != exitUsage:
		return officeFails, fmt.Sprintf("exit code %d", got.code)
	case len(c.refused) == 0:
		return officeFails, fmt.Sprintf("refused, errors: %d: %s", len(messages), firstMessage(messages))
	case len(messages) != 1:
		return officeFails, fmt.Sprintf("errors for one slip: %d: %s", len(messages), firstMessage(messages))
	}
	for _, lists := range c.refused {
		if !holds(messages[0], lists) {
			return officeFails, "does not name " + lists + ": " + firstMessage(messages)
		}
	}
	if len(c.marks) == 0 && why != "" {
		return officeFails, why
	}
	return officeRefused, ""
}

// judgeMarks compares every mark that was read; why is what was not said.
func (c *officeCase) judgeMarks(t *testing.T, got imported, why string) (string, string) {
	t.Helper()
	marks := marksIn(t, got.ledger)
	switch {
	case len(c.marks) == 0:
		return officeWrong, "read, and should be refused naming " + strings.Join(c.refused, " & ")
	case !assert.ObjectsAreEqual(c.marks, marks):
		return officeWrong, "other marks: " + differing(c.marks, marks)
	case why != "":
		return officeFails, "read, but " + why
	}
	return officeRead, ""
}

// differing counts the judges whose marks are not as they should be.
func differing(want, got map[string][]string) string {
	wrong := 0
	for judge := range want {
		if !assert.ObjectsAreEqual(want[judge], got[judge]) {
			wrong++
		}
	}
	return fmt.Sprintf("%d of %d judges differ, %d judges read", wrong, len(want), len(got))
}

// firstMessage is the first message without its hint.
func firstMessage(messages []string) string {
	if len(messages) == 0 {
		return "no message"
	}
	line, _, _ := strings.Cut(messages[0], "\n")
	return strings.TrimPrefix(line, officeFolder+"/")
}

// TestOfficeSheets imports the sheets of contest offices: each is read, every
// mark, or refused with one message that names the one thing; none is read
// wrongly. With -v it prints the table.
func TestOfficeSheets(t *testing.T) {
	var table bytes.Buffer
	w := tabwriter.NewWriter(&table, 0, 0, 2, ' ', 0)
	counts := map[string]int{}
	for _, c := range officeCases(t) {
		name := c.file
		if len(c.marks) == 0 {
			name += ", to refuse"
		}
		t.Run(name, func(t *testing.T) {
			result, why := c.judge(t, importSheet(t, c))
			counts[result]++
			_, _ = fmt.Fprintf(w, "%s\t%s\t%s\t%s\n", c.file, c.layout, result, why)
			assert.Contains(t, []string{officeRead, officeRefused}, result, why)
		})
	}
	require.NoError(t, w.Flush())
	t.Logf("sheets of contest offices: %d read, %d refused rightly, %d fail, %d read wrongly\n%s",
		counts[officeRead], counts[officeRefused], counts[officeFails], counts[officeWrong], table.String())
}

// TestOfficeSheetsAreAllExpected holds the folder and expected.txt to each other,
// and the expected marks to one number of figures for each sheet.
func TestOfficeSheetsAreAllExpected(t *testing.T) {
	expected := map[string]bool{"expected.txt": true, "office.boxbook": true}
	for _, c := range officeCases(t) {
		expected[c.file] = true
		assert.NotEmpty(t, c.layout, c.file)
		assert.NotEmpty(t, len(c.marks)+len(c.refused), "%s: neither marks nor a refusal", c.file)
		figures := -1
		for judge, marks := range c.marks {
			if figures < 0 {
				figures = len(marks)
			}
			assert.Len(t, marks, figures, "%s: judge %s", c.file, judge)
		}
	}
	entries, err := os.ReadDir(officeFolder)
	require.NoError(t, err)
	found := map[string]bool{}
	for _, e := range entries {
		found[e.Name()] = true
	}
	assert.Equal(t, expected, found)
}
