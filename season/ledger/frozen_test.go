package ledger

import (
	"bytes"
	"compress/gzip"
	"crypto/sha1"
	"fmt"
	"io"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"boxbook/data"
)

const frozenFolder = "../../testdata/ledgers/frozen/"

// frozenLedger is a ledger of a revision before version 1, and what the reader
// of then said of it: manifest.txt explains.
type frozenLedger struct {
	revision         string
	errors, warnings int
	gone             bool     // a warning of then is none now
	added            []string // warnings that are new
	main             string
	files            Memory
}

// frozenTexts are the texts of ledgers.gz by the beginning of their git hash.
func frozenTexts(t testing.TB) map[string]string {
	t.Helper()
	packed, err := os.ReadFile(frozenFolder + "ledgers.gz")
	require.NoError(t, err)
	r, err := gzip.NewReader(bytes.NewReader(packed))
	require.NoError(t, err)
	raw, err := io.ReadAll(r)
	require.NoError(t, err)
	texts := map[string]string{}
	for rest := string(raw); rest != ""; {
		head, body, ok := strings.Cut(rest, "\n")
		name, size, _ := strings.Cut(head, " ")
		n, err := strconv.Atoi(size)
		require.True(t, ok && err == nil && n < len(body), head)
		texts[name], rest = body[:n], body[n+1:]
		sum := fmt.Sprintf("%x", sha1.Sum([]byte(fmt.Sprintf("blob %d\x00%s", n, body[:n]))))
		require.True(t, strings.HasPrefix(sum, name), "%s is not what it was", name)
	}
	return texts
}

func frozenLedgers(t testing.TB) []frozenLedger {
	t.Helper()
	texts := frozenTexts(t)
	raw, err := os.ReadFile(frozenFolder + "manifest.txt")
	require.NoError(t, err)
	var all []frozenLedger
	for _, line := range strings.Split(strings.TrimSpace(string(raw)), "\n") {
		if !strings.HasPrefix(line, "#") {
			all = append(all, frozenLine(t, line, texts))
		}
	}
	return all
}

func frozenLine(t testing.TB, line string, texts map[string]string) frozenLedger {
	t.Helper()
	fields := strings.Fields(line)
	require.GreaterOrEqual(t, len(fields), 5, line)
	l := frozenLedger{revision: fields[0], files: Memory{}, gone: fields[3] == "-"}
	var err1, err2 error
	l.errors, err1 = strconv.Atoi(fields[1])
	l.warnings, err2 = strconv.Atoi(fields[2])
	require.True(t, err1 == nil && err2 == nil, line)
	if codes, ok := strings.CutPrefix(fields[3], "+"); ok {
		l.added = strings.Split(codes, ",")
	}
	l.main, _, _ = strings.Cut(fields[4], "=")
	for _, file := range fields[4:] {
		path, hash, _ := strings.Cut(file, "=")
		text, ok := texts[hash]
		require.True(t, ok, file)
		l.files[path] = text
	}
	return l
}

// A ledger has the errors that it had, none if it had none, and no warning but
// those of then and those that the manifest explains.
func TestFrozenLedgersStayValid(t *testing.T) {
	all, valid := frozenLedgers(t), 0
	for _, l := range all {
		result, err := Load(Options{Files: l.files, Main: l.main, Builtin: data.Builtin(), AsOf: day(t, casesToday)})
		require.NoError(t, err)
		name := l.revision + " " + l.main
		list := result.Diagnostics
		assert.Equal(t, l.errors, list.Errors(), "%s\n%v", name, list)
		want := l.warnings + len(l.added)
		if l.gone {
			want--
		}
		assert.Equal(t, want, list.Warnings(), "%s\n%v", name, list)
		for _, code := range l.added {
			assert.True(t, slices.ContainsFunc(list, func(d Diagnostic) bool { return string(d.Code) == code }), "%s: %s", name, code)
		}
		if l.errors == 0 {
			valid++
		}
	}
	assert.Greater(t, valid, 40)
}
