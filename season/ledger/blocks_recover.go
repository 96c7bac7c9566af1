package ledger

import (
	"fmt"
	"slices"
	"strings"

	"boxbook/season"
)

// mergeMarks begin the lines that a merge leaves between two versions of a text.
var mergeMarks = []string{"<<<<<<<", "|||||||", "=======", ">>>>>>>"}

// unknown takes a line at column 0 that begins no block. Where the word is
// near a keyword the lines beneath are read as that block; else any word of the
// line may be a name that it was to define.
func (s *splitter) unknown(n int32, tok token, word string) {
	d := s.r.at(s.f, tok, unknownBlock, word)
	if slices.Contains(mergeMarks, word) { // the block above goes on
		d.hinted("a merge left this line: keep one of the two versions")
		d.rooted(s.f, "merge")
		return
	}
	if kind := s.cutInTwo(n, word); kind != "" {
		d.hinted("no space inside the word: %s", kind)
		s.lose(n, word)
		return
	}
	if key := keyMeant(word); key != "" && !tok.quoted {
		d.hinted("%s", belongsUnder(key))
		s.lose(n, word)
		return
	}
	if kind, name := runTogether(word); kind != "" {
		d.advise(instead("put a space after the first word: %s", kind+" "+name))
		s.lose(n, name)
		return
	}
	if said := MoneyWordMeant(word); said != "" {
		d.hinted("%s", said)
		s.lose(n, word)
		return
	}
	guess := s.r.guesses.kindNear(word)
	d.didYouMean(word, blockKinds)
	d.meantAsComment()
	if guess != "" && guess != includeKey {
		s.begin(guess, n)
		return
	}
	s.r.lostFile = s.r.lostFile || guess == includeKey
	s.lose(n, word)
}

// wordsForMoney are words that begin no line, with the lines that say it.
var wordsForMoney = []struct {
	hint  string
	words []string
}{
	{"what is paid of a debt is a settle: settle DATE WHO WHOM AMOUNT CUR", []string{"payment", "paid", "pay", "pays", "settlement", "transfer", "reimbursement"}},
	{
		"what came back of a cost is one below zero: cost DATE KIND -AMOUNT CUR for WHO by WHO; what the club gives back of its bill: cost DATE KIND -AMOUNT CUR for WHO by club to club, and then settle DATE club WHO AMOUNT CUR",
		[]string{"refund", "refunded"},
	},
	{"a credit is a bill below zero: cost DATE KIND -AMOUNT CUR for WHO by club to club", []string{"credit"}},
	{
		"a deposit that is paid is a settle: settle DATE WHO WHOM AMOUNT CUR; what was owed before the ledger is owed: owed DATE WHO WHOM AMOUNT CUR",
		[]string{"deposit", "advance", "prepayment", "loan", "debt"},
	},
	{"what the club bills is a cost: cost DATE KIND AMOUNT CUR for WHO by club to club", []string{"invoice", "bill", "fee", "fees", "dues", "membership", "charge"}},
	{"money spent is a cost: cost DATE KIND AMOUNT CUR for WHO by WHO", []string{"expense", "expenses", "spent"}},
	{"money from outside is an income: income DATE KIND AMOUNT CUR", []string{"donation", "grant", "prize", "sponsorship", "subsidy", "receipts"}},
	{"what was counted is in-hand: in-hand DATE POT AMOUNT CUR", []string{"bank", "cash", "balance", "opening", "savings"}},
	{"a year is closed by its agreed result: agreed YEAR AMOUNT CUR; a matter that no longer stands open by closed", []string{"close", "closing", "year-end"}},
}

// MoneyWordMeant says which line says what a word for money is about that begins no line,
// "" for another word.
func MoneyWordMeant(word string) string {
	for _, of := range wordsForMoney {
		if slices.Contains(of.words, strings.ToLower(word)) {
			return of.hint
		}
	}
	return ""
}

// keyMeant gives the key of some block's body that a word is, but for the case of its
// letters, "" where it is none, or begins blocks too.
func keyMeant(word string) string {
	word = strings.ToLower(word)
	if _, head := blockSpecs[word]; head || !isKeyAnywhere(word) {
		return ""
	}
	return word
}

// belongsUnder says which blocks have lines with a key.
func belongsUnder(key string) string {
	var kinds []string
	for _, kind := range blockKinds {
		if slices.Contains(blockSpecs[kind].keys, key) {
			kinds = append(kinds, kind)
		}
	}
	list := kinds[0]
	if last := len(kinds) - 1; last > 0 {
		list = strings.Join(kinds[:last], ", ") + " or " + kinds[last]
	}
	return fmt.Sprintf("%q belongs under a %s, indented", key, list)
}

// lose gives up a line that could not be told and what stands beneath it: every
// word of it, and what is given besides, may be a name that it was to define, unless it
// is a line about money.
func (s *splitter) lose(n int32, besides string) {
	if s.ofMoney(n) {
		s.r.lostMoney = true
	} else {
		s.r.excused[besides] = true
		s.excuseHead(n)
	}
	s.cur, s.skip = nil, true
}

// ofMoney reports whether a line has an amount with a currency and nothing beneath it: it
// names people, and defines nobody.
func (s *splitter) ofMoney(n int32) bool {
	l := s.f.lines[n]
	for i := l.first + 1; i+1 < l.last; i++ {
		amount, currency := s.f.word(s.f.tokens[i]), s.f.word(s.f.tokens[i+1])
		if numberish(amount) && !startsLikeDate(amount) && currencyMeant(currency) != "" {
			return !s.beneath(n, func(string, []token) bool { return true })
		}
	}
	return false
}

// cutInTwo gives the keyword that a line's first two words are together, "" where
// they are none.
func (s *splitter) cutInTwo(n int32, word string) string {
	l := s.f.lines[n]
	if l.first+1 == l.last {
		return ""
	}
	if whole := word + s.f.word(s.f.tokens[l.first+1]); slices.Contains(blockKinds, whole) {
		return whole
	}
	return ""
}

// runTogether cuts a word that is a block's keyword and what follows it without a
// space: a name or a date.
func runTogether(word string) (kind, rest string) {
	for _, kind := range blockKinds {
		rest, ok := strings.CutPrefix(word, kind)
		if ok && len(rest) > 1 && (season.IsHandle(rest) || startsLikeDate(rest)) && Nearest(word, blockKinds) != word {
			return kind, rest
		}
	}
	return "", ""
}

// strayedIn reports whether an indented line that could begin a block lacks what
// the block needs, or stands among the figures of a sequence: it is a line of a
// block, whichever.
func (s *splitter) strayedIn(word string, n int32) bool {
	switch {
	case blockSpecs[word].dated && s.cur != nil && !s.dated(n) && s.f.lines[n].first+1 < s.f.lines[n].last:
		return true
	case word == "rules":
		return !s.beneath(n, isStyleLine)
	case word == "ladder":
		return !s.beneath(n, func(first string, rest []token) bool { return first == "category" && len(rest) > 1 })
	case s.cur == nil:
		return !s.skip && s.lacks(word, n)
	default:
		return s.lacks(word, n) || word == "sequence" && s.cur.kind == word || s.resumes(word, n)
	}
}

// resumes reports whether a line belongs to the block before the one that begins
// right above it, and not to that: its first line strayed into the other.
func (s *splitter) resumes(word string, n int32) bool {
	if s.before == nil || len(s.cur.body) > 0 || blockSpecs[s.cur.kind].takes(word) || !blockSpecs[s.before.kind].takes(word) {
		return false
	}
	own := func(first string, _ []token) bool {
		return blockSpecs[s.cur.kind].takes(first) && !blockSpecs[s.before.kind].takes(first)
	}
	return !s.beneath(n, own)
}

// resume goes on with the block that a stray line broke. What that line was to
// define is not asked for; a line that is a block by itself counts.
func (s *splitter) resume(n int32) {
	stray := s.cur
	if len(blockSpecs[stray.kind].keys) > 0 {
		of := s.r.blocks[stray.kind]
		s.r.blocks[stray.kind] = of[:len(of)-1]
		s.excuseHead(stray.head)
	}
	s.cur, s.before = s.before, nil
	s.add(n)
	s.r.at(s.f, stray.headToken(0), strayHead, s.f.word(stray.headToken(0)), s.cur.kind, s.f.number(s.cur.head))
}

// excuseHead silences complaints about whatever the words of a line may name.
func (s *splitter) excuseHead(n int32) {
	l := s.f.lines[n]
	var words []string
	for _, tok := range s.f.tokens[l.first:l.last] {
		words = append(words, s.f.word(tok))
		s.r.excused[s.f.word(tok)] = true
	}
	if len(words) > 3 {
		s.r.excuseFlight(words[1:])
	}
}

// belongs reports whether an indented line that begins with a block's keyword
// is a line of the block above it, or of one that could not be read.
func (s *splitter) belongs(word string, n int32) bool {
	switch {
	case s.cur == nil:
		return s.skip && !s.dated(n) && slices.ContainsFunc(blockKinds, func(kind string) bool { return blockSpecs[kind].takes(word) })
	case blockSpecs[s.cur.kind].takes(word):
		return word != "closed" || !s.dated(n)
	case word == "closed" && !s.dated(n):
		return true // of no flight: the block above says so
	default: // a misspelt key: `flight 4` for the flights of a policy
		return blockSpecs[word].dated && !s.dated(n) && Nearest(word, blockSpecs[s.cur.kind].keys) != ""
	}
}

// dated reports whether a line's second word looks like a date.
func (s *splitter) dated(n int32) bool {
	l := s.f.lines[n]
	return l.first+1 < l.last && startsLikeDate(s.f.word(s.f.tokens[l.first+1]))
}

// strayed reports whether a line at column 0 that could begin a block is
// rather a line of the block above that lost its indent: it lacks what the
// block needs.
func (s *splitter) strayed(word string, n int32) bool {
	if s.cur == nil || !blockSpecs[s.cur.kind].takes(word) {
		return false
	}
	return s.lacks(word, n)
}

// lacks reports whether a line that begins with a block's keyword lacks what such
// a block needs, and what stands beneath it is not such a block's either.
func (s *splitter) lacks(word string, n int32) bool {
	l := s.f.lines[n]
	args := s.f.tokens[l.first+1 : l.last]
	switch word {
	case "contest":
		return (len(args) < 2 || !startsLikeDate(s.f.word(args[1]))) && !s.onlyIn("contest", n)
	case "cost", "signoff", "closed":
		return !s.dated(n)
	case "sequence":
		return !s.beneath(n, s.sequenceLine)
	case "rules":
		return s.taken(n) && !s.beneath(n, isStyleLine)
	case "ladder":
		return s.taken(n) && !s.beneath(n, func(first string, rest []token) bool {
			return first == "category" && (s.cur.kind == "contest" || len(rest) > 1)
		})
	default:
		return false
	}
}

// isStyleLine reports whether a line can only be a rule style's.
func isStyleLine(first string, _ []token) bool { return slices.Contains(styleSettings, first) }

// onlyIn reports whether a line beneath line n is one that this kind of block has
// and neither a flight nor the block above has.
func (s *splitter) onlyIn(kind string, n int32) bool {
	return s.beneath(n, func(first string, _ []token) bool {
		return blockSpecs[kind].takes(first) && !blockSpecs["flight"].takes(first) && (s.cur == nil || !blockSpecs[s.cur.kind].takes(first))
	})
}

// taken reports whether the lines beneath line n, if there are any, belong to
// the block above it.
func (s *splitter) taken(n int32) bool {
	any, ours := false, false
	s.beneath(n, func(first string, _ []token) bool {
		any = true
		ours = ours || blockSpecs[s.cur.kind].takes(first)
		return false
	})
	return ours || !any
}

// sequenceLine reports whether a line can only be a sequence's.
func (s *splitter) sequenceLine(first string, rest []token) bool {
	if first == "programme" || first == "catalogue" || first == "total" {
		return true
	}
	if !isNumber(first) && first != "positioning" && first != "harmony" || len(rest) == 0 {
		return false
	}
	word := s.f.word(rest[0])
	return word == "K" || strings.Contains(word, ":")
}

// beneath reports whether any of the indented lines that follow line n is as
// asked for.
func (s *splitter) beneath(n int32, is func(first string, rest []token) bool) bool {
	for _, l := range s.f.lines[n+1:] {
		if l.first == l.last {
			continue
		}
		tok := s.f.tokens[l.first]
		if tok.start == l.start {
			return false
		}
		if is(s.f.word(tok), s.f.tokens[l.first+1:l.last]) {
			return true
		}
	}
	return false
}

// startsLikeDate reports whether a word is meant as a date, in whatever order.
func startsLikeDate(word string) bool {
	word = dashes.Replace(word)
	return len(word) >= 5 && isNumber(word[:4]) && strings.ContainsAny(word[4:5], "-./") || strings.Count(word, ".") == 2 && isNumber(strings.ReplaceAll(word, ".", ""))
}
