package lsp

import (
	"boxbook/season/ledger"

	"github.com/creachadair/jrpc2"
)

// names are the names at a place, the whole word's first.
func (s *server) names(p placeParams) (view, []ledger.Name) {
	v, ok := s.view(p.TextDocument)
	if !ok {
		return v, nil
	}
	rd := v.book.rd
	return v, rd.NamesAt(v.name, p.Position.Line, byteAt(rd, v.name, p.Position))
}

// definition is where the name at a place is defined; of a row's number, the
// figure in its sequence.
func (s *server) definition(p placeParams) (any, error) {
	found := []location{}
	v, names := s.names(p)
	for _, name := range names {
		for _, use := range v.book.rd.Uses(name) {
			if use.Defines {
				found = append(found, s.location(v, use.Span))
			}
		}
		if len(found) > 0 {
			return found, nil
		}
	}
	if v.book != nil {
		if span, ok := v.figureAt(p.Position); ok {
			found = append(found, s.location(v, span))
		}
	}
	return found, nil
}

// figureAt is the row of its sequence that a figure's number at a place means.
func (v view) figureAt(at position) (ledger.Span, bool) {
	rd := v.book.rd
	line, ok := rd.Line(v.name, at.Line)
	if !ok || line.Block == "sequence" {
		return ledger.Span{}, false
	}
	column, number := byteAt(rd, v.name, at), ""
	for i, w := range line.Words {
		if w.Start <= column && column <= w.End && (i == 0 && line.IsRow() || w.Slot == ledger.SlotFigure) {
			number = w.Text
		}
	}
	s := v.book.blockAt(v.name, line.Head, line.Block).sequence
	if s == nil || number == "" {
		return ledger.Span{}, false
	}
	for _, row := range rd.Body(s.At.File, s.At.Line-1) {
		if row.Key == number {
			return row.Words[0].Span, true
		}
	}
	return ledger.Span{}, false
}

func (s *server) location(v view, span ledger.Span) location {
	return location{s.uri(v.book, span.File), spanRange(v.book.rd, span)}
}

func (s *server) references(p referenceParams) (any, error) {
	found := []location{}
	v, names := s.names(p.placeParams)
	if len(names) == 0 {
		return found, nil
	}
	for _, use := range v.book.rd.Uses(names[0]) {
		if !use.Defines || p.Context.IncludeDeclaration {
			found = append(found, s.location(v, use.Span))
		}
	}
	return found, nil
}

// renamable is the name at a place that can be changed.
func (s *server) renamable(p placeParams) (v view, name ledger.Name, span ledger.Span, err error) {
	v, ok := s.view(p.TextDocument)
	if !ok {
		return v, name, span, jrpc2.Errorf(requestFailed, "no ledger has this text")
	}
	rd := v.book.rd
	name, span, err = rd.Renamable(v.name, p.Position.Line, byteAt(rd, v.name, p.Position))
	if err != nil {
		err = jrpc2.Errorf(requestFailed, "%s", err.Error())
	}
	return v, name, span, err
}

func (s *server) prepareRename(p placeParams) (any, error) {
	v, name, span, err := s.renamable(p)
	if err != nil {
		return nil, err
	}
	return prepared{spanRange(v.book.rd, span), name.Name}, nil
}

func (s *server) rename(p renameParams) (any, error) {
	v, name, _, err := s.renamable(p.placeParams)
	if err != nil {
		return nil, err
	}
	spans, err := v.book.rd.Rename(name, p.NewName)
	if err != nil {
		return nil, jrpc2.Errorf(requestFailed, "%s", err.Error())
	}
	edit := workspaceEdit{map[string][]textEdit{}}
	for _, span := range spans {
		uri := s.uri(v.book, span.File)
		edit.Changes[uri] = append(edit.Changes[uri], textEdit{spanRange(v.book.rd, span), p.NewName})
	}
	return edit, nil
}
