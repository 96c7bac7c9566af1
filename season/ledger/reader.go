package ledger

import (
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"
	"slices"
	"strings"
	"unicode/utf8"

	"boxbook/season"
)

// Options say how a ledger is read.
type Options struct {
	Files   Files  // where text comes from
	Main    string // path of the main ledger
	Shown   string // its name in messages; Main where empty
	Builtin fs.FS  // ledger files that the program ships, read first, by name
	AsOf    season.Date
	// Journal keeps what takes changes of the ledger's files back; nil keeps
	// nothing. Reading has no use for it, nor for Watch.
	Journal *Journal
	Watch   Watch
	// Workers is how many read side by side; 0 for as many as there are processors
	// to use, where the text is long enough. The result is the same.
	Workers int
	// carefully reads every line token by token, plain flights too, for who needs
	// them all.
	carefully bool
}

// Result is what was read: the model, as far as it could be read, and all that
// is wrong with it. Errors in the list mean that the model is not complete.
type Result struct {
	Ledger      *season.Ledger
	Diagnostics List
	Paths       []string // every file of the ledger, as named in messages
	// Main is the path of the ledger's main file: another than that of the
	// options where that file is part of a ledger.
	Main string
}

// reader is the state of one reading.
type reader struct {
	opts     Options
	list     List
	errors   int
	out      *season.Ledger
	blocks   map[string][]*block // by kind, in the order in which they stand
	files    []*file
	sources  []Source
	main     *file
	root     string             // folder of the main ledger, links resolved
	located  map[string]string  // every file read, and as what
	open     []string           // files being read, for cycles
	names    names              // everything with a handle
	excused  map[string]bool    // names that a broken block may have defined
	lostFile bool               // an include failed: unknown names are its consequence
	part     *partTrouble       // why the ledger that the main file is part of was not read
	tooNew   bool               // the text is of a later version of the language
	broken   map[any]bool       // things whose own block has errors
	panels   map[any]*panelLine // of contests, for messages
	codeK    map[codeKey]codeUse
	closings map[season.Place]closingLine // of the kinds that lines close
	faults   map[*season.Flight][]placed  // where each flight's faults stand, in order, those of plain flights apart
	// plainFlightOf finds plain flights; made when the first one is looked for.
	plainFlightOf map[*season.Flight]plainAt
	// flightBlocks finds the flights' blocks; made when the first one is looked for.
	flightBlocks map[season.Place]flightBlock
	money        []*moneyLine      // as they stand
	agreedAs     []agreedLine      // the results of years
	yearLines    []yearLine        // years that lines name
	forAll       []forAll          // costs for all of a contest
	payAll       []*season.Cost    // those of them that the first named paid
	house        *season.Policy    // the policy that the program ships
	bridging     *season.FaultKind // as the program ships it
	// lostMoney says that a line about money could not be read, so that
	// balances are not to be trusted.
	lostMoney  bool
	lostIncome bool            // a line about income could not be read
	kindsUsed  map[string]bool // kinds of cost, their singulars and plurals; made when first asked for
	// lostLadder says that a ladder, or a category of one, could not be read:
	// an unknown category may be its.
	lostLadder bool
	room       room
	guesses    guesses
}

func newReader(opts Options) *reader {
	r := &reader{
		opts: opts, out: &season.Ledger{Language: 1, AsOf: opts.AsOf},
		blocks: map[string][]*block{}, located: map[string]string{},
		excused: map[string]bool{}, broken: map[any]bool{},
		panels: map[any]*panelLine{}, codeK: map[codeKey]codeUse{}, closings: map[season.Place]closingLine{},
		faults: map[*season.Flight][]placed{},
	}
	r.names = newNames()
	return r
}

// readBlocks reads every block, those that others lean on first.
func (r *reader) readBlocks() {
	steps := []struct {
		kind string
		read func(*block)
	}{
		{"language", r.language},
		{"part-of", r.partOf},
		{"season-start", r.seasonStart},
		{"year-start", r.yearStart},
		{"fault-kind", r.faultKind},
		{"ladder", r.ladder},
		{"rules", r.rules},
		{"policy", r.policy},
		{"pilot", r.pilot},
		{"coach", r.coach},
		{"person", r.person},
		{"sequence", r.sequence},
		{"contest", r.contest},
		{"flight", r.flight},
		{"review", r.review},
		{"drill", r.drill},
		{"signoff", r.signoff},
		{"closed", r.closing},
		{"cost", r.cost},
		{"income", r.income},
		{"settle", r.settle},
		{"owed", r.owed},
		{"rate", r.rate},
		{"in-hand", r.inHand},
		{"budget", r.budget},
		{"agreed", r.agreed},
	}
	for _, step := range steps {
		if step.kind == flightWord {
			r.enterPlain()
		}
		for _, b := range r.blocks[step.kind] {
			step.read(b)
		}
		switch step.kind {
		case "rules":
			r.resolveStyles()
		case "fault-kind":
			r.readDrift()
		}
	}
	r.collect()
}

// collect hands what was defined over to the model.
func (r *reader) collect() {
	r.out.Pilots = r.names.pilots.list()
	r.out.Coaches = r.names.coaches.list()
	r.out.Persons = r.names.persons.list()
	r.out.Sequences = r.names.sequences.list()
	r.out.Contests = r.names.contests.list()
	r.out.Ladders = r.names.ladders.list()
	r.out.FaultKinds = r.names.kinds.list()
	r.out.Policies = r.names.policies.list()
	for _, node := range r.names.styles.list() {
		r.out.Styles = append(r.out.Styles, node.style)
	}
	r.out.Flights = r.names.flights.byDate()
	r.readAll()
	r.checkFaults()
	r.checkAlike()
	r.checkSplit()
	r.checkJudges()
	r.checkClosings()
	r.checkMoney()
}

func (r *reader) loadBuiltin() error {
	if r.opts.Builtin == nil {
		return nil
	}
	entries, err := fs.ReadDir(r.opts.Builtin, ".")
	if err != nil {
		return err
	}
	for _, entry := range entries {
		text, err := fs.ReadFile(r.opts.Builtin, entry.Name())
		if err != nil {
			return err
		}
		r.addFile("built-in "+entry.Name(), string(text), true)
	}
	return nil
}

func (r *reader) loadMain(text string) error {
	shown := r.opts.Shown
	if shown == "" {
		shown = r.opts.Main
	}
	located, err := r.opts.Files.Locate(r.opts.Main)
	if err != nil {
		return err
	}
	r.root = filepath.Dir(located)
	r.enter(located, Source{Name: shown, Path: r.opts.Main, Text: text})
	return nil
}

// enter reads one file of the ledger; includes inside it come back here.
func (r *reader) enter(located string, source Source) {
	r.located[located] = source.Name
	r.open = append(r.open, located)
	r.sources = append(r.sources, source)
	r.addFile(source.Name, source.Text, false)
	r.open = r.open[:len(r.open)-1]
}

func (r *reader) addFile(name, text string, shipped bool) {
	f := &file{name: name, order: len(r.files), shipped: shipped, text: text, guesses: &r.guesses}
	r.files = append(r.files, f)
	if r.main == nil && !shipped {
		r.main = f
	}
	if isUTF16(text) {
		r.refuseUTF16(f)
		return
	}
	r.scan(f)
	r.split(f)
}

// isUTF16 reports a text in two bytes a letter, as some editors save it.
func isUTF16(text string) bool {
	if strings.HasPrefix(text, "\xff\xfe") || strings.HasPrefix(text, "\xfe\xff") {
		return true
	}
	head := text[:min(len(text), utf16Head)]
	return len(head) > 0 && len(text)%2 == 0 && strings.Count(head, "\x00") >= len(head)/4 && strings.Contains(head, "\x00")
}

// utf16Head is how much of a text is looked at, in bytes.
const utf16Head = 1 << 12

// refuseUTF16 says once what is wrong with every byte of a file, and reads none of it.
func (r *reader) refuseUTF16(f *file) {
	first := f.text[0]
	f.text, f.lines, r.lostFile = "", []line{{}}, true
	d := r.report(span{f: f}, notUTF8, first)
	d.Message = "the file is text in UTF-16, which is not read"
	d.hinted("save it as UTF-8")
}

// include reads the file that an include line names.
func (r *reader) include(f *file, n int32) {
	w := r.words(f, n)
	w.next()
	path, tok, ok := w.quoted("the path of a file in quotes")
	if !ok {
		r.lostFile = true
		return
	}
	w.end()
	here := f.name
	if len(r.open) > 0 {
		here = r.open[len(r.open)-1]
	}
	target := filepath.Join(filepath.Dir(here), filepath.FromSlash(path))
	if filepath.IsAbs(path) || !r.inside(target) {
		r.lostFile = true
		r.at(f, tok, includeOutside, path)
		return
	}
	r.includeFile(f, tok, path, target)
}

func (r *reader) includeFile(f *file, tok token, path, target string) {
	located, err := r.opts.Files.Locate(target)
	if err != nil {
		r.lostFile = true
		r.at(f, tok, includeMissing, path, reason(err))
		return
	}
	switch {
	case !r.inside(located):
		r.lostFile = true
		r.at(f, tok, includeOutside, path)
	case slices.Contains(r.open, located):
		r.at(f, tok, includeCycle, path, r.located[r.open[len(r.open)-1]])
	case r.located[located] != "":
		return // each file is read once
	case len(r.located) > maxIncludes:
		r.lostFile = true
		r.at(f, tok, includeTooMany, maxIncludes)
	default:
		r.includeText(f, tok, path, target, located)
	}
}

func (r *reader) includeText(f *file, tok token, path, target, located string) {
	text, err := r.opts.Files.Read(target)
	var large *TooLargeError
	switch {
	case errors.As(err, &large):
		r.lostFile = true
		r.at(f, tok, includeTooLarge, path, maxFile>>20)
	case err != nil:
		r.lostFile = true
		r.at(f, tok, includeMissing, path, reason(err))
	default:
		r.enter(located, Source{Name: filepath.ToSlash(r.nameIncluded(f, path, target, located)), Path: target, Text: text})
	}
}

// nameIncluded is the name that an included file goes by: beside the file that includes
// it, as that was named, else where it is. Beside a link to a ledger in another folder there
// is nothing.
func (r *reader) nameIncluded(f *file, path, target, located string) string {
	name, from := filepath.Join(filepath.Dir(f.name), path), f.name
	if name == target {
		return name
	}
	if i := slices.IndexFunc(r.sources, func(s Source) bool { return s.Name == f.name }); i >= 0 {
		from = r.sources[i].Path
	}
	if at, err := r.opts.Files.Locate(filepath.Join(filepath.Dir(from), path)); err == nil && at == located {
		return name
	}
	if here, err := r.opts.Files.Locate("."); err == nil && !filepath.IsAbs(f.name) {
		if beneath, err := filepath.Rel(here, target); err == nil {
			return beneath
		}
	}
	return target
}

// inside reports whether a path lies in the main ledger's folder tree.
func (r *reader) inside(path string) bool {
	absolute, root := path, r.root
	if filepath.IsAbs(root) && !filepath.IsAbs(path) {
		return false
	}
	rel, err := filepath.Rel(root, absolute)
	return err == nil && filepath.IsLocal(rel)
}

// reason is the plain part of a file error.
func reason(err error) string {
	var path *fs.PathError
	if errors.As(err, &path) {
		return path.Err.Error()
	}
	return err.Error()
}

// span is a stretch of one line.
type span struct {
	f          *file
	line       int32
	start, end int32
}

// at reports a diagnostic at a token.
func (r *reader) at(f *file, tok token, code Code, args ...any) *Diagnostic {
	return r.report(span{f, tok.line, tok.start, tok.end}, code, args...)
}

// report adds a diagnostic; the caller may set its hint before the next one.
func (r *reader) report(s span, code Code, args ...any) *Diagnostic {
	m := messages[code]
	l := s.f.lines[s.line]
	before := s.f.text[l.start:s.start]
	if len(r.list) == cap(r.list) { // a million errors: half the memory and copying of append's own steps
		r.list = slices.Grow(r.list, max(8, len(r.list)))
	}
	r.list = append(r.list, Diagnostic{
		Code: code, File: s.f.name, Line: int(l.number) + 1,
		Column: utf8.RuneCountInString(before) + 1,
		Width:  max(1, utf8.RuneCountInString(s.f.text[s.start:s.end])),
		Source: s.f.text[l.start:l.end], Severity: m.severity,
		Message: fmt.Sprintf(m.text, args...), Hint: m.hint, order: s.f.order, at: s,
	})
	if m.severity == Error {
		r.errors++
	}
	return &r.list[len(r.list)-1]
}

// hinted sets a diagnostic's hint, one with more than one reading.
func (d *Diagnostic) hinted(format string, args ...any) {
	d.advise(hint(fmt.Sprintf(format, args...)))
}

// didYouMean adds the nearest known name, if one is near, to the message; where
// no other is near, and it is an error to be fixed, it is the edit too.
func (d *Diagnostic) didYouMean(typed string, known []string) { d.didYouMeanAt(d.at, typed, known) }

// isWordOfTheLanguage reports whether the word at fault is one of a few that are
// known for good, not a name that somebody gave.
func (d *Diagnostic) isWordOfTheLanguage() bool {
	return d.Code == unknownKey || d.Code == unknownBlock || d.Code == unknownChoice
}

// didYouMeanAt is didYouMean where the name is a part of the words at fault.
func (d *Diagnostic) didYouMeanAt(s span, typed string, known []string) {
	if !s.f.guesses.allow(len(known)) {
		return
	}
	names := near(typed, known)
	if len(names) == 0 {
		return
	}
	d.Message += "; " + DidYouMean(equallyNear(typed, names))
	if d.Severity == Error && sameNumbers(typed, names[0]) && (len(names) == 1 || d.isWordOfTheLanguage() && closer(typed, names)) {
		d.Fixes = []Fix{s.fix(names[0])}
	}
}

func place(f *file, line int32) season.Place {
	return season.Place{File: f.name, Line: f.number(line)}
}

func placeText(p season.Place) string { return fmt.Sprintf("%s:%d", p.File, p.Line) }

// lineText says on which line something is, with its file where that is
// another than f.
func lineText(p season.Place, f *file) string {
	if p.File != f.name {
		return placeText(p)
	}
	return fmt.Sprintf("line %d", p.Line)
}
