package ledger

import (
	"slices"
	"strings"
)

// form is how a line is written, as its words and slots and what may follow
// each.
type form struct {
	items []formItem
	first []int // those that may begin the line
	last  []int // those that may end it
	empty bool  // it may be left out as a whole
}

// formItem is a word that stands as it is, or a slot.
type formItem struct {
	word   string
	slot   Slot
	follow []int
}

// part is a piece of a form: what may begin and end it, and whether it may be
// left out.
type part struct {
	first, last []int
	empty       bool
}

// formParser reads a form's text.
type formParser struct {
	words []string
	at    int
	form  *form
}

// formOf reads a form as lineForms has it.
func formOf(text string) *form {
	spaced := text
	for _, sign := range []string{"+", "*"} {
		spaced = strings.ReplaceAll(spaced, sign, " "+sign+" ")
	}
	p := &formParser{words: strings.Fields(spaced), form: &form{}}
	whole := p.either()
	p.form.first, p.form.last, p.form.empty = whole.first, whole.last, whole.empty
	return p.form
}

func (p *formParser) peek() string {
	if p.at == len(p.words) {
		return ""
	}
	return p.words[p.at]
}

// take takes the next word if it is this one.
func (p *formParser) take(word string) bool {
	if p.peek() != word {
		return false
	}
	p.at++
	return true
}

// either reads A | B.
func (p *formParser) either() part {
	all := p.row()
	for p.take("|") {
		other := p.row()
		all.first, all.last, all.empty = append(all.first, other.first...), append(all.last, other.last...), all.empty || other.empty
	}
	return all
}

// row reads one piece after the other.
func (p *formParser) row() part {
	whole := part{empty: true}
	for next := p.peek(); next != "" && next != "]" && next != ")" && next != "|"; next = p.peek() {
		piece := p.piece()
		p.join(whole.last, piece.first)
		if whole.empty {
			whole.first = append(whole.first, piece.first...)
		}
		if piece.empty {
			whole.last = append(whole.last, piece.last...)
		} else {
			whole.last = piece.last
		}
		whole.empty = whole.empty && piece.empty
	}
	return whole
}

// piece reads a word, a slot, or a piece in brackets, and what repeats it.
func (p *formParser) piece() part {
	var piece part
	switch {
	case p.take("["):
		piece = p.either()
		piece.empty = true
		p.take("]")
	case p.take("("):
		piece = p.either()
		p.take(")")
	default:
		piece = p.item()
	}
	switch {
	case p.take("+"):
		p.join(piece.last, piece.first)
	case p.take("*"):
		p.join(piece.last, piece.first)
		piece.empty = true
	}
	return piece
}

func (p *formParser) item() part {
	word := p.peek()
	p.at++
	item := formItem{word: word}
	if len(word) > 1 && strings.ToUpper(word) == word && strings.ToLower(word) != word {
		item = formItem{slot: Slot(word)}
	}
	n := len(p.form.items)
	p.form.items = append(p.form.items, item)
	return part{first: []int{n}, last: []int{n}}
}

// join lets each of some follow each of others.
func (p *formParser) join(before, after []int) {
	for _, b := range before {
		item := &p.form.items[b]
		for _, a := range after {
			if !slices.Contains(item.follow, a) {
				item.follow = append(item.follow, a)
			}
		}
	}
}

// walk is a line on its way through its form.
type walk struct {
	form  *form
	may   []int // the items that may come next
	taken []int // the items that the last word may be
}

func (f *form) walk() walk { return walk{form: f, may: f.first} }

// take takes a word and says what it stands for: a slot, "" for a word that
// stands as it is. known is false where the word fits nothing that may stand
// here; it is then taken for the first slot that may.
func (w *walk) take(word string, quoted bool) (slot Slot, known bool) {
	before := w.taken
	var taken []int
	for _, n := range w.may {
		if item := w.form.items[n]; item.word != "" && item.word == word && !quoted {
			taken = append(taken, n)
		}
	}
	if len(taken) == 0 {
		for _, n := range w.may {
			if item := w.form.items[n]; item.word == "" && item.slot.fits(word, quoted) {
				taken = append(taken, n)
			}
		}
	}
	if known = len(taken) > 0; !known && !quoted {
		for _, n := range w.may {
			if w.form.items[n].word == "" {
				taken = append(taken, n)
			}
		}
	}
	if len(taken) == 0 {
		w.may, w.taken = nil, before
		return "", known
	}
	w.taken = taken
	slot = w.form.items[taken[0]].slot
	w.may = nil
	for _, n := range taken {
		for _, next := range w.form.items[n].follow {
			if !slices.Contains(w.may, next) {
				w.may = append(w.may, next)
			}
		}
	}
	return slot, known
}

// slots are the slots that may come next, words the words that stand as they
// are.
func (w walk) slots() (slots []Slot, words []string) {
	for _, n := range w.may {
		switch item := w.form.items[n]; {
		case item.word != "" && !slices.Contains(words, item.word):
			words = append(words, item.word)
		case item.word == "" && !slices.Contains(slots, item.slot):
			slots = append(slots, item.slot)
		}
	}
	return slots, words
}

// InsideWords are the words that stand as they are inside some line, in order.
func InsideWords() []string {
	var words []string
	for _, f := range allForms() {
		for _, item := range f.items {
			if item.word != "" && !slices.Contains(words, item.word) {
				words = append(words, item.word)
			}
		}
	}
	slices.Sort(words)
	return words
}

// LanguageWords are those of the language, in order: what begins a block or a line of one, and what
// stands as it is inside some line.
func LanguageWords() []string {
	words := slices.Concat(blockKinds, InsideWords())
	for _, spec := range blockSpecs {
		words = append(words, spec.keys...)
	}
	slices.Sort(words)
	return slices.Compact(words)
}
