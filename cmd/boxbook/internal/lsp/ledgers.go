package lsp

import (
	"io/fs"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"sync"

	"boxbook/season/ledger"
)

// fileNamed is a line that names a file, as far as its name is typed.
var fileNamed = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`^(include|part-of)[ \t]+"([^"]*)$`) })

// ledgerNames completes the name of a file in quotes: behind include those beneath the
// text's folder, behind part-of those that may include it. False where no file is named.
func (s *server) ledgerNames(v view, line, column int) ([]completionItem, bool) {
	text := v.book.rd.LineText(v.name, line)
	if column > len(text) {
		return nil, false
	}
	typed := fileNamed().FindStringSubmatch(text[:column])
	if typed == nil {
		return nil, false
	}
	behind, end, closed := text[column:], len(text), `"`
	if at := strings.IndexByte(behind, '"'); at >= 0 {
		end, closed = column+at, ""
	}
	dir := filepath.Dir(v.doc.located)
	paths := beneath(dir)
	if typed[1] == "part-of" {
		paths = s.above(v.doc)
	}
	items := []completionItem{}
	at := spanRange(v.book.rd, ledger.Span{File: v.name, Line: line, Start: column - len(typed[2]), End: end})
	for _, path := range paths {
		name, err := filepath.Rel(dir, located(path))
		if name = filepath.ToSlash(name); err == nil && located(path) != v.doc.located && strings.HasPrefix(name, typed[2]) {
			items = append(items, completionItem{name, itemFile, "", sorted(len(items)), textEdit{at, name + closed}})
		}
	}
	return items, true
}

// Where ledgers are looked for beneath a folder: so many folders down, and so many of
// them.
const (
	foldersBeneath = 4
	ledgersBeneath = 100
)

// beneath are the ledgers in a folder and those below it.
func beneath(dir string) []string {
	var paths []string
	_ = filepath.WalkDir(dir, func(path string, entry fs.DirEntry, err error) error {
		rel, _ := filepath.Rel(dir, path)
		switch {
		case err != nil:
			return nil // a folder that cannot be read offers nothing
		case entry.IsDir() && path != dir && (strings.HasPrefix(entry.Name(), ".") || strings.Count(filepath.ToSlash(rel), "/") >= foldersBeneath):
			return fs.SkipDir
		case len(paths) == ledgersBeneath:
			return fs.SkipAll
		case !entry.IsDir() && filepath.Ext(path) == suffix:
			paths = append(paths, path)
		}
		return nil
	})
	slices.Sort(paths)
	return paths
}
