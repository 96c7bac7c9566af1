package lsp

import (
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// pilotsOf is a ledger with a flight of somebody on each of some lines.
func pilotsOf(names ...string) string {
	text := "pilot ines\n"
	for i, name := range names {
		text += "cost 2026-01-0" + string(rune('1'+i)) + " fuel 10 EUR for " + name + "\n"
	}
	return text
}

// hear waits for a message of the server's own.
func (c *client) hear(method string) json.RawMessage {
	c.t.Helper()
	for {
		raw, err := c.ch.Recv()
		require.NoError(c.t, err)
		var m struct {
			ID     json.RawMessage `json:"id"`
			Method string          `json:"method"`
			Params json.RawMessage `json:"params"`
		}
		require.NoError(c.t, json.Unmarshal(raw, &m))
		if m.Method == method {
			if len(m.ID) > 0 {
				c.send(map[string]any{"id": m.ID, "result": nil})
			}
			return m.Params
		}
	}
}

// TestChangesOnDiskAreAskedFor: an editor that can watch files is asked to tell of
// ledgers that change on disk, and what it tells is taken notice of.
func TestChangesOnDiskAreAskedFor(t *testing.T) {
	dir := t.TempDir()
	main, part := filepath.Join(dir, "a.boxbook"), filepath.Join(dir, "part.boxbook")
	require.NoError(t, os.WriteFile(main, []byte("pilot ines\ninclude \"part.boxbook\"\n"), 0o600))
	require.NoError(t, os.WriteFile(part, []byte("pilot yuki\n"), 0o600))
	c := connect(t, dir, testOptions())
	_, err := c.call("initialize", map[string]any{"capabilities": map[string]any{
		"workspace": map[string]any{"didChangeWatchedFiles": map[string]any{"dynamicRegistration": true}},
	}})
	require.NoError(t, err)
	c.notify("initialized", map[string]any{})
	require.Contains(t, string(c.hear("client/registerCapability")), `"globPattern":"**/*.boxbook"`)
	c.open(main, "pilot ines\ninclude \"part.boxbook\"\n")
	_, err = c.call("textDocument/foldingRange", of(main))
	require.NoError(t, err)
	require.Empty(t, c.told[uriOf(main)].Diagnostics)
	require.NoError(t, os.WriteFile(part, []byte("pilot ines\n"), 0o600))
	c.notify("workspace/didChangeWatchedFiles", map[string]any{"changes": []any{map[string]any{"uri": uriOf(part), "type": 2}}})
	_, err = c.call("textDocument/foldingRange", of(main))
	require.NoError(t, err)
	require.Len(t, c.told[uriOf(part)].Diagnostics, 1)
	require.NoError(t, c.leave())
}

// TestEveryPlaceOfASlipIsMarked: a slip on several lines is marked on each, and the
// edit says how many places it is of.
func TestEveryPlaceOfASlipIsMarked(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "a.boxbook")
	c := connect(t, dir, testOptions())
	c.open(path, pilotsOf("inse", "ines", "inse", "inse"))
	params := of(path)
	params["range"] = rng{position{3, 33}, position{3, 33}}
	actions := ask[[]codeAction](c, "textDocument/codeAction", params)
	var lines []int
	for _, d := range c.told[uriOf(path)].Diagnostics {
		lines = append(lines, d.Range.Start.Line)
	}
	require.Equal(t, []int{1, 3, 4}, lines)
	require.Len(t, actions, 1)
	require.True(t, strings.HasSuffix(actions[0].Title, " (3 places)"), actions[0].Title)
	require.Len(t, actions[0].Edit.Changes[uriOf(path)], 3)
	require.Equal(t, 3, actions[0].Diagnostics[0].Range.Start.Line)
	require.NoError(t, c.leave())
}

// TestTextsWithoutAName: a text that was never saved is a ledger by itself.
func TestTextsWithoutAName(t *testing.T) {
	c := connect(t, t.TempDir(), testOptions())
	for _, uri := range []string{"untitled:Untitled-1", "untitled:" + filepath.ToSlash(t.TempDir()) + "/new.boxbook"} {
		c.notify("textDocument/didOpen", map[string]any{"textDocument": map[string]any{
			"uri": uri, "languageId": "boxbook", "version": 1, "text": "pilot ines\nflight 2026-13-01 ines known\n",
		}})
		items := ask[[]completionItem](c, "textDocument/completion", map[string]any{
			"textDocument": map[string]any{"uri": uri}, "position": position{1, 20},
		})
		require.Len(t, items, 1)
		require.Equal(t, "ines", items[0].Label)
		require.NotEmpty(t, c.told[uri].Diagnostics)
	}
	require.NoError(t, c.leave())
}

// TestFilesAreCompleted: an include takes the ledgers beneath, and part-of those that
// may include the file.
func TestFilesAreCompleted(t *testing.T) {
	dir, err := filepath.EvalSymlinks(t.TempDir())
	require.NoError(t, err)
	for _, name := range []string{"book.boxbook", "seasons/2025.boxbook", "seasons/2026.boxbook", "seasons/notes.txt", ".old/a.boxbook"} {
		require.NoError(t, os.MkdirAll(filepath.Join(dir, filepath.Dir(name)), 0o700))
		require.NoError(t, os.WriteFile(filepath.Join(dir, name), []byte("pilot "+"p\n"), 0o600))
	}
	c := connect(t, dir, testOptions())
	offered := func(name, text string) (labels, edits []string) {
		path := filepath.Join(dir, name)
		before, after, _ := strings.Cut(text, "|")
		c.open(path, before+after)
		for _, item := range ask[[]completionItem](c, "textDocument/completion", at(path, position{0, len(before)})) {
			labels, edits = append(labels, item.Label), append(edits, item.TextEdit.NewText)
			require.Equal(t, strings.IndexByte(before, '"')+1, item.TextEdit.Range.Start.Character)
		}
		return labels, edits
	}
	labels, edits := offered("book.boxbook", `include "|`)
	require.Equal(t, []string{"seasons/2025.boxbook", "seasons/2026.boxbook"}, labels)
	require.Equal(t, `seasons/2025.boxbook"`, edits[0])
	labels, edits = offered("book.boxbook", `include "seasons/2025|.box"`)
	require.Equal(t, []string{"seasons/2025.boxbook"}, labels)
	require.Equal(t, labels, edits)
	labels, _ = offered("seasons/2026.boxbook", `part-of "|"`)
	require.Contains(t, labels, "../book.boxbook")
	labels, _ = offered("book.boxbook", `pilot p "|`)
	require.Empty(t, labels)
	require.NoError(t, c.leave())
}

// TestOneAmountIsOffered: behind an amount there is none to offer again.
func TestOneAmountIsOffered(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "a.boxbook")
	c := connect(t, dir, testOptions())
	text := "pilot ines\nsequence s\n  1 K 10\nflight 2026-04-18 ines known\n  sequence s\n  fault 1 heading "
	labels := func(text string) (labels []string) {
		c.open(path, text)
		last := text[strings.LastIndexByte(text, '\n')+1:]
		for _, item := range ask[[]completionItem](c, "textDocument/completion", at(path, position{5, len(last)})) {
			labels = append(labels, item.Label)
		}
		return labels
	}
	require.Contains(t, labels(text), "10deg")
	require.NotContains(t, labels(text+"20deg "), "10deg")
	require.NoError(t, c.leave())
}

// TestTroubleIsShown: what is wrong from the start is told in the editor's window.
func TestTroubleIsShown(t *testing.T) {
	opts := testOptions()
	opts.Trouble = "cannot read nope.boxbook: no such file or directory"
	c := connect(t, t.TempDir(), opts)
	require.JSONEq(t, `{"type":1,"message":"cannot read nope.boxbook: no such file or directory"}`, string(c.hear("window/showMessage")))
	require.NoError(t, c.leave())
}
