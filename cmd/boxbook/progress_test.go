package main

import (
	"bytes"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// TestProgress tells a terminal of long work alone, and leaves no trace.
func TestProgress(t *testing.T) {
	clock := time.Date(2026, 11, 25, 12, 0, 0, 0, time.UTC)
	var out bytes.Buffer
	a := &app{streams: &streams{err: &out, errTerminal: true, now: func() time.Time { return clock }}}
	p := a.newProgress("writing book.xlsx")
	p.step(1, 10)
	require.Empty(t, out.String(), "quick work is not told of")
	clock = clock.Add(time.Second)
	p.step(5, 10)
	p.step(6, 10)
	require.Equal(t, "\rwriting book.xlsx   50 %", out.String(), "and not for every step")
	p.end()
	require.Equal(t, "\rwriting book.xlsx   50 %\r                        \r", out.String())

	out.Reset()
	a.errTerminal = false
	p = a.newProgress("writing book.xlsx")
	clock = clock.Add(time.Minute)
	p.step(5, 10)
	p.end()
	require.Empty(t, out.String(), "nothing in a pipe")
}
