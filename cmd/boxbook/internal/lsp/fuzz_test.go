package lsp

import (
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/creachadair/jrpc2"
	"github.com/stretchr/testify/require"
)

// FuzzMessages sends an editor's messages, a line each, in any shape: the server
// answers each with a result or an error, never crashes in one, and still knows
// the ledger afterwards.
func FuzzMessages(f *testing.F) {
	f.Add("textDocument/completion\t{\"textDocument\":{\"uri\":\"$U\"},\"position\":{\"line\":3,\"character\":5}}")
	f.Add("textDocument/hover\t{\"textDocument\":{\"uri\":\"$U\"},\"position\":{\"line\":-1,\"character\":-5}}\ntextDocument/rename\t{\"textDocument\":{\"uri\":\"$U\"},\"position\":{\"line\":0,\"character\":7},\"newName\":\"x\"}")
	f.Add("textDocument/didChange\t{\"textDocument\":{\"uri\":\"$U\",\"version\":2},\"contentChanges\":[{\"text\":\"flight 2026-04-18 ines known\\n  sequence s\\n  1 7 8\\n  fault 9 radius\"}]}\ntextDocument/inlayHint\t{\"textDocument\":{\"uri\":\"$U\"},\"range\":{\"end\":{\"line\":99}}}\ntextDocument/hover\t{\"textDocument\":{\"uri\":\"$U\"},\"position\":{\"line\":3,\"character\":4}}")
	f.Add("textDocument/didOpen\t{\"textDocument\":{\"uri\":\"file:///nowhere/x.boxbook\",\"text\":\"part-of \\\"y\\\"\"}}\ntextDocument/formatting\t{\"textDocument\":{\"uri\":\"file:///nowhere/x.boxbook\"}}")
	f.Add("textDocument/didOpen\t{\"textDocument\":{\"uri\":\"untitled:1\"}}\ntextDocument/codeAction\t[]\ntextDocument/didClose\tnull\nexit\t{}\nexit\t{}\nshutdown\t7")
	f.Add("textDocument/didChange\t{\"textDocument\":{\"uri\":\"$U\"},\"contentChanges\":[{\"text\":\"\\ufeffpilot 🛩\\r\\n  name \\\"\"}]}\ntextDocument/documentSymbol\t{\"textDocument\":{\"uri\":\"$U\"}}\ntextDocument/references\t{\"textDocument\":{\"uri\":\"$U\"},\"position\":{\"line\":0,\"character\":9}}")
	dir, err := filepath.EvalSymlinks(f.TempDir())
	require.NoError(f, err)
	path := filepath.Join(dir, "a.boxbook")
	text := "pilot ines\nsequence s\n  category intermediate\n  1 7.4.1.1:10 \"loop\"\nflight 2026-04-18 ines known\n  sequence s\n  panel A B\n  1 7 8\n  fault 1 radius 2x\n  official 70\n"
	require.NoError(f, os.WriteFile(path, []byte(text), 0o600))
	f.Fuzz(func(t *testing.T, talk string) {
		s := newServer(testOptions())
		methods := s.methods()
		open := openParams{}
		open.TextDocument.URI, open.TextDocument.Text = uriOf(path), text
		_, err := s.didOpen(open)
		require.NoError(t, err)
		for line := range strings.SplitSeq(talk, "\n") {
			method, params, _ := strings.Cut(line, "\t")
			if handle := methods[method]; handle != nil && json.Valid([]byte(params)) && !strings.Contains(params, "..") {
				sendOne(t, handle, method, strings.ReplaceAll(params, "$U", uriOf(path)))
			}
		}
		delete(s.docs, uriOf(path))
		s.books = nil
		_, err = s.didOpen(open)
		require.NoError(t, err)
		symbols, err := s.symbols(documentParams{documentID{uriOf(path)}})
		require.NoError(t, err)
		require.Len(t, symbols, 3, "the server no longer knows the ledger")
	})
}

// sendOne hands a request over and takes a crash for a failure, although an editor
// would see no more of it than an error.
func sendOne(t *testing.T, handle jrpc2.Handler, method, params string) {
	requests, err := jrpc2.ParseRequests([]byte(`{"jsonrpc":"2.0","id":1,"method":"` + method + `","params":` + params + `}`))
	if err != nil || len(requests) != 1 || requests[0].Error != nil {
		return
	}
	answer, err := handle(t.Context(), requests[0].ToRequest())
	if err != nil {
		require.NotContains(t, err.Error(), "internal error", params)
		return
	}
	_, err = json.Marshal(answer)
	require.NoError(t, err)
}

// TestACrashIsOneRequests crashes a request and asks on.
func TestACrashIsOneRequests(t *testing.T) {
	s := newServer(testOptions())
	crash := on(s, func(placeParams) (any, error) {
		var none *document
		return none.text, nil
	})
	requests, err := jrpc2.ParseRequests([]byte(`{"jsonrpc":"2.0","id":1,"method":"crash","params":{}}`))
	require.NoError(t, err)
	_, err = crash(t.Context(), requests[0].ToRequest())
	require.ErrorContains(t, err, "crash: internal error")
	_, err = s.methods()["textDocument/hover"](t.Context(), requests[0].ToRequest())
	require.NoError(t, err, "the lock is free again")
}
