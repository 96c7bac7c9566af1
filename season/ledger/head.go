package ledger

import (
	"path/filepath"
	"slices"
	"strings"
)

// Language is the version of the ledger language that this package reads.
const Language = 1

// headKinds stand before any other block of their file.
var headKinds = []string{"language", "part-of"}

// language reads `language N`. Of a version that is too high nothing else is
// said: whatever cannot be understood is its consequence.
func (r *reader) language(b *block) {
	r.body(b)
	w := r.header(b)
	const want = "a version of the language (1)"
	tok, ok := w.word(want)
	if text := w.text(tok); ok && (!isNumber(text) || rowNumber(text) == 0) {
		w.fail(tok, badNumber, text, want)
	}
	w.end()
	if w.failed {
		return
	}
	version := rowNumber(w.text(tok))
	switch {
	case r.isHeadTwice(b):
	case version > Language:
		r.at(b.f, tok, languageNew, version, Language)
		r.tooNew = true
	default:
		r.out.Language = max(r.out.Language, version)
	}
}

// partOf reads `part-of "PATH"`, which Load has followed already.
func (r *reader) partOf(b *block) {
	r.body(b)
	w := r.header(b)
	path, tok, ok := w.quoted("the path of a file in quotes")
	w.end()
	if !ok || r.isHeadTwice(b) {
		return
	}
	w.notBlank(path, tok)
	if p := r.part; p != nil && b.f == r.main {
		r.at(b.f, tok, p.code, p.args...).Hint = p.hint
	}
}

// isHeadTwice reports a line of a file's head that stands there twice.
func (r *reader) isHeadTwice(b *block) bool {
	i := slices.IndexFunc(r.blocks[b.kind], func(other *block) bool { return other.f == b.f })
	first := r.blocks[b.kind][i]
	if first == b {
		return false
	}
	r.at(b.f, b.headToken(0), headTwice, b.kind, b.f.number(first.head))
	return true
}

// partTrouble is why the ledger that a file is part of was not read.
type partTrouble struct {
	code Code
	args []any
	hint string
}

// whole finds the ledger that the main file is part of, by way of others if
// need be, and gives the options with which it is read, and its text. The
// options stay as they are for a file that is part of none.
func (opts Options) whole(text string) (Options, string, *partTrouble) {
	whole, first, seen := opts, "", []string{}
	for {
		path := partOfPath(text)
		if path == "" {
			return whole, text, nil
		}
		if first == "" {
			first = path
		}
		if at, err := opts.Files.Locate(whole.Main); err == nil {
			seen = append(seen, at)
		}
		target := filepath.Join(filepath.Dir(whole.Main), filepath.FromSlash(path))
		if filepath.IsAbs(filepath.FromSlash(path)) {
			return opts, "", &partTrouble{code: partMissing, args: []any{first, "its path is not relative"}}
		}
		at, err := opts.Files.Locate(target)
		if err == nil && slices.Contains(seen, at) {
			return opts, "", &partTrouble{code: partCycle, args: []any{first}}
		}
		if text, err = opts.Files.Read(target); err != nil {
			return opts, "", &partTrouble{code: partMissing, args: []any{first, reason(err)}}
		}
		whole.Main, whole.Shown = target, ""
	}
}

// partOfPath is the ledger that a file's head says it is part of, "" where it
// says nothing of the kind.
func partOfPath(text string) string {
	text = strings.TrimPrefix(text, byteOrderMark)
	for text != "" {
		line, rest, _ := strings.Cut(text, "\n")
		text = rest
		word, _, _ := strings.Cut(strings.Trim(strings.ReplaceAll(line, "\t", " "), "\r"), " ")
		switch {
		case strings.Trim(line, " \t\r") == "", strings.HasPrefix(strings.TrimLeft(line, " \t"), "#"), word == "language":
		case word == "part-of":
			r := newReader(Options{})
			r.addLine(line)
			w := r.words(r.files[0], 0)
			if !w.more() {
				return ""
			}
			w.next()
			path, _, _ := w.quoted("a path")
			return path
		default:
			return ""
		}
	}
	return ""
}

// includeLine is the line with which a ledger includes a file, as paths.
func includeLine(whole, part string) string {
	rel, err := filepath.Rel(filepath.Dir(whole), part)
	if err != nil {
		rel = part
	}
	return includeKey + " " + Quote(filepath.ToSlash(rel))
}

// load reads a ledger whose main file's text is known.
func load(opts Options, text string, part *partTrouble) (*reader, error) {
	r := newReader(opts)
	r.part, r.lostFile = part, part != nil
	if err := r.loadBuiltin(); err != nil {
		return nil, err
	}
	if err := r.loadMain(text); err != nil {
		return nil, err
	}
	r.readBlocks()
	if r.tooNew {
		r.list = slices.DeleteFunc(r.list, func(d Diagnostic) bool { return d.Code != languageNew })
	}
	return r, nil
}

// loadWhole reads the ledger that the main file is part of, or the main file
// itself.
func loadWhole(opts Options) (*reader, error) {
	text, err := opts.Files.Read(opts.Main)
	if err != nil {
		return nil, err
	}
	whole, wholeText, trouble := opts.whole(text)
	if trouble == nil {
		r, err := load(whole, wholeText, nil)
		if err != nil || whole.Main == opts.Main {
			return r, err
		}
		if at, err := opts.Files.Locate(opts.Main); err == nil && r.located[at] != "" {
			return r, nil
		}
		trouble = &partTrouble{
			code: partNotIncluded, args: []any{partOfPath(text)}, hint: "add `" + includeLine(whole.Main, opts.Main) + "` to it",
		}
	}
	return load(opts, text, trouble)
}

// Load reads a ledger with all that it includes. Where the main file says that
// it is part of another ledger, that one is read, and must include it. The error
// is for a main file that cannot be read; everything else is in the
// diagnostics.
func Load(opts Options) (*Result, error) {
	r, err := loadWhole(opts)
	if err != nil {
		return nil, err
	}
	return r.result(), nil
}

// result is what was read.
func (r *reader) result() *Result {
	result := &Result{Ledger: r.out, Diagnostics: foldList(sortList(r.list)), Main: r.opts.Main}
	for _, source := range r.sources {
		result.Paths = append(result.Paths, source.Name)
	}
	return result
}

// LoadSources is Load, and with it every file of the ledger as it was read, the
// main one first, then the included ones in the order in which they are.
func LoadSources(opts Options) (*Result, []Source, error) {
	r, err := loadWhole(opts)
	if err != nil {
		return nil, nil, err
	}
	return r.result(), r.sources, nil
}

// Source is one file of a ledger.
type Source struct {
	Name string // as messages name it
	Path string // where Files read it
	Text string
}
