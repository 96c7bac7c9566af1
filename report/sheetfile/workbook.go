package sheetfile

import (
	"archive/zip"
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"path"
	"strings"

	"boxbook/season/sheetimport"
)

// readWorkbook reads sheets of a workbook, as choice picks them (ECMA-376,
// Office Open XML, parts 1 and 2, has the parts, their relationships and their
// elements).
func readWorkbook(name string, data []byte, choice func(*workbook) ([]worksheet, error)) ([]sheetimport.Grid, error) {
	w := &workbook{name: name, parts: map[string]*zip.File{}, left: maxTokens, bytes: maxRead}
	if err := w.open(data); err != nil {
		return nil, err
	}
	main, err := w.mainPart()
	if err != nil {
		return nil, err
	}
	if err := w.readMain(main); err != nil {
		return nil, err
	}
	chosen, err := choice(w)
	if err != nil {
		return nil, err
	}
	if w.texts, err = w.sharedTexts(w.related["sharedStrings"]); err != nil {
		return nil, err
	}
	if w.dates, err = w.dateStyles(w.related["styles"]); err != nil {
		return nil, err
	}
	var grids []sheetimport.Grid
	for _, one := range chosen {
		grid, err := w.readSheet(one)
		if err != nil {
			return nil, err
		}
		grids = append(grids, grid)
	}
	if w.beside {
		for _, s := range w.sheets {
			if s.hidden && s.name != chosen[0].name {
				grids[0].Beside = append(grids[0].Beside, s.name)
			}
		}
	}
	return grids, nil
}

// workbook is a workbook being read.
type workbook struct {
	name     string
	parts    map[string]*zip.File
	seen     int // rows and cells of the sheets that are read
	left     int // how many tokens and attributes may still be looked at, of all parts
	bytes    int // and how many bytes
	sheets   []worksheet
	related  map[string]string // parts that the main part names, by kind
	beside   bool              // the only sheet that shows was taken unasked
	date1904 bool              // days are counted from 1904
	texts    []string          // that cells share
	dates    []bool            // by style: it shows a date
}

// worksheet is one sheet of a workbook.
type worksheet struct {
	name   string
	part   string
	hidden bool
}

func (w *workbook) refuse(format string, args ...any) error {
	return &RefusedError{Name: w.name, Reason: fmt.Sprintf(format, args...)}
}

// open lists the parts. Their sizes are what the file says; a part that turns
// out larger is refused by the unpacker.
func (w *workbook) open(data []byte) error {
	z, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		return w.refuse("is a damaged workbook: it cannot be unpacked")
	}
	if len(z.File) > maxParts {
		return w.refuse("has more than %d parts, far more than a score sheet", maxParts)
	}
	total := uint64(0)
	for _, f := range z.File {
		size := f.UncompressedSize64
		total += min(size, maxUnpacked+1)
		switch {
		case size > maxPart:
			return w.refuse("has a part that unpacks to more than %s", megabytes(maxPart))
		case total > maxUnpacked:
			return w.refuse("unpacks to more than %s", megabytes(maxUnpacked))
		}
		key := partKey(f.Name)
		if w.parts[key] != nil {
			return w.refuse("is a damaged workbook: it has a part twice")
		}
		w.parts[key] = f
	}
	return nil
}

// partKey is how part names are compared: without regard to case (ECMA-376
// part 2), and without the slash that some programs begin them with.
func partKey(name string) string { return strings.ToLower(strings.TrimPrefix(name, "/")) }

// mainPart finds the part that lists the sheets.
func (w *workbook) mainPart() (string, error) {
	links, err := w.links("")
	if err != nil {
		return "", err
	}
	for _, l := range links {
		if l.kind == "officeDocument" && w.parts[partKey(l.target)] != nil {
			return l.target, nil
		}
	}
	return "", &RefusedError{w.name, "is no xlsx workbook, though it is packed like one", "save it as .xlsx, or as CSV"}
}

// link is a relationship of a part to another one inside the file.
type link struct{ id, kind, target string }

// links reads the relationships of a part, those of the whole file for "".
// What lies outside the file is left out.
func (w *workbook) links(part string) ([]link, error) {
	dir, file := path.Split(part)
	var found []link
	err := w.read(dir+"_rels/"+file+".rels", func(x *elements, el xml.StartElement) error {
		if el.Name.Local != "Relationship" || strings.EqualFold(attribute(el, "TargetMode"), "External") {
			return nil
		}
		target := attribute(el, "Target")
		if strings.HasPrefix(target, "/") {
			target = target[1:]
		} else {
			target = path.Join(dir, target)
		}
		kind := attribute(el, "Type")
		found = append(found, link{attribute(el, "Id"), kind[strings.LastIndexByte(kind, '/')+1:], target})
		return nil
	})
	return found, err
}

// readMain reads the list of sheets.
func (w *workbook) readMain(main string) error {
	links, err := w.links(main)
	if err != nil {
		return err
	}
	w.related = map[string]string{}
	byID := map[string]link{}
	for _, l := range links {
		byID[l.id] = l
		w.related[l.kind] = l.target
	}
	return w.read(main, func(x *elements, el xml.StartElement) error {
		switch el.Name.Local {
		case "workbookPr":
			w.date1904 = truth(attribute(el, "date1904"))
		case "sheet":
			l := byID[relationID(el)]
			if l.kind != "worksheet" {
				return nil // a sheet of charts, say
			}
			if len(w.sheets) == maxSheets {
				return w.refuse("has more than %d sheets", maxSheets)
			}
			state := attribute(el, "state")
			w.sheets = append(w.sheets, worksheet{attribute(el, "name"), l.target, state != "" && state != "visible"})
		}
		return nil
	})
}

// relationID is the id by which an element names another part; it stands apart
// from other ids by its name space.
func relationID(el xml.StartElement) string {
	for _, a := range el.Attr {
		if a.Name.Local == "id" && a.Name.Space != "" {
			return a.Value
		}
	}
	return ""
}

// choose finds the sheet that was asked for, else the only one that shows.
func (w *workbook) choose(asked string) (worksheet, error) {
	var names []string
	var shown []worksheet
	for _, s := range w.sheets {
		if s.name == asked && asked != "" {
			return s, nil
		}
		if !s.hidden {
			shown, names = append(shown, s), append(names, s.name)
		}
	}
	switch {
	case len(w.sheets) == 0:
		return worksheet{}, w.refuse("has no sheet of cells")
	case asked == "" && len(shown) == 1:
		return shown[0], nil
	case len(shown) == 0:
		return worksheet{}, w.refuse("has hidden sheets alone")
	default:
		return worksheet{}, &ChoiceError{w.name, asked, names}
	}
}

// all are the sheets of a workbook, hidden ones too: every one of them may be a
// judge's. Of more than a panel could have the one must be named.
func (w *workbook) all() ([]worksheet, error) {
	shown, err := w.choose("")
	var several *ChoiceError
	switch {
	case errors.As(err, &several) && len(w.sheets) <= maxBook:
		return w.sheets, nil
	case err != nil:
		return nil, err
	}
	w.beside = true
	return []worksheet{shown}, nil
}

// elements walks through the tags of one part.
type elements struct {
	d *xml.Decoder
	w *workbook
}

// errTooMuch says that a workbook holds more than is looked at.
var errTooMuch = errors.New("too much in it")

// next gives the next token, io.EOF at the end. An attribute counts as a token.
func (x *elements) next() (xml.Token, error) {
	token, err := x.d.Token()
	x.w.left--
	if el, ok := token.(xml.StartElement); ok {
		x.w.left -= len(el.Attr)
	}
	if err == nil && x.w.left < 0 {
		return nil, errTooMuch
	}
	return token, err
}

// read walks through a part and gives every element to a function, which may
// read on. A part that is not there has no elements.
func (w *workbook) read(part string, each func(*elements, xml.StartElement) error) error {
	f := w.parts[partKey(part)]
	if f == nil {
		return nil
	}
	in, err := f.Open()
	if err != nil {
		return w.damaged(err)
	}
	defer in.Close()
	x := &elements{xml.NewDecoder(&shortTags{in: in, left: &w.bytes}), w}
	for {
		token, err := x.next()
		if errors.Is(err, io.EOF) {
			return nil
		}
		if err != nil {
			return w.damaged(err)
		}
		if el, ok := token.(xml.StartElement); ok {
			if err := each(x, el); err != nil {
				return w.damaged(err)
			}
		}
	}
}

// damaged says why a part cannot be read to its end.
func (w *workbook) damaged(err error) error {
	var refused *RefusedError
	switch {
	case errors.As(err, &refused):
		return err
	case errors.Is(err, errTooMuch), errors.Is(err, errLongTag):
		return w.refuse("has far more in it than a score sheet")
	case errors.Is(err, zip.ErrAlgorithm):
		return w.refuse("is packed in a way that is not read")
	default:
		return w.refuse("is a damaged workbook: its parts cannot be read")
	}
}

// text gathers what t elements hold up to the end of an element whose start
// was read; phonetic readings are left out.
func (x *elements) text() (string, error) {
	var b strings.Builder
	var open []string
	for {
		token, err := x.next()
		if err != nil {
			return "", err
		}
		switch el := token.(type) {
		case xml.StartElement:
			if el.Name.Local == "rPh" {
				if err := x.skip(); err != nil {
					return "", err
				}
				continue
			}
			open = append(open, el.Name.Local)
		case xml.EndElement:
			if len(open) == 0 {
				return clip(b.String()), nil
			}
			open = open[:len(open)-1]
		case xml.CharData:
			if len(open) > 0 && open[len(open)-1] == "t" && b.Len() < 4*maxText+4 {
				b.Write(el)
			}
		}
	}
}

// plain gathers the characters up to the end of an element whose start was
// read.
func (x *elements) plain() (string, error) {
	var b strings.Builder
	for depth := 0; ; {
		token, err := x.next()
		if err != nil {
			return "", err
		}
		switch el := token.(type) {
		case xml.StartElement:
			depth++
		case xml.EndElement:
			if depth == 0 {
				return clip(b.String()), nil
			}
			depth--
		case xml.CharData:
			if b.Len() < 4*maxText+4 {
				b.Write(el)
			}
		}
	}
}

// skip goes to the end of an element whose start was read.
func (x *elements) skip() error {
	_, err := x.plain()
	return err
}

// attribute gives an attribute's value, "" where it is not there.
func attribute(el xml.StartElement, name string) string {
	for _, a := range el.Attr {
		if a.Name.Local == name {
			return a.Value
		}
	}
	return ""
}

func truth(text string) bool { return text == "1" || text == "true" }

// shortTags fails where a tag, or the text behind it, is longer than any of a
// score sheet: a tag of many attributes takes many times its size to hold. It
// fails too where there is more to read than may be.
type shortTags struct {
	in    io.Reader
	since int  // bytes since the last <
	left  *int // bytes that may still be read
}

var errLongTag = errors.New("a tag too long")

func (s *shortTags) Read(p []byte) (int, error) {
	n, err := s.in.Read(p)
	if *s.left -= n; *s.left < 0 {
		return 0, errTooMuch
	}
	for rest := p[:n]; ; {
		i := bytes.IndexByte(rest, '<')
		if i < 0 {
			if s.since += len(rest); s.since > maxTag {
				return 0, errLongTag
			}
			return n, err
		}
		if s.since+i > maxTag {
			return 0, errLongTag
		}
		s.since, rest = 0, rest[i+1:]
	}
}
