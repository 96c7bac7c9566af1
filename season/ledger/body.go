package ledger

import (
	"slices"
	"strconv"
)

// bodyLine is an indented line of a block, its first word taken.
type bodyLine struct {
	*words
	key token
	num int // the number that begins a row, -1 for a key
}

// name is the key as typed.
func (l bodyLine) name() string { return l.text(l.key) }

// body gives the block's lines, reports keys that the block does not have and
// keys that stand twice, and drops both.
func (r *reader) body(b *block) []bodyLine {
	spec := blockSpecs[b.kind]
	lines := make([]bodyLine, 0, len(b.body))
	seen := make([]bodyLine, 0, len(spec.keys))
	for _, n := range b.body {
		w := r.words(b.f, n)
		tok := w.next()
		line := bodyLine{words: w, key: tok, num: -1}
		word := line.name()
		switch {
		case len(spec.keys) == 0:
			r.at(b.f, tok, bodyNotAllowed, b.kind)
			return nil
		case tok.quoted || !spec.takes(word):
			b.strays = append(b.strays, word)
			d := r.at(b.f, tok, unknownKey, blockNoun(b.kind), word)
			d.didYouMean(word, spec.keys)
			d.meantAsComment()
			b.guesses = append(b.guesses, len(r.list)-1)
			continue
		case isNumber(word):
			line.num = rowNumber(word)
		case !slices.Contains(spec.repeats, word):
			if i := slices.IndexFunc(seen, func(s bodyLine) bool { return sameKey(s.name()) == sameKey(word) }); i >= 0 {
				if first := seen[i].name(); first != word {
					r.at(b.f, tok, keyTwiceAs, word, seen[i].line+1, first)
				} else {
					r.at(b.f, tok, keyTwice, word, seen[i].line+1)
				}
				continue
			}
			seen = append(seen, line)
		}
		lines = append(lines, line)
	}
	r.dropGuesses(b, func(key string) bool {
		return !slices.Contains(spec.repeats, key) && slices.ContainsFunc(seen, func(s bodyLine) bool { return s.name() == key })
	})
	return lines
}

// dropGuesses takes back the edits that would make a misspelt key one that the
// block cannot have.
func (r *reader) dropGuesses(b *block, cannot func(key string) bool) {
	for _, i := range b.guesses {
		if fixes := r.list[i].Fixes; len(fixes) > 0 && cannot(fixes[0].Text) {
			r.list[i].Fixes = nil
		}
	}
}

// rowNumber reads a row's number; one too large for any sequence stays large.
func rowNumber(word string) int {
	n, err := strconv.Atoi(word)
	if err != nil || n > 1<<20 {
		return 1 << 20
	}
	return n
}

// free takes the quoted text that is the line's whole content, and the remark
// that may follow.
func (l bodyLine) free() string { return l.quotedLine("text in quotes") }

// quotedLine is free with other words for what is expected.
func (l bodyLine) quotedLine(want string) string {
	text, _, _ := l.quoted(want)
	l.end()
	return text
}

// header gives the block's first line, its keyword taken.
func (r *reader) header(b *block) *words {
	w := r.words(b.f, b.head)
	w.next()
	return w
}

// blockNoun is a block as a sentence begins with it.
func blockNoun(kind string) string {
	switch kind {
	case "rules":
		return "a rule style"
	case "fault-kind":
		return "a fault kind"
	default:
		return "a " + kind
	}
}
