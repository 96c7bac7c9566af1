package ledger

import (
	"fmt"
	"math/big"
	"slices"

	"boxbook/report/display"
	"boxbook/scoring"
	"boxbook/season"
)

// checkField warns where the flight's own total is not among the field's, and
// where the place is not what the field makes it.
func (fr *flightReader) checkField() {
	if len(fr.fl.Field) == 0 {
		return // without one nothing is worked out while reading
	}
	own := fr.fl.RecordPoints()
	if own == nil {
		return
	}
	there := slices.ContainsFunc(fr.fl.Field, func(total scoring.Decimal) bool { return scoring.Agrees(own, total) })
	all := len(fr.fl.Field)
	if !there {
		all++
		fr.warnField(own, all)
	}
	fr.checkPlace(own, all)
}

// warnField says that the own total joins those of the field, all of them then.
func (fr *flightReader) warnField(own *big.Rat, all int) {
	line, _ := fr.lineNamed("field")
	if fr.fl.Of > 0 && all > fr.fl.Of {
		fr.at(line.f, line.key, notInField, display.FixedRat(own, 2), fmt.Sprintf(" and makes %d of %d", all, fr.fl.Of)).
			hinted("compare both with the printed result: one is mistyped, or the own marks or penalties are")
		return
	}
	fr.at(line.f, line.key, notInField, display.FixedRat(own, 2), "")
}

// checkPlace holds the place against the totals that are higher than the own one:
// of a field that is not all there, no more than that they are not too many.
func (fr *flightReader) checkPlace(own *big.Rat, all int) {
	rank, of := fr.fl.Rank, fr.fl.Of
	line, typed := fr.lineNamed("place")
	if !typed || rank == 0 || of > 0 && all > of {
		return
	}
	higher := 0
	for _, total := range fr.fl.Field {
		if total.Rat().Cmp(own) > 0 && !scoring.Agrees(own, total) {
			higher++
		}
	}
	if first := higher + 1; rank < first || of > 0 && rank > first+of-all {
		fr.at(line.f, line.key, placeNotField, rank, display.Counted(higher, "total", "totals"), display.FixedRat(own, 2)).
			hinted("compare `place` and `field` with the printed result")
	}
}

// checkMaximum warns where the printed total is out of a typed maximum that is not the
// sequence's, and no marks show by their percent that it is the right one.
func (fr *flightReader) checkMaximum() {
	own := fr.fl.OtherMaximum()
	if own == 0 || fr.fl.Void != nil || fr.fl.Programme == season.Practice {
		return
	}
	why := "no marks say which is right"
	if r, ok := fr.fl.Compare(); ok && len(fr.fl.Missing) == 0 {
		if r.Agrees {
			return
		}
		why = "the percents differ"
	}
	line, _ := fr.lineNamed("official")
	fr.at(line.f, line.f.tokens[line.last-1], otherMaximum, fr.fl.Official.Maximum, own, why)
}

// checkPercent warns where the printed total, typed as points, is likelier a percent. The
// edit is made only where the marks make that very percent.
func (fr *flightReader) checkPercent() {
	doubt := fr.fl.PercentDoubt()
	if doubt == season.NoPercentDoubt {
		return
	}
	o, beside := fr.fl.Official, ""
	if doubt != season.FewPoints {
		beside = fmt.Sprintf(", and the marks make %s%%", display.FixedRat(fr.fl.Total().Percent(), 2))
	}
	line, _ := fr.lineNamed("official")
	first, last := line.f.tokens[line.last-1], line.f.tokens[line.last-1]
	for i := line.last - 1; line.f.tokens[i] != line.key; i-- {
		switch tok := line.f.tokens[i]; {
		case tok.quoted:
			last = line.f.tokens[i-1]
		default:
			first = tok
		}
	}
	d := fr.at(line.f, first, percentAsPoints, o.Points, fr.fl.Maximum(), display.FixedRat(o.Percent(), 2), beside)
	s := d.at
	s.end = last.end
	d.adviseFor(s, instead("write %s", o.Points.String()+" of 100").unless(doubt != season.PercentOfMarks))
}

// lineNamed is the flight's line that begins with a word.
func (fr *flightReader) lineNamed(word string) (bodyLine, bool) {
	i := slices.IndexFunc(fr.lines, func(line bodyLine) bool { return line.name() == word })
	if i < 0 {
		return bodyLine{}, false
	}
	return fr.lines[i], true
}
