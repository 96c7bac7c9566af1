package ledger

import (
	"fmt"

	"boxbook/report/display"
	"boxbook/scoring"
	"boxbook/season"
)

// facts reads everything of a flight that is neither set-up nor marks.
func (fr *flightReader) facts() {
	fl := fr.fl
	for _, line := range fr.lines {
		switch line.name() {
		case "penalty":
			fr.penalty(line)
		case "resolve":
			fr.resolve(line)
		case "official":
			fr.official(line)
		case "judge-totals":
			fr.judgeTotals(line)
		case "place":
			fl.Rank, fl.Of = line.rank()
			line.end()
		case "field":
			fr.field(line)
		case "fault":
			if fault, ok := line.fault(faultOn{fl.Sequence, fr.lostSequence}); ok {
				fr.addFault(fl, fault, placed{line.f, line.key})
			}
		case "reviewed":
			fr.reviewed(line)
		case "closed":
			fr.closed(line)
		case "void":
			if reason, _, ok := line.quoted("the reason in quotes"); ok {
				fl.Void = &reason
			}
			line.end()
		case "video":
			fl.Videos = append(fl.Videos, line.video())
		case "note":
			fl.Notes = append(fl.Notes, line.free())
		}
	}
	placeInVideo(fl.Faults, fl.Videos)
}

// penaltyWords are the words of a penalty line.
func penaltyWords() []string {
	words := make([]string, len(season.PenaltyKinds))
	for i, kind := range season.PenaltyKinds {
		words[i] = string(kind)
	}
	return words
}

func (fr *flightReader) penalty(line bodyLine) {
	kind, _, ok := line.choice("a penalty", penaltyWords())
	if !ok {
		return
	}
	points, _, ok := line.decimal("a number of points")
	remark := line.end()
	if ok {
		fr.fl.Penalties = append(fr.fl.Penalties, season.Penalty{Kind: season.PenaltyKind(kind), Points: points, Remark: remark})
	}
}

// resolve reads `resolve FIG zero|fill`; a weighted line may be named too.
func (fr *flightReader) resolve(line bodyLine) {
	ruling := season.Ruling{At: line.f.number(line.line) - 1}
	switch {
	case line.accept("positioning"):
		ruling.Line = scoring.Positioning
	case line.accept("harmony"):
		ruling.Line = scoring.Harmony
	default:
		var ok bool
		if ruling.Figure, ok = fr.figureNumber(line); !ok {
			return
		}
	}
	word, _, ok := line.choice("a ruling", []string{"zero", "fill"})
	if !ok {
		return
	}
	ruling.Decision = scoring.RuledZero
	if word == "fill" {
		ruling.Decision = scoring.RuledFill
	}
	ruling.Remark = line.end()
	for _, earlier := range fr.fl.Rulings {
		if earlier.Line == ruling.Line && earlier.Figure == ruling.Figure {
			line.fail(line.key, rowTwice, ruling.Name(), "ruling", earlier.At+1)
			return
		}
	}
	if !line.failed {
		fr.fl.Rulings = append(fr.fl.Rulings, ruling)
	}
}

// figureNumber takes the number of a figure that the sequence has.
func (fr *flightReader) figureNumber(line bodyLine) (int, bool) {
	n, tok, ok := line.integer("a figure's number", 1, 1<<20)
	return n, ok && fr.hasLine(bodyLine{words: line.words, key: tok, num: n}, scoring.Figure)
}

// official reads `official P [of M]`; without M it is 10 x K of the lines.
func (fr *flightReader) official(line bodyLine) {
	tokens := line.i
	points, maximum, ok := line.points()
	line.end()
	if !ok || line.failed {
		return
	}
	official := &season.Official{Points: points, Maximum: maximum, Typed: maximum != nil}
	if own := fr.maximum(); maximum == nil && own > 0 {
		official.Maximum = &scoring.Decimal{Units: int64(own)}
		if points.Cmp(*official.Maximum) > 0 {
			line.fail(line.f.tokens[tokens], pointsAboveMax, points, official.Maximum)
			return
		}
	}
	fr.fl.Official = official
}

// maximum is what the marks could come to, 0 where that cannot be told: rows
// that are missing do not make it less, but in practice, where what has a row
// is what was flown.
func (fr *flightReader) maximum() int {
	s := fr.fl.Sequence
	switch {
	case s == nil || fr.lostSequence:
		return 0
	case fr.fl.Programme != season.Practice:
		return s.Maximum()
	case fr.faulty():
		return 0
	default:
		return fr.fl.Maximum()
	}
}

func (fr *flightReader) judgeTotals(line bodyLine) {
	first := line.i
	for line.peek() != "" {
		total, _, ok := line.decimal("a judge's total")
		if !ok {
			return
		}
		fr.fl.JudgeTotals = append(fr.fl.JudgeTotals, total)
	}
	line.end()
	if n := len(fr.fl.JudgeTotals); !line.failed && !fr.lostPanel && n != len(fr.fl.Panel) {
		at := lengthPlace(after(line.key), line.f.tokens[first:first+int32(n)], len(fr.fl.Panel))
		fr.at(line.f, at, totalsCount, display.Counted(n, "total", "totals"), panelNamed(fr.fl.Panel)).rooted(fr.panel, fmt.Sprint(n))
	}
}

func (fr *flightReader) field(line bodyLine) {
	if line.peek() == "" {
		line.absent("a total")
		return
	}
	for line.peek() != "" {
		total, _, ok := line.decimal("a total")
		if !ok {
			return
		}
		fr.fl.Field = append(fr.fl.Field, total)
	}
	line.end()
}

func (fr *flightReader) reviewed(line bodyLine) {
	var review season.Review
	if line.accept("by") {
		review.By, _, _ = find(line.words, fr.names.coaches, "a coach")
	}
	line.end()
	fr.fl.Reviewed = append(fr.fl.Reviewed, review)
}

// closed reads `closed KIND` in a flight.
func (fr *flightReader) closed(line bodyLine) {
	at := place(line.f, line.line)
	if kind, ok := line.safetyKind(); ok {
		fr.closings[at] = closingLine{line.f, line.key, kind, fr.fl.Pilot, fr.fl.Date}
		fr.fl.Closed = append(fr.fl.Closed, season.Closed{Kind: kind, Remark: line.end(), At: at})
	}
}
