package lsp

import (
	"bytes"
	"encoding/json"
	"io"
	"sync"

	"github.com/creachadair/jrpc2/channel"
)

// inTurn hands a request on only when the one before it has its answer: what comes after,
// a change of the text or the exit, then meets the text as it was asked about, and no
// answer is lost to an exit right behind it. The stream is read all the while: an editor
// never waits for room to write.
type inTurn struct {
	channel.Channel
	mu     sync.Mutex
	moved  *sync.Cond // of mu: a message came, an answer went, or the end
	come   [][]byte   // and are not handed on
	end    error      // of the stream, after what has come
	awaits []byte     // the number of the request that has no answer, nil for none
	closed bool
}

func newInTurn(ch channel.Channel) *inTurn {
	c := &inTurn{Channel: ch}
	c.moved = sync.NewCond(&c.mu)
	go c.read()
	return c
}

// read takes what comes until the stream ends.
func (c *inTurn) read() {
	for {
		message, err := c.Channel.Recv()
		c.mu.Lock()
		if err == nil {
			c.come = append(c.come, bytes.Clone(message))
		}
		c.end = err
		c.moved.Broadcast()
		c.mu.Unlock()
		if err != nil {
			return
		}
	}
}

// envelope is what tells a request from an answer, and which of them belong together.
type envelope struct {
	ID     json.RawMessage `json:"id"`
	Method string          `json:"method"`
}

// read is false for what is neither request nor answer: a notification, several at once, no
// JSON.
func (e *envelope) read(message []byte) bool {
	return json.Unmarshal(message, e) == nil && len(e.ID) > 0 && !bytes.Equal(e.ID, []byte("null"))
}

// Recv waits for the answer to the message before.
func (c *inTurn) Recv() ([]byte, error) {
	c.mu.Lock()
	defer c.mu.Unlock()
	for !c.closed && (c.awaits != nil || len(c.come) == 0 && c.end == nil) {
		c.moved.Wait()
	}
	switch {
	case c.closed:
		return nil, io.EOF
	case len(c.come) == 0:
		return nil, c.end
	}
	message := c.come[0]
	c.come = c.come[1:]
	var e envelope
	if e.read(message) && e.Method != "" {
		c.awaits = e.ID
	}
	return message, nil
}

// Send lets the next message come when this is the answer to the last.
func (c *inTurn) Send(message []byte) error {
	err := c.Channel.Send(message)
	c.mu.Lock()
	defer c.mu.Unlock()
	var e envelope
	if c.awaits != nil && e.read(message) && e.Method == "" && bytes.Equal(e.ID, c.awaits) {
		c.awaits = nil
		c.moved.Broadcast()
	}
	return err
}

// Close ends a Recv that waits with [io.EOF].
func (c *inTurn) Close() error {
	c.mu.Lock()
	c.closed = true
	c.moved.Broadcast()
	c.mu.Unlock()
	return c.Channel.Close()
}
