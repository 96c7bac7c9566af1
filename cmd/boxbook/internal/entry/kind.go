// Package entry holds one table of what a person can add to a ledger. Each
// kind of entry is one declaration, a list of fields; its flags, its questions
// in their order, the check of each answer, its draft and the text that is
// written all come from it. A new kind is a new declaration in Kinds.
//
// The package asks at a terminal that it is given, and writes nothing but
// drafts: what comes out of it is an Addition for the caller to record.
package entry

import (
	"cmp"
	"errors"
	"strings"

	"boxbook/season"
	"boxbook/season/ledger"
)

// Kind declares one kind of entry.
type Kind struct {
	Name  string // the word behind `log`
	Short string // one line for the help page
	Long  string // the help page, "" where Short says it all
	// Yearly says that the kind is used a few times a year, not week by week.
	Yearly bool
	// Walks says that a person at a terminal is asked for what the flags left
	// out even where nothing that is needed is missing.
	Walks  bool
	Fields []Field
	// Blames names the field whose answer is probably the slip, of a warning that comes
	// with a later answer; "" for none. Nil: never.
	Blames func(ledger.Diagnostic) string
	// Fixed are answers that this kind never asks for.
	Fixed Answers
	// Conflict says what is wrong with flags that are given together, "" where
	// nothing is; nil where nothing can be.
	Conflict func(given Answers) string
	// Write makes the ledger text. The scene holds every answer so far; what is
	// missing is left out of the text.
	Write func(Scene) (Addition, error)
}

// Shape says what an answer may hold.
type Shape int

// The shapes of an answer.
const (
	Word  Shape = iota // one word of the language
	Words              // several words, as they will stand in the ledger
	Text               // free text, which is quoted in the ledger
)

// Field declares one thing that an entry says.
type Field struct {
	Name string // of the flag, and of the answer
	Asks string // what is asked for: the question, and the flag's help
	Help string // what `?` adds to that, "" where there is nothing to add
	// Holds is the word behind the flag, "" where its name says it in every entry.
	Holds   string
	Example string // an answer that the ledger takes, without the names that it must know
	// Shown is the example that a question shows where the entry has a better one, ""
	// for none; nil: Example.
	Shown func(Scene) string
	// Others stand in for an answer where the ledger has something that the
	// example would repeat.
	Others []string
	Shape  Shape
	Count  int      // of Words: how many there are, 0 for any number
	Not    []string // of Words: words that would begin something else
	Quotes bool     // of Words: free text in quotes may be one of them
	List   bool     // of Words: may have commas between them; a flag may be given several times
	// Optional says that Enter takes none; NeededIf that it does not do so here.
	Optional bool
	NeededIf func(Scene) bool
	// Needed says why no answer does not do there, "" or nil for that it is needed.
	Needed func(Scene) string
	Repeat bool // may be given several times
	// Each is, of Repeat, what one is called, to be numbered in its question; one can
	// be inserted before another that is offered.
	Each string
	// None is what Enter takes where it takes none, in words; "" for "none".
	None string
	// Mends says what else mends an answer that was refused, "" for nothing; nil where
	// nothing does.
	Mends func(s Scene, answer string) string
	// Lines are what a repeated field's values stand for, one each; nil where
	// there may be any number. Keyed says that a flag's value begins with the
	// key of its line.
	Lines func(Scene) []Line
	Keyed bool
	// When says whether the question arises; nil: always. What a flag gave is
	// taken in any case.
	When func(Scene) bool
	// Intro is said before the question, "" where there is nothing to say.
	Intro   func(Scene) string
	Propose func(*season.Ledger) []string // what the ledger knows; the beginning of one name is enough
	// Fits leaves out what is known and does not fit here; nil: all of it fits.
	Fits func(s Scene, name string) bool
	// First is proposed before the others; nil: as the ledger has them.
	First func(s Scene, name string) bool
	// Codes are those that a part of the answer may be, which `?` lists with their names.
	Codes []string
	// Coded says that what the ledger proposes are codes that have names in words.
	Coded   bool
	Open    bool               // may be a word that the ledger does not know yet: no beginning is enough
	Default func(Scene) string // what Enter takes
	// Only is what a flag's value is where it was not given, and the ledger has only one
	// that can be meant; "" where it has others. Nil: it must be given.
	Only func(*season.Ledger) string
	// Implied is what a flag's value is where the one of ImpliedBy was given and it was
	// not; "" where that does not say it.
	Implied   func(Scene) string
	ImpliedBy string
	// Read gives a person's words as they are kept, or what is wrong with them;
	// nil: as they are.
	Read func(text string) (answer, problem string)
	// Meant gives an answer that is written otherwise as it can only be meant; nil: it
	// stands as typed.
	Meant func(text string) string
	// Slip says what is wrong with a person's answer before the line is read with it,
	// which may take it for another part; "" where that is for the ledger to say.
	Slip func(s Scene, text string) string
	// Doubt says why a person's answer that the ledger takes may be a slip, which is said
	// once; "" where there is no doubt.
	Doubt func(s Scene, answer string) string
	// Never says what is wrong with words that no ledger takes here, where the line
	// would be read otherwise with them; "" where that is for the ledger to say.
	Never func(text string) string
	// Target says that the answer names the block that lines go into, and is no part of
	// them: a warning that they bring is not its own.
	Target bool
	// Full gives the full name of what a person named by a part of it; nil: the
	// words stand as they are.
	Full func(s Scene, text string) (string, error)
	// Rest is what is still asked for of an answer that lacks a part, "" where it is
	// whole; nil: it always is.
	Rest func(s Scene, text string) string
	Free func(Scene) string // an answer that fits here, to stand in: a name that the ledger does not have
	New  bool               // names something that the ledger must not have yet
	Adds string             // the kind that is asked for and added where the ledger lacks the name
	Sure bool               // of Adds: whether to add it is asked first
	Was  string             // what the flag was called before, "" where it had no other name
	// Brief says that the question is asked too when its entry is added on the
	// way to another; Outer then takes the answer from that other one instead,
	// "" where it has none.
	Brief bool
	Outer func(Scene) string
	// Under says what an answer leaned on: where it has changed since, the
	// question is asked again. Nil: nothing.
	Under    func(Scene) string
	Leans    string // what has changed where that is otherwise, in words; "" for the ledger
	NoFlag   bool   // only asked, and not part of the ledger
	FlagOnly bool   // never asked
}

// Line is one of the values of a field that has its lines.
type Line struct {
	Key      string
	Asks     string
	Example  string
	Optional bool
}

// Answers are what was given for an entry, by the name of the field.
type Answers map[string][]string

// One is the first answer of a field, "" where there is none.
func (v Answers) One(name string) string {
	if len(v[name]) == 0 {
		return ""
	}
	return v[name][0]
}

// Has reports whether a field has an answer.
func (v Answers) Has(name string) bool { return v.One(name) != "" || len(v[name]) > 1 }

// Behind is a field's answer behind a word of the language, "" where there is
// none.
func (v Answers) Behind(word, name string) string {
	if !v.Has(name) {
		return ""
	}
	return word + " " + v.One(name)
}

// Scene is what a declaration may look at.
type Scene struct {
	Answers
	Ledger *season.Ledger // as it is with what was added on the way
	Given  Answers        // what flags gave
	Outer  *Scene         // the entry on whose way this one is added; nil for none
	host   Host
}

// Flight finds the one flight that a selector names.
func (s Scene) Flight(selector string) (*season.Flight, error) {
	return s.host.Flight(s.Ledger, selector)
}

// into adds lines to a block of the ledger that is there; the error says why
// its file takes none.
func (s Scene) into(to ledger.Target, said string, lines ...string) (Addition, error) {
	if err := s.host.Takes(to); err != nil {
		return Addition{}, err
	}
	return Addition{Into: &to, Lines: lines, Said: said}, nil
}

// intoFlight adds lines to the flight that was named; said is the last word
// about them, before the flight's name.
func (s Scene) intoFlight(said string, lines ...string) (Addition, error) {
	f, err := s.Flight(s.One("flight"))
	if err != nil {
		return Addition{}, err
	}
	add, err := s.into(ledger.Target{File: f.At.File, Kind: "flight", Name: f.Name}, said+f.Name, lines...)
	var refusal *Refusal
	if errors.As(err, &refusal) {
		refusal.Hint = "what a coach saw can stand in any file, as a review: boxbook log review"
	}
	return add, err
}

// Addition is what an entry adds to the ledger: blocks at a file's end, or
// lines in a block that is there.
type Addition struct {
	Block string         // blocks in the ledger language
	Into  *ledger.Target // where lines go, nil for blocks
	Lines []string
	Said  string // what is added, for the last word
	// Renews says that the line takes the place of the one that begins with the
	// same two words.
	Renews bool
	// Completes are lines of which the first two words stand there, and get the others.
	Completes []string
	// Brief is what a person is shown of it, "" for all.
	Brief string
	// Means says beside what a person is shown of it what a number in it stands for, "" for
	// nothing.
	Means string
	// Remark is what is said of it where nobody was asked, "" for nothing.
	Remark string
}

// Added gives a file's text with the addition.
func (a Addition) Added(text string) (string, error) {
	if a.Renews {
		return ledger.RenewLine(text, *a.Into, a.Lines[0])
	}
	if a.Into != nil {
		for _, line := range a.Completes {
			var err error
			if text, err = ledger.CompleteLine(text, *a.Into, line); err != nil {
				return "", err
			}
		}
		return ledger.AddLines(text, *a.Into, a.Lines...)
	}
	return ledger.Append(text, a.Block), nil
}

// Show is the addition as a person is shown it before it is written.
func (a Addition) Show() string {
	if a.Into == nil || a.Brief != "" {
		return strings.TrimRight(cmp.Or(a.Brief, a.Block), "\n")
	}
	return a.showing(a.Lines)
}

// showing is the block with lines in it.
func (a Addition) showing(lines []string) string {
	return a.Into.Kind + " " + strings.ReplaceAll(a.Into.Name, "/", " ") + "\n  ...\n  " + strings.Join(lines, "\n  ")
}

// Host is what the table needs of the program around it.
type Host interface {
	// Read gives the ledger as it would be with additions.
	Read(more ...Addition) (*ledger.Result, error)
	// Flight finds the one flight that a selector names.
	Flight(l *season.Ledger, selector string) (*season.Flight, error)
	// Takes says why lines cannot go into a block of the ledger, nil where they can.
	Takes(to ledger.Target) error
	// Unknown is the error of a name that the ledger lacks.
	Unknown(kind, name string, known []string) error
	// Title is what a code is called in words, "" where it has no other name.
	Title(l *season.Ledger, code string) string
	// Follows says what follows from an entry in the ledger that has it, ""
	// where there is nothing to add.
	Follows(kind string, l *season.Ledger, v Answers) (string, error)
}

// Refusal says that an entry was asked for wrongly; Hint is a line of its own,
// "" where there is nothing to add.
type Refusal struct{ Text, Hint string }

func (e *Refusal) Error() string { return e.Text }

// FileError says that a draft or the terminal could not be read or written.
type FileError struct {
	Doing string // "read the draft"
	Err   error
}

func (e *FileError) Error() string { return "cannot " + e.Doing + ": " + e.Err.Error() }
func (e *FileError) Unwrap() error { return e.Err }

// Usage is the field's line on the help page.
func (f Field) Usage() string {
	usage := f.Asks + f.suchAs()
	if f.Repeat || f.List {
		usage += "; may be given several times"
	}
	return usage
}

// suchAs is the example of a step's question.
func (st step) suchAs() string {
	f := *st.field
	if f.Shown != nil {
		f.Example = cmp.Or(f.Shown(st.scene), f.Example)
	}
	return f.suchAs()
}

// suchAs is the field's example, where it says how an answer is written: names
// that must be known are the ledger's own, and free text is free.
func (f *Field) suchAs() string {
	if f.Example == "" || f.Propose != nil && !f.Open || f.Shape == Text {
		return ""
	}
	return ", such as " + f.Example
}

// needed reports whether an answer must be had.
func (f *Field) needed(s Scene) bool {
	return !f.Optional || f.NeededIf != nil && f.NeededIf(s)
}

// arises reports whether the question is to be asked.
func (f *Field) arises(s Scene) bool { return !f.FlagOnly && (f.When == nil || f.When(s)) }

// lines are a field's lines, nil where it has none of its own.
func (f *Field) lines(s Scene) []Line {
	if f.Lines == nil {
		return nil
	}
	return f.Lines(s)
}

// field is the declaration of a name; nil where the kind lacks it.
func (k *Kind) field(name string) *Field {
	for i := range k.Fields {
		if k.Fields[i].Name == name {
			return &k.Fields[i]
		}
	}
	return nil
}

// Field is the declaration of a name. Asking for one that the kind lacks is a
// slip of the program, and panics.
func (k *Kind) Field(name string) Field { return *k.field(name) }

// Named is the kind of that name; nil where there is none.
func Named(name string) *Kind {
	for _, k := range Kinds() {
		if k.Name == name {
			return &k
		}
	}
	return nil
}
