package ledger

import (
	"slices"
	"strings"
)

// FixedFile is a file of a ledger with the edits of its diagnostics made.
type FixedFile struct {
	Source        // as it stood
	Fixed  string // its text now
	Made   List   // what was fixed, in order
}

// How often a ledger and one of its texts are read again at most: an edit of a line may
// bring to light what else is wrong with it, word after word.
const (
	fixRounds  = 20
	textRounds = 100
)

// Fixes makes every edit that the diagnostics of a ledger carry, in all of its
// files, without writing anything, and gives the files that change and the
// ledger as it then reads. Where the main file is part of a ledger it alone is
// edited: the rest is somebody else's. An edit whose words would be wrong in
// another way is left out.
func Fixes(opts Options) ([]FixedFile, *Result, error) {
	var files []FixedFile
	for changed, round := true, 0; changed && round < fixRounds; round++ {
		result, sources, err := LoadSources(over(opts, files))
		if err != nil {
			return nil, nil, err
		}
		files = withSources(files, opts.own(result, sources))
		if changed, err = fixRound(opts, files, result.Diagnostics); err != nil {
			return nil, nil, err
		}
	}
	result, err := Load(over(opts, files))
	files = slices.DeleteFunc(files, func(f FixedFile) bool { return len(f.Made) == 0 })
	return files, result, err
}

// own are the files of a ledger that may be edited.
func (opts Options) own(result *Result, sources []Source) []Source {
	if result.Main == opts.Main {
		return sources
	}
	main, err := opts.Files.Locate(opts.Main)
	return slices.DeleteFunc(sources, func(s Source) bool {
		at, lost := opts.Files.Locate(s.Path)
		return err != nil || lost != nil || at != main
	})
}

// withSources adds the files that are not there yet: an include that was fixed
// brings more.
func withSources(files []FixedFile, sources []Source) []FixedFile {
	for _, source := range sources {
		if !slices.ContainsFunc(files, func(f FixedFile) bool { return f.Path == source.Path }) {
			files = append(files, FixedFile{Source: source, Fixed: source.Text})
		}
	}
	return files
}

// fixRound makes the edits of each file in turn that has any.
func fixRound(opts Options, files []FixedFile, list List) (changed bool, err error) {
	for i := range files {
		f := &files[i]
		if !slices.ContainsFunc(list, func(d Diagnostic) bool { return d.File == f.Name && len(d.Fixes) > 0 }) {
			continue
		}
		text, made, err := fixText(over(opts, files), f.Source, f.Fixed)
		if err != nil {
			return false, err
		}
		changed = changed || len(made) > 0
		f.Fixed, f.Made = text, append(f.Made, made...)
	}
	return changed, nil
}

// over reads files as they are fixed so far.
func over(opts Options, files []FixedFile) Options {
	for _, f := range files {
		opts = opts.With(f.Path, f.Fixed)
	}
	return opts
}

// With reads another text in place of one of the ledger's files.
func (opts Options) With(path, text string) Options {
	if at, err := opts.Files.Locate(path); err == nil {
		opts.Files = &overlay{Files: opts.Files, at: at, text: text}
	}
	return opts
}

// FixFile makes the edits of one file of a ledger on disk, as Change does: of
// the diagnostics of what stands in the file when its lock is held. Every other
// line survives as it is; the ledger may have errors before and afterwards.
func FixFile(opts Options, source Source) (List, error) {
	var before string
	var made List
	err := changeKept(source.Path, opts.Journal, func(text string) (string, error) {
		before = text
		var err error
		text, made, err = fixText(opts, source, text)
		return text, err
	}, func(after string) error {
		if n := strayLine(before, after, made); n > 0 {
			return &lossError{source.Path, n}
		}
		return nil
	})
	if err != nil {
		return nil, err
	}
	return made, nil
}

// strayLine gives the number, from 1, of the first line that is not as it was
// and was not to be fixed; 0 where there is none.
func strayLine(before, after string, made List) int {
	was, is := strings.SplitAfter(before, "\n"), strings.SplitAfter(after, "\n")
	if len(was) != len(is) {
		return min(len(was), len(is))
	}
	for i := range was {
		fixed := func(d Diagnostic) bool {
			return slices.ContainsFunc(d.Fixes, func(f Fix) bool { return f.Line == i+1 })
		}
		if was[i] != is[i] && !slices.ContainsFunc(made, fixed) {
			return i + 1
		}
	}
	return 0
}

// fixText makes the edits of one file's text, again and again until there are
// none left.
func fixText(opts Options, source Source, text string) (string, List, error) {
	var all List
	refused := map[string]bool{}
	for range textRounds {
		list, err := diagnose(opts, source, text)
		if err != nil {
			return "", nil, err
		}
		list = slices.DeleteFunc(list, func(d Diagnostic) bool { return refused[d.Error()] })
		next, made := ApplyFixes(text, list)
		after, err := diagnose(opts, source, next)
		if err != nil {
			return "", nil, err
		}
		wrong := made.without(func(d Diagnostic) bool { return !d.misread(list, after) })
		for _, d := range wrong {
			refused[d.Error()] = true
		}
		if len(wrong) > 0 {
			continue // once more, without those
		}
		if text, all = next, append(all, made...); len(made) == 0 {
			break
		}
	}
	slices.SortStableFunc(all, func(a, b Diagnostic) int { return a.Line - b.Line })
	return text, all, nil
}

// same reports whether two diagnostics say the same of one line.
func (d Diagnostic) same(o Diagnostic) bool {
	return d.Line == o.Line && d.Code == o.Code && d.Message == o.Message
}

// Has reports whether a list has a diagnostic of the same line and file that says the same.
func (l List) Has(d Diagnostic) bool {
	return slices.ContainsFunc(l, func(o Diagnostic) bool { return o.File == d.File && o.same(d) })
}

func (l List) without(drop func(Diagnostic) bool) List {
	return slices.DeleteFunc(slices.Clone(l), drop)
}

// diagnose gives the diagnostics of one file, with another text in its place.
func diagnose(opts Options, source Source, text string) (List, error) {
	result, err := Load(opts.With(source.Path, text))
	if err != nil {
		return nil, err
	}
	return result.Diagnostics.without(func(d Diagnostic) bool { return d.File != source.Name }), nil
}

// misread reports whether the words that a diagnostic's edits have put in place
// are an error in what is said of the text with them, and were none before.
func (d Diagnostic) misread(before, after List) bool {
	shift, line := 0, 0
	for _, f := range d.Fixes {
		if f.Line != line {
			shift, line = 0, f.Line
		}
		length := len([]rune(f.Text))
		from, to := f.Column+shift, f.Column+shift+length
		shift += length - (f.EndColumn - f.Column)
		for _, now := range after {
			touches := now.Line == f.Line && now.Column < max(to, from+1) && now.EndColumn() > from
			if touches && now.Severity == Error && (now.same(d) || !slices.ContainsFunc(before, now.same)) {
				return true
			}
		}
	}
	return false
}
