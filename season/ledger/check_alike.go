package ledger

import (
	"math/bits"
	"runtime"
	"slices"

	"boxbook/scoring"
	"boxbook/season"
)

// Marks of a flight are enough to be told from another's where it has AlikeMarks, of so
// many different ones: a short sheet, or one of the same mark throughout, may come
// twice.
const (
	AlikeMarks     = 20
	alikeDifferent = 4
)

// checkAlike warns of a flight with exactly the marks of an earlier one of the same
// pilot on the same sequence: one sheet that was typed, or imported, twice. Pilots are
// looked at side by side, and what is found is said in the order of the flights.
func (r *reader) checkAlike() {
	flights := r.names.flights.list
	if len(flights) < 2 {
		return
	}
	keys := r.marksKeys(flights)
	parts := runtime.GOMAXPROCS(0)
	found := make([][]alike, parts)
	season.SideBySide(parts, func(part int) {
		near := nearlyAlike{flights: flights, keys: keys, before: map[flownBy]*lastFlown{}}
		first := make(map[uint64]int32, len(flights)/parts)
		for i, fl := range flights {
			if keys[i].whole == 0 || int(keys[i].pilot)%parts != part || fl.Void != nil || r.broken[fl] {
				continue
			}
			earlier, known := first[keys[i].whole]
			if !known {
				first[keys[i].whole] = int32(i)
				if other, marks, apart := near.to(i); other != nil {
					found[part] = append(found[part], alike{i, other, marks, apart})
				}
				continue
			}
			if other := flights[earlier]; sameMarks(fl, other) && sameResult(fl, other) {
				found[part] = append(found[part], alike{flight: i, other: other})
			}
		}
	})
	all := slices.Concat(found...)
	slices.SortFunc(all, func(a, b alike) int { return a.flight - b.flight })
	for _, found := range all {
		r.warnAlike(flights[found.flight], found)
	}
}

// alike is a flight, by its place in the list, with an earlier one that has its marks: all
// of them, or all but so many.
type alike struct {
	flight       int
	other        *season.Flight
	marks, apart int
}

func (r *reader) warnAlike(fl *season.Flight, found alike) {
	b := r.blockAt(fl.At)
	line := lineText(found.other.At, b.f)
	if found.apart == 0 {
		r.at(b.f, b.headToken(0), marksAlike, found.other.Name, line)
		return
	}
	too := ""
	if fl.Official != nil && found.other.Official != nil {
		too = ", and its official total"
	}
	r.at(b.f, b.headToken(0), marksNearly, found.apart, found.marks, found.other.Name, line, too)
}

// Marks of a flight that nearly all are those of another are one sheet typed again with a
// mark mended, where there are nearlyMarks and at most nearlyApart differ; flownLast is how
// many flights back are looked at.
const (
	nearlyMarks = 40
	nearlyApart = 2
	flownLast   = 4
)

// flownBy are the flights of a pilot on a sequence.
type flownBy struct {
	pilot    *season.Pilot
	sequence *season.Sequence
}

// lastFlown are the last flights of a pilot on a sequence, by number from 1, the latest at
// next-1.
type lastFlown struct {
	flights [flownLast]int32
	next    int
}

// nearlyAlike finds the flight before one that has all but one or two of its marks. What
// little of a sheet's key tells apart is never read again.
type nearlyAlike struct {
	flights []*season.Flight
	keys    []sheetKey
	before  map[flownBy]*lastFlown
}

// to is a flight of the same programme that the i-th nearly is, with its marks and how many
// of them differ; nil for none.
// Practice, in which a figure is often graded alike, is left out, and a note that the other
// lacks says that both were flown.
func (n nearlyAlike) to(i int) (found *season.Flight, marks, apart int) {
	fl := n.flights[i]
	if fl.Programme == season.Practice {
		return nil, 0, 0
	}
	by := flownBy{fl.Pilot, fl.Sequence}
	last := n.before[by]
	if last == nil {
		last = &lastFlown{}
		n.before[by] = last
	}
	for _, number := range last.flights {
		if number == 0 || !n.keys[i].near(n.keys[number-1]) {
			continue
		}
		other := n.flights[number-1]
		if other.Programme != fl.Programme || !maybeOneResult(fl, other) || notedApart(fl, other) {
			continue
		}
		if marks, apart = marksApart(fl, other); marks >= nearlyMarks && apart > 0 && apart <= nearlyApart {
			found = other
			break
		}
	}
	last.flights[last.next%flownLast] = int32(i) + 1
	last.next++
	return found, marks, apart
}

// notedApart reports whether a flight has a note that another lacks.
func notedApart(fl, other *season.Flight) bool {
	return slices.ContainsFunc(fl.Notes, func(note string) bool { return !slices.Contains(other.Notes, note) })
}

// marksApart counts a flight's marks, and those that differ from another's: more than
// nearlyApart where it is plain that they do.
func marksApart(a, b *season.Flight) (marks, apart int) {
	if len(a.Panel) != len(b.Panel) || a.Rows.Len() != b.Rows.Len() {
		return 0, nearlyApart + 1
	}
	hold := func(one, other []scoring.Mark) bool {
		marks += len(one)
		if len(one) != len(other) {
			apart = nearlyApart + 1
			return false
		}
		for i := range one {
			if one[i] != other[i] {
				apart++
			}
		}
		return apart <= nearlyApart
	}
	for i := range a.Rows.Len() {
		if !hold(a.Rows.Marks(i), b.Rows.Marks(i)) {
			return marks, apart
		}
	}
	for _, row := range [][2]*season.Row{{a.Positioning, b.Positioning}, {a.Harmony, b.Harmony}} {
		switch {
		case row[0] == nil && row[1] == nil:
		case row[0] == nil || row[1] == nil:
			return marks, nearlyApart + 1
		case !hold(row[0].Marks, row[1].Marks):
			return marks, apart
		}
	}
	return marks, apart
}

// maybeOneResult reports whether the printed totals and the penalties of two flights may
// be those of one.
func maybeOneResult(a, b *season.Flight) bool {
	penalties := func(x, y season.Penalty) bool { return x.Points.Cmp(y.Points) == 0 }
	same := a.Style == b.Style && slices.EqualFunc(a.Penalties, b.Penalties, penalties)
	return same && (a.Official == nil || b.Official == nil || a.Official.Points.Cmp(b.Official.Points) == 0)
}

// marksKeys are the numbers of flights' marks; some at a time, side by side.
func (r *reader) marksKeys(flights []*season.Flight) []sheetKey {
	const together = 128
	keys := make([]sheetKey, len(flights))
	season.SideBySide((len(flights)+together-1)/together, func(n int) {
		for i := n * together; i < min((n+1)*together, len(flights)); i++ {
			keys[i] = r.marksKey(flights[i])
		}
	})
	return keys
}

// sheetParts is in how many parts the lines of a sheet are taken in turn: more than marks
// may differ of two that are nearly alike, so that some of these are the same.
const sheetParts = nearlyApart + 2

// sheetKey is what is the same of the same marks: whole is a number that two flights of one
// pilot on one sequence with the same marks share, 0 where there are too few marks to say
// anything, and parts are numbers of the marks alone, a part each. Pilots are numbered.
type sheetKey struct {
	whole uint64
	parts [sheetParts]uint32
	pilot uint32
}

// near reports whether so few parts differ that so few marks may.
func (k sheetKey) near(other sheetKey) bool {
	apart := 0
	for i, part := range k.parts {
		if part != other.parts[i] {
			apart++
		}
	}
	return apart <= nearlyApart
}

// marksKey is a flight's.
func (r *reader) marksKey(fl *season.Flight) (sheet sheetKey) {
	const prime, partPrime = 0x9E3779B97F4A7C15, 0x9E3779B1 // odd, their bits well mixed
	if fl.Sequence == nil || fl.Pilot == nil {
		return sheet
	}
	sheet.pilot = uint32(r.names.flights.pilots[fl.Pilot])
	key := uint64(sheet.pilot)
	marks, grades := 0, uint32(0)
	var different [int(scoring.Absent) + 1]uint32 // bits of half points, a kind each; grades apart
	add := func(line int, row []scoring.Mark) {
		word := uint64(line)
		for _, m := range row {
			word = word*prime + uint64(m.Kind)<<8 + uint64(m.Half)
			if m.Kind == scoring.Grade {
				grades |= 1 << m.Half
			} else {
				different[m.Kind] |= 1 << m.Half
			}
		}
		key = (key ^ word) * prime
		key ^= key >> 29
		part := &sheet.parts[uint(line)%sheetParts]
		*part = (*part ^ uint32(word>>32)) * partPrime
		marks += len(row)
	}
	fl.Rows.Each(add)
	for i, row := range []*season.Row{fl.Positioning, fl.Harmony} {
		if row != nil {
			add(-1-i, row.Marks)
		}
	}
	kinds := bits.OnesCount32(grades)
	for _, halves := range different {
		kinds += bits.OnesCount32(halves)
	}
	if marks < AlikeMarks || kinds < alikeDifferent {
		return sheetKey{}
	}
	sheet.whole = key | 1
	return sheet
}

// sameMarks reports whether two flights have the same marks, mark by mark.
func sameMarks(a, b *season.Flight) bool {
	weighted := func(a, b *season.Row) bool {
		return (a == nil) == (b == nil) && (a == nil || slices.Equal(a.Marks, b.Marks))
	}
	if a.Pilot != b.Pilot || a.Sequence != b.Sequence || a.Rows.Len() != b.Rows.Len() || !weighted(a.Positioning, b.Positioning) || !weighted(a.Harmony, b.Harmony) {
		return false
	}
	for i := range a.Rows.Len() {
		one, other := a.Rows.At(i), b.Rows.At(i)
		again := func(x, y season.Row) bool { return slices.Equal(x.Marks, y.Marks) }
		if !slices.Equal(one.Marks, other.Marks) || !slices.EqualFunc(one.Again, other.Again, again) {
			return false
		}
	}
	return true
}

// sameResult reports whether what else is known of two flights with the same marks is
// no sign that they are two: they are scored alike, and no printed total says otherwise.
func sameResult(a, b *season.Flight) bool {
	penalties := func(x, y season.Penalty) bool { return x.Points.Cmp(y.Points) == 0 }
	if a.Style != b.Style || !slices.Equal(a.Rulings, b.Rulings) || !slices.EqualFunc(a.Penalties, b.Penalties, penalties) {
		return false
	}
	if a.Official != nil && b.Official != nil {
		return a.Official.Points.Cmp(b.Official.Points) == 0
	}
	return printedAgrees(a) && printedAgrees(b)
}

// printedAgrees reports whether a printed total is what the marks come to, or there is
// none to compare. No score stays with the flight.
func printedAgrees(fl *season.Flight) bool {
	if fl.Official == nil || len(fl.Missing) > 0 {
		return true
	}
	score := fl.Sheet().Score()
	return !score.Decided() || scoring.Agrees(score.Points, fl.Official.Points)
}

// blockAt is the flight's block that begins at a place, with its lines.
func (r *reader) blockAt(at season.Place) *block {
	if r.flightBlocks == nil {
		r.flightBlocks = map[season.Place]flightBlock{}
		for _, b := range r.blocks[flightWord] {
			if b.run == nil {
				r.flightBlocks[place(b.f, b.head)] = flightBlock{block: b}
				continue
			}
			for i := b.run.from; i < b.run.to; i++ {
				plain := &b.run.piece.flights[i]
				r.flightBlocks[season.Place{File: b.f.name, Line: int(plain.at) + 1}] = flightBlock{b, plain}
			}
		}
	}
	found := r.flightBlocks[at]
	if found.plain == nil {
		return found.block
	}
	return r.unplain(found.block.f, found.plain)
}

// flightBlock is where a flight stands: in its own block, or in one of plain flights.
type flightBlock struct {
	block *block
	plain *plainFlight
}
