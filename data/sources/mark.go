package sources

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"sync"
)

// Words are what a value can be: seen in a source, common practice of the trade,
// recalled and not seen, or worked out.
var Words = []string{Published, CommonPractice, Memory, Derived}

// The words of a mark.
const (
	Published      = "published"
	CommonPractice = "common practice"
	Memory         = "memory"
	Derived        = "derived"
)

// houseChoice stands behind the word where the value could as well be another.
const houseChoice = ", a house choice"

// Mark says where a value comes from.
type Mark struct {
	Word  string
	House bool
	Cites []Cite
}

// Cite is a source's key and a place in it.
type Cite struct{ Key, Section string }

// String writes the mark without its brackets.
func (m Mark) String() string {
	text := m.Word
	if m.House {
		text += houseChoice
	}
	for i, c := range m.Cites {
		text += []string{": ", "; "}[min(i, 1)] + c.Key + ", " + c.Section
	}
	return text
}

var (
	markStart = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`\[(` + strings.Join(Words, "|") + `)\b`) })
	markForm  = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`\[(` + strings.Join(Words, "|") + `)\b([^\]]*)\]`) })
	// between takes a mark's lines together: a line's end, its indent and the
	// sign of a comment.
	between = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`\s*\n[ \t]*(//|#)?[ \t]*`) })
)

// Marks finds the marks in a text: Go, a ledger, a table of checks or a page. A
// mark may run over lines of a comment. The error is for one that is not well
// formed, or that has no end.
func Marks(text string) ([]Mark, error) {
	var marks []Mark
	text = between().ReplaceAllString(text, " ")
	for _, found := range markForm().FindAllStringSubmatch(text, -1) {
		m, ok := readMark(found[1], found[2])
		if !ok {
			return nil, fmt.Errorf("%s is no mark", found[0])
		}
		marks = append(marks, m)
	}
	if begun := len(markStart().FindAllString(text, -1)); begun != len(marks) {
		return nil, fmt.Errorf("%d marks begin, and %d end", begun, len(marks))
	}
	return marks, nil
}

// readMark reads what stands behind a mark's word.
func readMark(word, rest string) (Mark, bool) {
	m := Mark{Word: word}
	rest, m.House = strings.CutPrefix(rest, houseChoice)
	if !m.House && strings.HasPrefix(rest, ",") {
		return m, false
	}
	if rest == "" {
		return m, true
	}
	cites, ok := strings.CutPrefix(rest, ": ")
	for cite := range strings.SplitSeq(cites, "; ") {
		key, section, _ := strings.Cut(cite, ", ")
		ok = ok && key != "" && !strings.ContainsAny(key, " :")
		m.Cites = append(m.Cites, Cite{key, section})
	}
	return m, ok
}

// Check gives what is wrong with a mark, against a list of sources: a key or a
// place that is not in it, a published value without a source and its place.
func (m Mark) Check(list []Source) error {
	if m.Word == Published && len(m.Cites) == 0 {
		return fmt.Errorf("[%s] names no source", m)
	}
	for _, c := range m.Cites {
		s, ok := Find(list, c.Key)
		switch {
		case !ok:
			return fmt.Errorf("[%s]: no source has the key %q", m, c.Key)
		case c.Section == "":
			return fmt.Errorf("[%s]: no section of %s is named", m, c.Key)
		case !s.Has(c.Section):
			return fmt.Errorf("[%s]: %s has no place %q", m, c.Key, c.Section)
		}
	}
	return nil
}

// Uncited are the keys of a list that no mark names, and the places of a key that
// is named, "KEY, PLACE", that none names.
func Uncited(list []Source, marks []Mark) []string {
	keys, places := map[string]bool{}, map[Cite]bool{}
	for _, m := range marks {
		for _, c := range m.Cites {
			keys[c.Key], places[c] = true, true
		}
	}
	var none []string
	for _, s := range list {
		if !keys[s.Key] {
			none = append(none, s.Key)
			continue
		}
		for _, p := range s.Places {
			if !places[Cite{s.Key, p.Section}] {
				none = append(none, s.Key+", "+p.Section)
			}
		}
	}
	slices.Sort(none)
	return none
}
