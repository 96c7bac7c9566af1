package lsp

import (
	"encoding/json"
	"fmt"
	"io"
	"testing"

	"github.com/creachadair/jrpc2/channel"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// An editor that says shutdown and exit in one breath left as it should, and has the answer
// to its last request.
func TestAnEditorThatDoesNotWaitLeavesInOrder(t *testing.T) {
	for range 200 {
		inRead, inWrite := io.Pipe()
		outRead, outWrite := io.Pipe()
		ch := channel.LSP(outRead, inWrite)
		done := make(chan error, 1)
		go func() {
			err := Serve(inRead, outWrite, testOptions())
			_ = outWrite.Close()
			done <- err
		}()
		go func() {
			for i, method := range []string{"initialize", "initialized", "shutdown", "exit"} {
				id := ""
				if i%2 == 0 {
					id = fmt.Sprintf(`"id":%d,`, i)
				}
				_ = ch.Send([]byte(`{"jsonrpc":"2.0",` + id + `"method":"` + method + `"}`))
			}
		}()
		var answers []int
		for {
			raw, err := ch.Recv()
			if err != nil {
				break
			}
			var m message
			require.NoError(t, json.Unmarshal(raw, &m))
			if m.ID != nil {
				answers = append(answers, *m.ID)
			}
		}
		require.NoError(t, <-done)
		assert.Equal(t, []int{0, 2}, answers)
	}
}

// A request is answered from the text as it was when it was asked, not from the change
// that is right behind it.
func TestARequestIsAnsweredBeforeTheChangeBehindIt(t *testing.T) {
	path := t.TempDir() + "/a.boxbook"
	c := connect(t, path, testOptions())
	for range 100 {
		c.open(path, "pilot  p\n")
		c.next++
		c.send(map[string]any{"id": c.next, "method": "textDocument/formatting", "params": map[string]any{"textDocument": map[string]any{"uri": uriOf(path)}, "options": map[string]any{}}})
		c.change(path, "pilot q\n", 2)
		for {
			raw, err := c.ch.Recv()
			require.NoError(t, err)
			var m message
			require.NoError(t, json.Unmarshal(raw, &m))
			if m.ID == nil {
				continue
			}
			assert.Contains(t, string(m.Result), "newText", "the blank too many")
			break
		}
	}
}
