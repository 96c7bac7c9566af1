package workbook

import (
	"archive/zip"
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"regexp"
	"slices"
	"strconv"
	"time"
)

// packer is the zip archive that a workbook is, with its parts in one order,
// dated alike, and with the formulas' values put in: the library by itself
// gives no two equal files, and marks a formula's number as a text.
type packer struct {
	out    io.Writer
	values map[string]map[cellAt]value // by part and cell
	charts []chartValues
	names  []string
	parts  map[string]*bytes.Buffer
}

// packed is the date of every part: the first that a zip archive can state.
var packed = time.Date(1980, time.January, 1, 0, 0, 0, 0, time.UTC)

func newPacker(out io.Writer, values map[string]map[cellAt]value, charts []chartValues) *packer {
	return &packer{out: out, values: values, charts: charts, parts: map[string]*bytes.Buffer{}}
}

// Create begins a part.
func (p *packer) Create(name string) (io.Writer, error) {
	p.names = append(p.names, name)
	p.parts[name] = new(bytes.Buffer)
	return p.parts[name], nil
}

// AddFS is not used by the library when it saves.
func (p *packer) AddFS(fs.FS) error { return errors.New("a workbook holds no folders") }

// Close writes all parts. The list of content types comes first, as other
// programs have it.
func (p *packer) Close() error {
	slices.Sort(p.names)
	archive := zip.NewWriter(p.out)
	for _, name := range p.names {
		data, err := p.finish(name, p.parts[name].Bytes())
		if err != nil {
			return err
		}
		part, err := archive.CreateHeader(&zip.FileHeader{Name: name, Method: zip.Deflate, Modified: packed})
		if err != nil {
			return err
		}
		if _, err := part.Write(data); err != nil {
			return err
		}
	}
	return archive.Close()
}

// finish puts into a part what the library leaves out.
func (p *packer) finish(name string, data []byte) ([]byte, error) {
	if values := p.values[name]; values != nil {
		// The library says that rows are filtered out, and none are.
		if bytes.Contains(data, []byte(` filterMode="true"`)) {
			data = bytes.Replace(data, []byte(` filterMode="true"`), nil, 1)
		}
		if !bytes.Contains(data, []byte("<x14:")) {
			return putValues(name, data, values)
		}
		data = bytes.Replace(data, []byte(`<x14:sparklineGroup type="line"`), []byte(`<x14:sparklineGroup lineWeight="1.25" type="line"`), 1)
		data = markerColour.ReplaceAll(data, []byte(`<x14:colorMarkers rgb="FF`+ink+`">`))
		return putValues(name, data, values)
	}
	for i, chart := range p.charts {
		if name == fmt.Sprintf("xl/charts/chart%d.xml", i+1) {
			return chart.mend(name, data)
		}
	}
	return data, nil
}

// markerColour is that of the marks on lines in cells, which the library does
// not let one choose; nor does it write how thick the lines are.
var markerColour = regexp.MustCompile(`<x14:colorMarkers [^>]*>`)

// formulaCell is a cell with a formula, as the library writes it: start and
// end are its place, attributes come after its name and without the type.
type formulaCell struct {
	start, end                int
	name, attributes, formula []byte
}

// The library marks every formula as one that gives a text.
var (
	cellStart, cellEnd       = []byte(`<c r="`), []byte("</c>")
	formulaStart, formulaEnd = []byte("><f"), []byte("</f>")
	textType                 = []byte(` t="str"`)
)

// nextFormula finds the next cell with a formula.
func nextFormula(data []byte, from int) (formulaCell, bool) {
	for {
		i := bytes.Index(data[from:], formulaStart)
		if i < 0 {
			return formulaCell{}, false
		}
		at := from + i
		from = at + len(formulaStart)
		start, end := bytes.LastIndex(data[:at], cellStart), bytes.Index(data[at:], cellEnd)
		if start < 0 || end < 0 {
			continue
		}
		head, _, _ := bytes.Cut(data[start+len(cellStart):at+1], []byte(">"))
		name, attributes, _ := bytes.Cut(head, []byte(`"`))
		before, after, marked := bytes.Cut(attributes, textType)
		formula, _, closed := bytes.Cut(data[at+1:at+end], formulaEnd)
		if marked && closed {
			return formulaCell{start, at + end + len(cellEnd), name, slices.Concat(before, after), formula}, true
		}
	}
}

// cellOf reads a cell's name.
func cellOf(name []byte) cellAt {
	at := cellAt{}
	for _, c := range name {
		if c >= 'A' {
			at.column = 26*at.column + int32(c-'A') + 1
		} else {
			at.row = 10*at.row + int32(c-'0')
		}
	}
	return at
}

// putValues gives every formula of a sheet its value: a number without the
// mark of a text, a text with it.
func putValues(name string, data []byte, values map[cellAt]value) ([]byte, error) {
	var out bytes.Buffer
	out.Grow(len(data) + 16*len(values))
	done, count := 0, 0
	for {
		c, found := nextFormula(data, done)
		if !found {
			break
		}
		v, known := values[cellOf(c.name)]
		if !known {
			return nil, fmt.Errorf("%s: formula without a value in %s", name, c.name)
		}
		kind, shown := textType, []byte(v.text)
		if v.numeric {
			kind, shown = nil, strconv.AppendFloat(nil, v.number, 'g', -1, 64)
		}
		out.Write(data[done:c.start])
		for _, part := range [][]byte{cellStart, c.name, []byte(`"`), c.attributes, kind, []byte(">"), c.formula, []byte("</f><v>")} {
			out.Write(part)
		}
		if err := xml.EscapeText(&out, shown); err != nil {
			return nil, err
		}
		out.WriteString("</v></c>")
		done, count = c.end, count+1
	}
	if count != len(values) {
		return nil, fmt.Errorf("%s: %d values without a formula", name, len(values)-count)
	}
	out.Write(data[done:])
	return out.Bytes(), nil
}
