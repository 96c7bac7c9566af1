package lsp

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"time"

	"boxbook/season/ledger"
)

// mostSaid is how many diagnostics of a file are told.
const mostSaid = 1000

// tellSoon tells the diagnostics once the typing rests.
func (s *server) tellSoon() {
	if s.opts.Settle == 0 {
		s.tell()
		return
	}
	if s.timer != nil {
		s.timer.Stop()
	}
	s.timer = time.AfterFunc(s.opts.Settle, func() {
		s.mu.Lock()
		defer s.mu.Unlock()
		defer func() { _ = recover() }() // as a request's: the next one may do better
		s.tell()
	})
}

// tell sends the diagnostics of every file of every ledger with an open text, and
// takes back those of files that have none any more.
func (s *server) tell() {
	found := map[string]publishParams{}
	for _, doc := range s.openDocs() {
		if b := s.bookOf(doc); b != nil {
			s.collect(b, found)
		}
	}
	var uris []string
	for uri := range found {
		uris = append(uris, uri)
	}
	for uri := range s.said {
		if _, now := found[uri]; !now {
			found[uri] = publishParams{URI: uri, Diagnostics: []diagnostic{}}
			uris = append(uris, uri)
		}
	}
	slices.Sort(uris)
	s.said = map[string]bool{}
	for _, uri := range uris {
		if p := found[uri]; len(p.Diagnostics) > 0 || s.docs[uri] != nil {
			s.said[uri] = true
		}
		if s.rpc != nil {
			_ = s.rpc.Notify(context.Background(), "textDocument/publishDiagnostics", found[uri])
		}
	}
}

// collect gathers a ledger's diagnostics by file.
func (s *server) collect(b *book, found map[string]publishParams) {
	for _, source := range b.rd.Sources {
		uri := s.uri(b, source.Name)
		p := publishParams{URI: uri, Diagnostics: []diagnostic{}}
		if doc := s.docs[uri]; doc != nil {
			p.Version = doc.version
		}
		for _, d := range eachPlace(b.rd.Diagnostics) {
			if d.File == source.Name && len(p.Diagnostics) < mostSaid {
				p.Diagnostics = append(p.Diagnostics, said(b.rd, d))
			}
		}
		if len(p.Diagnostics) > 0 || s.docs[uri] != nil || s.said[uri] {
			found[uri] = p
		}
	}
}

// eachPlace are the diagnostics of a list, those too that are alike one of it.
func eachPlace(list ledger.List) ledger.List {
	var all ledger.List
	for _, d := range list {
		all = append(append(all, d), d.Alike()...)
	}
	return all
}

// said is a diagnostic as the protocol has it, with its hint on a line of its own.
func said(rd *ledger.Reading, d ledger.Diagnostic) diagnostic {
	severity := severityError
	if d.Severity == ledger.Warning {
		severity = severityWarning
	}
	message := d.Message
	if d.Hint != "" {
		message += "\n" + d.Hint
	}
	return diagnostic{columnsRange(rd, d.File, d.Line, d.Column, d.EndColumn()), severity, string(d.Code), "boxbook", message}
}

// codeActions are the edits of the diagnostics that a range touches.
func (s *server) codeActions(p rangeParams) (any, error) {
	actions := []codeAction{}
	v, ok := s.view(p.TextDocument)
	if !ok {
		return actions, nil
	}
	for _, d := range v.book.rd.Diagnostics {
		if d.File != v.name || len(d.Fixes) == 0 {
			continue
		}
		known := said(v.book.rd, d)
		for _, other := range d.Alike() {
			if mark := said(v.book.rd, other); other.File == v.name && meets(mark.Range, p.Range) {
				known = mark
			}
		}
		edits := make([]textEdit, len(d.Fixes))
		touched := meets(known.Range, p.Range)
		for i, fix := range d.Fixes {
			edits[i] = textEdit{columnsRange(v.book.rd, v.name, fix.Line, fix.Column, fix.EndColumn), fix.Text}
			touched = touched || meets(edits[i].Range, p.Range)
		}
		if touched {
			actions = append(actions, codeAction{title(d), quickFix, []diagnostic{known}, true, workspaceEdit{map[string][]textEdit{v.doc.uri: edits}}})
		}
	}
	return actions, nil
}

// title says what an edit does: the diagnostic's hint, else what it puts there.
func title(d ledger.Diagnostic) string {
	if n := d.Places(); n > 1 {
		return fmt.Sprintf("%s (%d places)", titleOfOne(d), n)
	}
	return titleOfOne(d)
}

// titleOfOne says what an edit of one place does.
func titleOfOne(d ledger.Diagnostic) string {
	if d.Hint != "" {
		return d.Hint
	}
	if text := d.Fixes[0].Text; strings.TrimSpace(text) != "" {
		return "write " + text
	}
	return "correct the white space"
}

// meets reports whether two stretches touch.
func meets(a, b rng) bool {
	before := func(p, q position) bool { return p.Line < q.Line || p.Line == q.Line && p.Character < q.Character }
	return !before(a.End, b.Start) && !before(b.End, a.Start)
}

// formatting lays the text out, as tidy does, line by line: a text that tidy would
// refuse stays as it is. The rest of the ledger has no part in it and is not read.
func (s *server) formatting(p documentParams) (any, error) {
	edits := []textEdit{}
	doc := s.docs[p.TextDocument.URI]
	if doc == nil {
		return edits, nil
	}
	tidied, err := ledger.Tidy(doc.path, doc.text)
	if err != nil {
		return edits, nil
	}
	was, now := strings.Split(doc.text, "\n"), strings.Split(tidied, "\n")
	for n := range was {
		if n < len(now) && was[n] != now[n] {
			edits = append(edits, lineEdit(n, was[n], now[n]))
		}
	}
	return edits, nil
}

// lineEdit is the change from one line to another, without what is the same at
// their ends.
func lineEdit(n int, was, now string) textEdit {
	start := 0
	for start < min(len(was), len(now)) && was[start] == now[start] {
		start++
	}
	for start > 0 && !boundary(was, start) {
		start--
	}
	end := 0
	for end < min(len(was), len(now))-start && was[len(was)-1-end] == now[len(now)-1-end] {
		end++
	}
	for end > 0 && !boundary(was, len(was)-end) {
		end--
	}
	return textEdit{rng{position{n, toUnits(was, start)}, position{n, toUnits(was, len(was)-end)}}, now[start : len(now)-end]}
}

// boundary reports whether a character begins at a byte, or the text ends there.
func boundary(text string, at int) bool { return at >= len(text) || text[at]&0xc0 != 0x80 }
