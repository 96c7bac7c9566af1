package xlsx

import "github.com/xuri/excelize/v2"

// Look is what a cell looks like. Looks are compared, so that each becomes one
// style of the file.
type Look struct {
	Format   string // number format, "" for none
	Align    string // "", left, center or right
	Bold     bool
	Italic   bool
	Size     float64 // 0: the usual size
	Grey     bool    // grey letters
	computed bool    // a formula's cell, tinted
	Head     bool    // a column's heading
	Line     bool    // a hairline beneath, as in the body of a table
	Wrap     bool
	Indent   int // of a text that follows numbers
}

// usualSize is the size of letters, in points.
const usualSize = 11

// Shades: all of them greys or of even brightness, so that a page printed
// without colour reads the same.
const (
	Ink       = "1F1F1F"
	FaintInk  = "6B6B6B"
	hairline  = "D0D0D0"
	headFill  = "DCE3EA"
	tint      = "F5F6F7"
	LowFill   = "F0B98A"
	HighFill  = "CFE3F2"
	ZeroFill  = "5A5A5A"
	BlankFill = "E4E4E4"
	OpenFill  = "F7E3A1"
)

// The looks of tables' bodies.
var (
	LookText    = Look{Align: "left", Line: true}
	LookWrap    = Look{Align: "left", Line: true, Wrap: true}
	LookDate    = Look{Format: "yyyy-mm-dd", Align: "center", Line: true}
	LookInteger = Look{Format: "0", Align: "right", Line: true}
	LookPlace   = Look{Format: "0", Align: "center", Line: true}
	LookCentred = Look{Align: "center", Line: true}
	LookMark    = Look{Format: "0.0", Align: "center", Line: true}
	LookTwo     = Look{Format: "0.00", Align: "right", Line: true}
	LookGap     = Look{Format: "+0.00;-0.00;0.00", Align: "right", Line: true}
	LookNote    = Look{Italic: true, Grey: true, Align: "left"}
)

// Live is the same look for a formula's cell.
func (l Look) Live() Look {
	l.computed = true
	return l
}

// Stat is the look of a value that boxbook worked out and no mark changes.
func (l Look) Stat() Look {
	l.Italic = true
	return l
}

// Working is the same look for a folded column.
func (l Look) Working() Look {
	l.computed, l.Grey = true, true
	return l
}

// Indented is the same look a little to the right, for texts after numbers.
func (l Look) Indented() Look {
	l.Indent = 1
	return l
}

// Strong is the same look in bold.
func (l Look) Strong() Look {
	l.Bold = true
	return l
}

// LookOf is a column's look in its heading or in its body.
func LookOf(head bool, l Look) Look {
	if head {
		return l.Heading()
	}
	return l
}

// Heading is the look of the column's heading.
func (l Look) Heading() Look {
	return Look{Head: true, Bold: true, Wrap: true, Align: l.Align, Indent: l.Indent, Grey: l.Grey}
}

func (l Look) style() *excelize.Style {
	s := &excelize.Style{
		Font:      &excelize.Font{Bold: l.Bold, Italic: l.Italic, Size: l.Size, Color: Ink, Family: "Calibri"},
		Alignment: &excelize.Alignment{Horizontal: l.Align, Vertical: "top", WrapText: l.Wrap, Indent: l.Indent},
	}
	if l.Size == 0 {
		s.Font.Size = usualSize
	}
	if l.Grey {
		s.Font.Color = FaintInk
	}
	if l.Format != "" {
		s.CustomNumFmt = &l.Format
	}
	switch {
	case l.Head:
		s.Alignment.Vertical = "bottom"
		s.Fill = solid(headFill)
		s.Border = []excelize.Border{{Type: "bottom", Color: Ink, Style: 1}}
	case l.Line:
		s.Border = []excelize.Border{{Type: "bottom", Color: hairline, Style: 1}}
	}
	if l.computed && !l.Head {
		s.Fill = solid(tint)
	}
	return s
}

func solid(colour string) excelize.Fill {
	return excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{colour}}
}
