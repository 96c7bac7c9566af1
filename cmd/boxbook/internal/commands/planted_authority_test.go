//go:build planted

package commands

import (
	"encoding/json"
	"fmt"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestPlantedAuthorities builds the program once for each number that outputs
// speak of, with that number put another way, and compares what it says:
//
//	go test -tags planted -run TestPlantedAuthorities -v ./cmd/boxbook/internal/commands
func TestPlantedAuthorities(t *testing.T) {
	for _, a := range authorities {
		t.Run(a.name, func(t *testing.T) {
			t.Parallel()
			holdAuthority(t, a)
		})
	}
}

// holdAuthority builds the program with the number put another way and holds
// what it says to it.
func holdAuthority(t *testing.T, a authority) {
	t.Helper()
	path, text := a.edit(t)
	binary, refused := builtWith(t, map[string]string{path: text})
	require.Empty(t, refused)
	for _, s := range a.says {
		t.Run(strings.Join(s.args, " "), func(t *testing.T) { s.hold(t, built(binary)) })
	}
}

// hold compares what the two programs say.
func (s saying) hold(t *testing.T, other asking) {
	t.Helper()
	path := "../../../../data/demo/longmere.boxbook"
	if s.ledger != "" {
		path = few(t, s.ledger)
	}
	was, is := s.texts(t, asIs, path), s.texts(t, other, path)
	spoke := 0
	for _, where := range []string{"text", "markdown", "csv", "json", "sheet"} {
		if s.old == "" {
			break
		}
		old := regexp.MustCompile(s.old)
		assert.Empty(t, old.FindString(is[where]), "%s keeps the old number", where)
		if !old.MatchString(was[where]) {
			continue
		}
		spoke++
		s.holdNew(t, where, is[where])
	}
	if s.old == "" {
		s.holdNew(t, "text", is["text"])
	}
	if s.sheet != "" {
		s.holdNew(t, "sheet", is["sheet"])
	}
	assert.True(t, s.old == "" || spoke > 0, "nothing said %s before", s.old)
	s.holdFields(t, was["json"], is["json"])
	if s.ledger != "" || s.sheet != "" {
		b := bookOf(t, other, path, "--pilot", "ines")
		b.holdNumbers(t)
		b.holdKnown(t)
	}
}

func (s saying) holdNew(t *testing.T, where, text string) {
	t.Helper()
	if !regexp.MustCompile(s.new).MatchString(text) {
		t.Errorf("%s does not say %s", where, s.new)
	}
}

// texts are what a program says in each format, blanks and line ends alike, and
// the texts of the sheet.
func (s saying) texts(t *testing.T, by asking, path string) map[string]string {
	t.Helper()
	flat := func(text string) string { return strings.Join(strings.Fields(text), " ") }
	if s.args[len(s.args)-1] == "--help" {
		return map[string]string{"text": flat(by(t, s.args...))}
	}
	args := append(append([]string{}, s.args...), "-f", path)
	texts := map[string]string{"text": flat(by(t, args...))}
	for _, format := range []string{"markdown", "csv", "json"} {
		texts[format] = flat(by(t, append(append([]string{}, args...), "--format", format)...))
	}
	if s.sheet != "" {
		file := filepath.Join(t.TempDir(), "book.xlsx")
		by(t, "workbook", "--pilot", "ines", "-f", path, "-o", file)
		var b strings.Builder
		for _, c := range sheetNamed(t, sheetsOf(t, file), s.sheet).cells {
			b.WriteString(c.value + "\n")
		}
		texts["sheet"] = flat(b.String())
	}
	return texts
}

// holdFields holds the JSON's fields to be others, or gone.
func (s saying) holdFields(t *testing.T, was, is string) {
	t.Helper()
	if len(s.moves)+len(s.lost) == 0 {
		return
	}
	var before, after any
	require.NoError(t, json.Unmarshal([]byte(was), &before))
	require.NoError(t, json.Unmarshal([]byte(is), &after))
	for _, field := range s.moves {
		assert.NotNil(t, valueAt(before, field), field)
		assert.NotEqual(t, valueAt(before, field), valueAt(after, field), "%s does not move", field)
	}
	for _, field := range s.lost {
		assert.NotNil(t, valueAt(before, field), field)
		assert.Nil(t, valueAt(after, field), "%s is still there", field)
	}
}

// valueAt follows a path of fields and places in lists; nil where it ends.
func valueAt(node any, path string) any {
	first, rest, more := strings.Cut(path, ".")
	var next any
	switch v := node.(type) {
	case map[string]any:
		next = v[first]
	case []any:
		var i int
		if _, err := fmt.Sscan(first, &i); err == nil && i < len(v) {
			next = v[i]
		}
	}
	if !more {
		return next
	}
	return valueAt(next, rest)
}
