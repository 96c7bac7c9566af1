package report

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// Only suggestions are rewritten, each command of them by itself.
func TestRewriteCommands(t *testing.T) {
	d := Document{Sections: []Section{{Blocks: []Block{
		&Paragraph{Text: "See boxbook season ines.", Command: false},
		&Paragraph{Text: "What it rests on: boxbook faults ines; boxbook drills ines --all", Command: true},
	}}}}
	d.RewriteCommands(func(command string) string { return "<" + command + ">" })
	blocks := d.Sections[0].Blocks
	assert.Equal(t, "See boxbook season ines.", blocks[0].(*Paragraph).Text)
	assert.Equal(t, "What it rests on: <boxbook faults ines>; <boxbook drills ines --all>", blocks[1].(*Paragraph).Text)
	d.RewriteCommands(strings.ToLower)
	assert.Equal(t, "What it rests on: <boxbook faults ines>; <boxbook drills ines --all>", blocks[1].(*Paragraph).Text)
}
