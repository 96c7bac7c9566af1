package workbook

import "github.com/xuri/excelize/v2"

// look is what a cell looks like. Looks are compared, so that each becomes one
// style of the file.
type look struct {
	format   string // number format, "" for none
	align    string // "", left, center or right
	bold     bool
	italic   bool
	size     float64 // 0: the usual size
	grey     bool    // grey letters
	computed bool    // a formula's cell, tinted
	head     bool    // a column's heading
	line     bool    // a hairline beneath, as in the body of a table
	wrap     bool
	indent   int // of a text that follows numbers
}

// usualSize is the size of letters, in points.
const usualSize = 11

// Shades: all of them greys or of even brightness, so that a page printed
// without colour reads the same.
const (
	ink       = "1F1F1F"
	faintInk  = "6B6B6B"
	hairline  = "D0D0D0"
	headFill  = "DCE3EA"
	tint      = "F5F6F7"
	lowGrade  = "E2914B"
	highGrade = "FFFFFF"
	zeroFill  = "5A5A5A"
	blankFill = "E4E4E4"
	openFill  = "F7E3A1"
)

// The looks of tables' bodies.
var (
	lookText    = look{align: "left", line: true}
	lookWrap    = look{align: "left", line: true, wrap: true}
	lookDate    = look{format: "yyyy-mm-dd", align: "center", line: true}
	lookInteger = look{format: "0", align: "right", line: true}
	lookPlace   = look{format: "0", align: "center", line: true}
	lookCentred = look{align: "center", line: true}
	lookMark    = look{format: "0.0", align: "center", line: true}
	lookTwo     = look{format: "0.00", align: "right", line: true}
	lookGap     = look{format: "+0.00;-0.00;0.00", align: "right", line: true}
	lookNote    = look{italic: true, grey: true, align: "left"}
)

// live is the same look for a formula's cell.
func (l look) live() look {
	l.computed = true
	return l
}

// stat is the look of a value that boxbook worked out and no mark changes.
func (l look) stat() look {
	l.italic = true
	return l
}

// working is the same look for a folded column.
func (l look) working() look {
	l.computed, l.grey = true, true
	return l
}

// indented is the same look a little to the right, for texts after numbers.
func (l look) indented() look {
	l.indent = 1
	return l
}

// strong is the same look in bold.
func (l look) strong() look {
	l.bold = true
	return l
}

// lookOf is a column's look in its heading or in its body.
func lookOf(head bool, l look) look {
	if head {
		return l.heading()
	}
	return l
}

// heading is the look of the column's heading.
func (l look) heading() look {
	return look{head: true, bold: true, wrap: true, align: l.align, indent: l.indent, grey: l.grey}
}

func (l look) style() *excelize.Style {
	s := &excelize.Style{
		Font:      &excelize.Font{Bold: l.bold, Italic: l.italic, Size: l.size, Color: ink, Family: "Calibri"},
		Alignment: &excelize.Alignment{Horizontal: l.align, Vertical: "top", WrapText: l.wrap, Indent: l.indent},
	}
	if l.size == 0 {
		s.Font.Size = usualSize
	}
	if l.grey {
		s.Font.Color = faintInk
	}
	if l.format != "" {
		s.CustomNumFmt = &l.format
	}
	switch {
	case l.head:
		s.Alignment.Vertical = "bottom"
		s.Fill = solid(headFill)
		s.Border = []excelize.Border{{Type: "bottom", Color: ink, Style: 1}}
	case l.line:
		s.Border = []excelize.Border{{Type: "bottom", Color: hairline, Style: 1}}
	}
	if l.computed && !l.head {
		s.Fill = solid(tint)
	}
	return s
}

func solid(colour string) excelize.Fill {
	return excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{colour}}
}
