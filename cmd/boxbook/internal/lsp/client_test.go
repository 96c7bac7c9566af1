package lsp

import (
	"encoding/json"
	"fmt"
	"io"
	"testing"

	"boxbook/data"
	"boxbook/season"

	"github.com/creachadair/jrpc2/channel"
	"github.com/stretchr/testify/require"
)

// client is an editor that speaks with a server over the same framing as a
// process does.
type client struct {
	t    testing.TB
	ch   channel.Channel
	next int
	told map[string]publishParams // the latest diagnostics, by URI
	done chan error
}

// message is what a server sends.
type message struct {
	ID     *int            `json:"id"`
	Method string          `json:"method"`
	Params json.RawMessage `json:"params"`
	Result json.RawMessage `json:"result"`
	Error  *struct {
		Code    int    `json:"code"`
		Message string `json:"message"`
	} `json:"error"`
}

// testOptions are those of a server whose day is always the same.
func testOptions() Options {
	return Options{Builtin: data.Builtin(), Version: "0.0.0", Today: func() season.Date {
		today, _ := season.ParseDate("2026-11-20")
		return today
	}}
}

// connect starts a server and shakes hands with it.
func connect(t testing.TB, root string, opts Options) *client {
	t.Helper()
	inRead, inWrite := io.Pipe()
	outRead, outWrite := io.Pipe()
	c := &client{t: t, ch: channel.LSP(outRead, inWrite), told: map[string]publishParams{}, done: make(chan error, 1)}
	go func() {
		err := Serve(inRead, outWrite, opts)
		_ = outWrite.Close()
		c.done <- err
	}()
	_, err := c.call("initialize", map[string]any{"rootUri": uriOf(root), "capabilities": map[string]any{}})
	require.NoError(t, err)
	c.notify("initialized", map[string]any{})
	return c
}

// leave ends the session as an editor does.
func (c *client) leave() error {
	_, err := c.call("shutdown", nil)
	require.NoError(c.t, err)
	c.notify("exit", nil)
	go func() { _, _ = c.ch.Recv() }()
	return <-c.done
}

func (c *client) send(fields map[string]any) {
	fields["jsonrpc"] = "2.0"
	raw, err := json.Marshal(fields)
	require.NoError(c.t, err)
	require.NoError(c.t, c.ch.Send(raw))
}

func (c *client) notify(method string, params any) {
	fields := map[string]any{"method": method}
	if params != nil {
		fields["params"] = params
	}
	c.send(fields)
}

// call asks and waits for the answer; diagnostics that come before it are kept.
func (c *client) call(method string, params any) (json.RawMessage, error) {
	c.next++
	fields := map[string]any{"method": method, "id": c.next}
	if params != nil {
		fields["params"] = params
	}
	c.send(fields)
	for {
		raw, err := c.ch.Recv()
		require.NoError(c.t, err, method)
		var m message
		require.NoError(c.t, json.Unmarshal(raw, &m))
		switch {
		case m.Method == "textDocument/publishDiagnostics":
			var p publishParams
			require.NoError(c.t, json.Unmarshal(m.Params, &p))
			c.told[p.URI] = p
		case m.ID == nil || *m.ID != c.next:
			require.Fail(c.t, "an answer to nothing", string(raw))
		case m.Error != nil:
			return nil, fmt.Errorf("%d: %s", m.Error.Code, m.Error.Message)
		default:
			return m.Result, nil
		}
	}
}

// ask calls and reads the answer.
func ask[R any](c *client, method string, params any) R {
	c.t.Helper()
	raw, err := c.call(method, params)
	require.NoError(c.t, err, method)
	var result R
	require.NoError(c.t, json.Unmarshal(raw, &result), method)
	return result
}

// open gives a text to the server.
func (c *client) open(path, text string) {
	c.notify("textDocument/didOpen", map[string]any{"textDocument": map[string]any{"uri": uriOf(path), "languageId": "boxbook", "version": 1, "text": text}})
}

// change gives the server another text.
func (c *client) change(path, text string, version int) {
	c.notify("textDocument/didChange", map[string]any{
		"textDocument": map[string]any{"uri": uriOf(path), "version": version}, "contentChanges": []any{map[string]any{"text": text}},
	})
}

// at are the parameters of a place.
func at(path string, p position) map[string]any {
	return map[string]any{"textDocument": map[string]any{"uri": uriOf(path)}, "position": p}
}

// of are the parameters of a text.
func of(path string) map[string]any {
	return map[string]any{"textDocument": map[string]any{"uri": uriOf(path)}}
}
