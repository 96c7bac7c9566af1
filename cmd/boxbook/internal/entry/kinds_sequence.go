package entry

import (
	"fmt"
	"regexp"
	"strconv"
	"sync"

	"boxbook/season"
)

func sequenceKind() Kind {
	return Kind{
		Name: "sequence", Short: "add a sequence with its K factors",
		Fields: []Field{
			handleField("free-26"),
			{Name: "category", Asks: "its category", Example: "intermediate", Optional: true, Propose: Categories, Brief: true, Default: categoryFlown},
			{
				Name: "programme", Asks: "its programme", Example: "free", Optional: true, Propose: Programmes, Outer: func(s Scene) string {
					if programme := s.One("programme"); programme != string(season.Practice) {
						return programme
					}
					return ""
				},
			},
			{
				Name: "catalogue", Asks: "the catalogue word", Example: "glider", Optional: true,
				Help: "K factors are compared among sequences of one catalogue word",
			},
			{
				Name: "figure", Asks: "a figure as on the form", Each: "figure", Example: `8.5.2.1:10 9.1.4.2:4 "half Cuban"`,
				Shape: Words, Repeat: true, Brief: true, Quotes: true, Read: figureOf, Codes: season.Groups,
				Help: "code:K for each element, or K and a number, then a label in quotes if wished",
				Intro: func(Scene) string {
					return `its figures, as on the form: 8.5.2.1:10 9.1.4.2:4 "half Cuban", or K 14; Enter after the last`
				},
			},
			{Name: "positioning", Asks: "the K of positioning", Example: "20", Optional: true, Read: plainK, Brief: true, Help: "as on the form; none where the form has no such line", Doubt: muchK},
			{Name: "harmony", Asks: "the K of harmony", Example: "10", Optional: true, Read: plainK, Brief: true, Help: "on gliders' forms, mostly; none where the form has no such line", Doubt: muchK},
			{
				Name: "total", Asks: "the total K, as printed", Example: "14", Optional: true, Read: plainK, Brief: true,
				Help:  "the K of the figures, or of all lines: a mistyped K shows itself",
				Mends: figureLeftOut,
			},
		},
		Write: writeSequence,
	}
}

// categoryFlown is the category of a sequence that is added on the way to a flight: that of
// the pilot's flight before it.
func categoryFlown(s Scene) string {
	if s.Outer == nil {
		return ""
	}
	if last := lastFlight(*s.Outer); last != nil {
		return last.Category
	}
	return ""
}

// figureLeftOut says how a figure is inserted whose K a printed total has and the lines
// lack: of all lines, or of the figures alone; "" where the total lacks none.
func figureLeftOut(s Scene, answer string) string {
	text, _ := plainK(answer)
	total, err := strconv.Atoi(text)
	seq := sequenceSoFar(s)
	if err != nil || seq == nil {
		return ""
	}
	alone := seq.K()
	all := alone + seq.Positioning + seq.Harmony
	if total <= all {
		return ""
	}
	said := fmt.Sprintf(`a figure left out: "back" to the one behind it, then insert K %d`, total-all)
	if all > alone {
		said += fmt.Sprintf(", or insert K %d", total-alone)
	}
	return said
}

// fewFigures are those whose K together says nothing of a weighted line's.
const fewFigures = 3

// muchK doubts a K of positioning or harmony that is more than all figures have: the
// total, typed a question too early.
func muchK(s Scene, answer string) string {
	k, err := strconv.Atoi(answer)
	seq := sequenceSoFar(s)
	if err != nil || seq == nil || len(seq.Figures) < fewFigures || k <= seq.K() {
		return ""
	}
	return fmt.Sprintf("K %d is more than all figures have together, %d", k, seq.K())
}

// sequenceSoFar is the sequence as the answers so far make it, nil where they make none.
func sequenceSoFar(s Scene) *season.Sequence {
	add, err := writeSequence(s)
	if err != nil {
		return nil
	}
	read, err := s.host.Read(add)
	if err != nil {
		return nil // what is wrong is said of the answer
	}
	return read.Ledger.SequenceNamed(s.One("handle"))
}

// kOf is a K factor as people write it, alone or before what else is said of a figure.
var kOf = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`^[Kk][ :=]*([0-9]+)(?:[.,]0+)?($| )`) })

// plainK takes "K 20", "K: 20" and "20,0" for 20.
func plainK(text string) (answer, problem string) {
	text = kOf().ReplaceAllString(text, "$1")
	return wholeK().ReplaceAllString(text, "$1"), ""
}

// wholeK is a whole number with decimals, as a spreadsheet may have it.
var wholeK = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`^([0-9]+)[.,]0+$`) })

// figureOf takes "K: 14", "K14" and "K 14,0" for "K 14".
func figureOf(text string) (answer, problem string) {
	return kOf().ReplaceAllString(text, "K $1$2"), ""
}

func writeSequence(s Scene) (Addition, error) {
	var t blockText
	t.line("sequence", s.One("handle"))
	for _, key := range []string{"category", "programme", "catalogue"} {
		t.body(key, s.One(key))
	}
	for i, figure := range s.Answers["figure"] {
		t.body(fmt.Sprint(i+1), figure)
	}
	for _, key := range []string{"positioning", "harmony", "total"} {
		t.body(key, s.Behind("K", key))
	}
	return Addition{Block: t.tidied(), Said: "sequence " + s.One("handle")}, nil
}
