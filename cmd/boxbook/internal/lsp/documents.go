package lsp

import (
	"cmp"
	"net/url"
	"path/filepath"
	"runtime"
	"slices"
	"strings"

	"boxbook/season/ledger"

	"github.com/creachadair/jrpc2"
)

// document is a text as the editor has it.
type document struct {
	uri, path string
	located   string // its one name on disk, links resolved
	text      string
	version   *int
}

// book is a ledger with the texts that the editor has open in the place of those
// on disk.
type book struct {
	main  string // path of the main file
	rd    *ledger.Reading
	names map[string]string // of its files, by their one name on disk
	paths map[string]string // the other way about
	stale bool
}

// unsaved is the scheme of a text that was never saved.
const unsaved = "untitled"

// pathOf is the path of a file's URI, of a text that was never saved the one that it
// would have.
func pathOf(uri string) (string, bool) {
	u, err := url.Parse(uri)
	if err == nil && u.Scheme == unsaved && u.Opaque != "" { // a text without a name yet
		return unsaved + "-" + filepath.Base(u.Opaque), true
	}
	if err != nil || u.Scheme != "file" && u.Scheme != unsaved || u.Path == "" {
		return "", false
	}
	path := u.Path
	if runtime.GOOS == "windows" {
		path = strings.TrimPrefix(path, "/")
	}
	return filepath.FromSlash(path), true
}

// uriOf is the URI of a path.
func uriOf(path string) string {
	path = filepath.ToSlash(path)
	if !strings.HasPrefix(path, "/") {
		path = "/" + path
	}
	return (&url.URL{Scheme: "file", Path: path}).String()
}

// files are the texts of the editor over those on disk.
type files struct {
	ledger.Disk
	s *server
}

func (f files) Read(path string) (string, error) {
	if located, err := f.Locate(path); err == nil {
		if doc := f.s.openAt(located); doc != nil {
			return doc.text, nil
		}
	}
	return f.Disk.Read(path)
}

// Locate finds a text that was never saved too.
func (f files) Locate(path string) (string, error) {
	there, err := f.Disk.Locate(path)
	if err == nil {
		return there, nil
	}
	if whole, wrong := filepath.Abs(path); wrong == nil && f.s.openAt(whole) != nil {
		return whole, nil
	}
	if whole := located(path); f.s.openAt(whole) != nil {
		return whole, nil
	}
	return "", err
}

// openAt is the open text with a name on disk, nil where there is none.
func (s *server) openAt(located string) *document {
	for _, doc := range s.docs {
		if doc.located == located {
			return doc
		}
	}
	return nil
}

func (s *server) didOpen(p openParams) (any, error) {
	path, ok := pathOf(p.TextDocument.URI)
	if !ok {
		return nil, nil
	}
	doc := &document{uri: p.TextDocument.URI, path: path, text: p.TextDocument.Text, version: p.TextDocument.Version}
	doc.located = located(path)
	s.docs[doc.uri] = doc
	s.changed()
	s.bookOf(doc)
	s.tellSoon()
	return nil, nil
}

// located is a path's one name: where the file is not there, that of its folder
// with the name.
func located(path string) string {
	if at, err := (ledger.Disk{}).Locate(path); err == nil {
		return at
	}
	if dir, err := (ledger.Disk{}).Locate(filepath.Dir(path)); err == nil {
		return filepath.Join(dir, filepath.Base(path))
	}
	return filepath.Clean(path)
}

func (s *server) didChange(p changeParams) (any, error) {
	doc := s.docs[p.TextDocument.URI]
	if doc == nil || len(p.ContentChanges) == 0 {
		return nil, nil
	}
	for _, change := range p.ContentChanges {
		if change.Range != nil {
			return nil, jrpc2.Errorf(jrpc2.InvalidParams, "a change must be the whole text")
		}
		doc.text = change.Text
	}
	doc.version = p.TextDocument.Version
	s.changed()
	s.tellSoon()
	return nil, nil
}

func (s *server) didClose(p documentParams) (any, error) {
	delete(s.docs, p.TextDocument.URI)
	s.changed()
	s.books = slices.DeleteFunc(s.books, func(b *book) bool {
		return !slices.ContainsFunc(s.openDocs(), func(doc *document) bool { return b.names[doc.located] != "" })
	})
	s.tellSoon()
	return nil, nil
}

// reread takes notice that files on disk may be others.
func (s *server) reread(struct{}) (any, error) {
	s.changed()
	s.tellSoon()
	return nil, nil
}

// openDocs are the open texts by URI.
func (s *server) openDocs() []*document {
	var docs []*document
	for _, doc := range s.docs {
		docs = append(docs, doc)
	}
	slices.SortFunc(docs, func(a, b *document) int { return cmp.Compare(a.uri, b.uri) })
	return docs
}

// changed says that what was read is no longer what there is.
func (s *server) changed() {
	for _, b := range s.books {
		b.stale = true
	}
}

// read reads a ledger by its main file; nil where that cannot be read.
func (s *server) read(main string) *book {
	b := &book{main: main, stale: true}
	s.refresh(b)
	if b.rd == nil {
		return nil
	}
	return b
}

// refresh reads a ledger again if its texts have changed.
func (s *server) refresh(b *book) {
	if !b.stale {
		return
	}
	b.stale, b.rd, b.names, b.paths = false, nil, map[string]string{}, map[string]string{}
	rd, err := ledger.Read(ledger.Options{Files: files{s: s}, Main: b.main, Builtin: s.opts.Builtin, AsOf: s.opts.Today()})
	if err != nil {
		return
	}
	b.rd, b.main = rd, rd.Main
	for _, source := range rd.Sources {
		at := located(source.Path)
		b.names[at], b.paths[source.Name] = source.Name, at
	}
}

// bookOf is the ledger that an open text belongs to: one that has it already, the
// one that it is part of, the one that was named at the start, one in a folder
// above that includes it, else the text as a ledger by itself.
func (s *server) bookOf(doc *document) *book {
	for _, b := range s.books {
		if s.refresh(b); b.names[doc.located] != "" {
			return b
		}
	}
	own := s.read(doc.path)
	if own != nil && located(own.main) == doc.located && !strings.HasPrefix(doc.uri, unsaved+":") {
		for _, path := range s.above(doc) {
			if whole := s.read(path); whole != nil && whole.names[doc.located] != "" {
				own = whole
				break
			}
		}
	}
	if own != nil {
		s.keep(own)
	}
	return own
}

// keep holds a ledger in memory, and drops those that are a part of it.
func (s *server) keep(b *book) {
	s.books = slices.DeleteFunc(s.books, func(other *book) bool { return b.names[located(other.main)] != "" })
	s.books = append(s.books, b)
}

// Where a ledger that includes a text is looked for: so many folders upwards, in
// each at most so many ledgers.
const (
	foldersAbove   = 4
	ledgersInThere = 20
)

// above are the ledgers that may include a text.
func (s *server) above(doc *document) []string {
	var paths []string
	if s.opts.Ledger != "" {
		paths = append(paths, s.opts.Ledger)
	}
	dir := filepath.Dir(doc.located)
	for range foldersAbove {
		found, _ := filepath.Glob(filepath.Join(globbed(dir), "*"+suffix))
		for _, path := range found[:min(len(found), ledgersInThere)] {
			if located(path) != doc.located {
				paths = append(paths, path)
			}
		}
		if up := filepath.Dir(dir); up == dir {
			break
		}
		dir = filepath.Dir(dir)
	}
	return paths
}

const suffix = ".boxbook"

// globbed is a path as a pattern that means it alone.
func globbed(path string) string {
	if runtime.GOOS == "windows" {
		return path
	}
	return strings.NewReplacer(`\`, `\\`, "*", `\*`, "?", `\?`, "[", `\[`).Replace(path)
}

// uri is that of a file of the ledger, as the editor has it where it is open.
func (s *server) uri(b *book, name string) string {
	if doc := s.openAt(b.paths[name]); doc != nil {
		return doc.uri
	}
	return uriOf(b.paths[name])
}

// view is an open text and the ledger that it belongs to.
type view struct {
	doc  *document
	book *book
	name string // the file's, in the ledger
}

// view finds a text that is open; false where it is not, or no ledger has it.
func (s *server) view(id documentID) (view, bool) {
	doc := s.docs[id.URI]
	if doc == nil {
		return view{}, false
	}
	b := s.bookOf(doc)
	if b == nil || b.names[doc.located] == "" {
		return view{}, false
	}
	return view{doc, b, b.names[doc.located]}, true
}
