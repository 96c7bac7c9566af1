package report

import (
	"strings"

	"boxbook/report/display"
)

// Tone says how a cell should strike the reader. Only the text writer shows it,
// and only where colour is on: the words must carry the meaning by themselves.
type Tone int

// The tones.
const (
	Plain Tone = iota
	Good
	Bad
	Faint
	Strong
)

// Cell is a value to be shown: a text, a number with its decimals, or nothing.
type Cell struct {
	// Tone is how the cell should strike the reader.
	Tone Tone
	// Mark is a short suffix (such as "*") directly after the value, which a
	// Note explains. It does not move the value in a right-aligned column.
	Mark string

	link     string
	text     string
	number   Number
	decimals int
	numeric  bool
	signed   bool
	grouped  bool
	summed   bool
	inFull   bool
	chance   bool
}

// Text returns a cell that shows a text.
func Text(text string) Cell { return Cell{text: text} }

// Num returns a cell that shows a number with that many decimals.
func Num(number Number, decimals int) Cell {
	return Cell{number: number, decimals: decimals, numeric: true}
}

// Signed is like Num, with a + in front of what is positive when rounded.
func Signed(number Number, decimals int) Cell {
	cell := Num(number, decimals)
	cell.signed = true
	return cell
}

// Chance returns a cell that shows how likely something is by chance, as Number.Chance
// says it.
func Chance(number Number) Cell {
	cell := Num(number, ChanceDecimals)
	cell.chance = true
	return cell
}

// Empty returns a cell that shows nothing.
func Empty() Cell { return Cell{} }

// Toned returns the cell with that tone.
func (c Cell) Toned(tone Tone) Cell {
	c.Tone = tone
	return c
}

// Marked returns the cell with that mark.
func (c Cell) Marked(mark string) Cell {
	c.Mark = mark
	return c
}

// Summed returns the cell as one that adds up rows which are not shown, and is
// not compared with those that are: it gets no bar.
func (c Cell) Summed() Cell {
	c.summed = true
	return c
}

// Grouped returns the cell with its number's thousands set off for people.
func (c Cell) Grouped() Cell {
	c.grouped = true
	return c
}

// InFull returns the cell with all the decimals of its number written for other
// programs too: an amount of money has those of its currency, 110.00.
func (c Cell) InFull() Cell {
	c.inFull = true
	return c
}

// Linked returns the cell as one that leads to an address or a file, where a
// writer can lead there.
func (c Cell) Linked(to string) Cell {
	c.link = to
	return c
}

// Number returns the cell's unrounded number; ok is false for a cell made by
// Text or Empty.
func (c Cell) Number() (number Number, ok bool) { return c.number, c.numeric }

// Places returns the decimals that a number is shown with, and whether what is
// positive has a + in front.
func (c Cell) Places() (decimals int, signed bool) { return max(c.decimals, 0), c.signed }

// IsChance reports whether Chance made the cell.
func (c Cell) IsChance() bool { return c.chance }

// String returns what the cell shows, without its mark.
func (c Cell) String() string {
	if !c.numeric {
		return c.text
	}
	if c.chance {
		return c.number.Chance()
	}
	text := c.number.Text(c.decimals)
	if c.grouped {
		text = display.Grouped(text)
	}
	// Any digit but 0 means that something is left after rounding.
	if c.signed && strings.ContainsAny(text, "123456789") && !strings.HasPrefix(text, "-") {
		return "+" + text
	}
	return text
}
