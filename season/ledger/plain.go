package ledger

import (
	"runtime"
	"strings"

	"boxbook/scoring"
	"boxbook/season"
)

// Most flights of a long ledger are plain: a contest or a panel, a sequence, rows
// of marks and what else is noted of a flight, nothing misspelt, each line with one
// reading. Their text goes straight to marks, without lines, tokens and words, in pieces side by side, for a flight
// leans on no other one. What is not plain to the last character is left to the
// reader of lines, and so is a plain flight that has a fault of meaning: whatever
// is said of a ledger is said there. A plain flight gives what that reader gives
// without a diagnostic, no more and no less (TestPlainIsCareful).

// plainFlight is a flight whose text is plain, its names not looked up yet.
type plainFlight struct {
	start, end int32 // of its text, up to the next block's first line
	at, lines  int32 // its first line in the file, from 0, and how many it has
	marks      int32 // where its marks begin in those of the piece
	key        flightKey

	day, pilot, contest, sequence word
	date                          season.Date
	label                         int16
	programme                     uint8  // its place in season.Programmes
	figures, judges               uint8  // rows of figures, marks a row
	positioning, harmony          bool   // rows of those follow, in this order
	once                          uint8  // a bit for each line that it has, by its key
	flown                         uint64 // a bit for each figure, where one was left out
	facts, factsEnd               int32  // its other lines in those of the piece
}

// word is a stretch of text that is a word.
type word struct {
	start  int32
	length int32
}

func (w word) of(text string) string { return text[w.start : w.start+w.length] }

// plainPiece is a piece of a file, from one flight's first line to another's.
type plainPiece struct {
	from, to int
	flights  []plainFlight
	marks    []scoring.Mark
	facts    []plainFact
	entered  []season.Flight // by flight, once names were looked up
	clean    []bool          // whether that is all that there is to say of it
}

// plainRun is plain flights between which nothing else stands.
type plainRun struct {
	piece    *plainPiece
	from, to int // of the piece's flights
}

// leastForTwo is how long a text must be for a second worker to be worth it.
const leastForTwo = 256 << 10

// workers is how many read side by side.
func (r *reader) workers(bytes int) int {
	switch {
	case r.opts.Workers > 0:
		return r.opts.Workers
	case bytes < leastForTwo:
		return 1
	default:
		return runtime.GOMAXPROCS(0)
	}
}

// flightStart begins a flight's first line behind another line.
const flightStart = "\nflight "

// plainPieces cuts a text into as many pieces as there are workers, at flights, and
// finds the plain flights of each.
func (r *reader) plainPieces(text string, from int) []*plainPiece {
	workers := r.workers(len(text))
	var pieces []*plainPiece
	for n := range workers {
		to := len(text)
		if nominal := max(from, len(text)/workers*(n+1)); n+1 < workers {
			i := strings.Index(text[nominal:], flightStart)
			if i < 0 {
				continue
			}
			to = nominal + i + 1
		}
		if from < to {
			pieces = append(pieces, &plainPiece{from: from, to: to})
			from = to
		}
	}
	season.Workers(workers, len(pieces), func(i int) { pieces[i].scan(text) })
	return pieces
}

// plainLines enters a file's lines: those of its plain flights as one for each run
// of them, all others token by token.
func (r *reader) plainLines(f *file, pos int) {
	pieces := r.plainPieces(f.text, pos)
	others := len(f.text)
	for _, piece := range pieces {
		for i := range piece.flights {
			others -= int(piece.flights[i].end - piece.flights[i].start)
		}
	}
	f.room(others)
	number := int32(0)
	for _, piece := range pieces {
		joined := false
		for i := range piece.flights {
			fl := &piece.flights[i]
			if pos < int(fl.start) {
				number = r.scanLines(f, pos, int(fl.start), number)
				joined = false
			}
			if !joined {
				f.runs = append(f.runs, plainRun{piece, i, i})
				f.addRun(fl, number)
			}
			f.runs[len(f.runs)-1].to = i + 1
			fl.at = number
			number, pos, joined = number+fl.lines, int(fl.end), true
		}
		number = r.scanLines(f, pos, piece.to, number)
		pos = piece.to
	}
}

// addRun adds the line that stands for a run of plain flights: the first one's,
// its keyword alone.
func (f *file) addRun(fl *plainFlight, number int32) {
	n := int32(len(f.lines))
	tok := token{start: fl.start, end: fl.start + int32(len(flightWord)), line: n}
	f.lines = append(f.lines, line{
		start: fl.start, end: tok.end, first: int32(len(f.tokens)), last: int32(len(f.tokens)) + 1, number: number, run: int32(len(f.runs)),
	})
	f.tokens = append(f.tokens, tok)
}

// flightWord begins a flight.
const flightWord = "flight"

// run takes the line that stands for plain flights.
func (s *splitter) run(n int32) {
	s.begun = true
	s.before, s.cur, s.skip = s.cur, &block{f: s.f, kind: flightWord, head: n, body: []int32{n}, run: &s.f.runs[s.f.lines[n].run-1]}, false
	s.r.blocks[flightWord] = append(s.r.blocks[flightWord], s.cur)
}

// add adds a line to the block that is being read. One that strays to plain flights
// belongs to the last of them, which is then plain no more.
func (s *splitter) add(n int32) {
	s.cur = s.r.careful(s.cur)
	s.cur.body = append(s.cur.body, n)
}

// careful gives a block with its lines; of plain flights the last one's.
func (r *reader) careful(b *block) *block {
	if b.run == nil {
		return b
	}
	b.run.to--
	last := r.unplain(b.f, &b.run.piece.flights[b.run.to])
	r.blocks[flightWord] = append(r.blocks[flightWord], last)
	return last
}

// unplain gives a plain flight as a block of lines.
func (r *reader) unplain(f *file, fl *plainFlight) *block {
	b := &block{f: f, kind: flightWord, head: int32(len(f.lines))}
	r.scanLines(f, int(fl.start), int(fl.end), fl.at)
	for n := b.head + 1; int(n) < len(f.lines); n++ {
		if l := f.lines[n]; l.first < l.last {
			b.body = append(b.body, n)
		}
	}
	return b
}
