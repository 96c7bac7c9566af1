package analysis

import (
	"math"

	"boxbook/season/analysis/code"
	"boxbook/season/stats"
)

// thresholdGate asks how sure it is that at least the wanted share of flights
// would reach the mark at the pilot's present level. Flights at the category
// asked for are judged by themselves as well: what they surely do not reach
// counts, what they leave open is only said.
func (s *readinessState) thresholdGate(g *Gate) bool {
	mark, want := s.number("threshold", 0), s.number("share", 0)
	present := PresentIn(s.l, s.r.Pilot, s.r.From)
	g.reachedBy(present, mark)
	share, known := s.shareAt(present, mark, want)
	if known {
		g.State = share.State
		g.levelOf(present)
		g.shareOf(share)
		g.aircraftOf(present)
		g.restsOnTotals(present, mark)
	} else {
		g.open(present.Reason)
		g.count(code.LeastFlights, PresentFlights)
		g.count(code.LeastContests, PresentContests)
	}
	if s.r.To != "" && s.r.To != s.r.From {
		s.atTheCategoryAsked(g, PresentIn(s.l, s.r.Pilot, s.r.To), mark, want)
	}
	return true
}

// shareAt is the present's, without its ends where the states alone are asked for.
func (s *readinessState) shareAt(present Present, mark, want float64) (Share, bool) {
	if !s.statesOnly {
		return present.ShareAt(mark, want)
	}
	share, _, known := present.stateAt(mark, want)
	return share, known
}

// reachedBy is the plain count beside it.
func (g *Gate) reachedBy(present Present, mark float64) {
	above, n := present.reached(mark), len(present.Flights)
	g.count(code.Have, above)
	g.count(code.Results, n)
	g.count(code.Contests, present.Contests)
	if present.Aside > 0 {
		g.add(Fact{Code: code.Aside, Text: present.Catalogue, Number: float64(present.Aside)})
	}
	if count, err := stats.Wilson(above, n, ShareConfidence); err == nil {
		g.add(Fact{Code: code.ResultsShare, Number: float64(above) / float64(n), Low: count.Low, High: count.High, Confidence: ShareConfidence})
	}
}

// restsOnTotals says of a gate that is met how many of the results that reach the mark do
// so by a printed total alone, which does not agree with marks that are below it.
func (g *Gate) restsOnTotals(present Present, mark float64) {
	if g.State != code.Met {
		return
	}
	disputed, byTotals := 0, 0
	for i, percent := range recordPercents(present.Flights) {
		f := present.Flights[i]
		if f.Disputed() == nil {
			continue
		}
		disputed++
		if own, _ := f.Score().Percent.Float64(); percent >= mark && own < mark {
			byTotals++
		}
	}
	if byTotals > 0 {
		g.Against = true
		g.because(code.ByTotals)
		g.count(code.Disputed, disputed)
		g.count(code.ByTotalsAlone, byTotals)
	}
}

// levelOf notes the level that the share is of, and what qualifies it.
func (g *Gate) levelOf(present Present) {
	if level, ok := present.Level(); ok {
		g.add(Fact{Code: code.LevelNow, On: present.On, Number: level.Percent, Low: level.Low, High: level.High, Confidence: LevelConfidence})
	}
	for _, why := range present.Qualified() {
		g.because(why)
		if why == code.NoDriftSeen {
			g.add(Fact{Code: code.RangeHolds, Number: math.NaN(), Low: ThreeContestsHold.Low, High: ThreeContestsHold.High, Confidence: math.NaN()})
		}
	}
}

// aircraftOf notes that the flights were flown in several aircraft, where one gave way to
// another.
func (g *Gate) aircraftOf(present Present) {
	if m := present.Aircraft(); m.Changed {
		g.count(code.AircraftNamed, m.Named)
		g.count(code.AircraftNone, m.Unnamed)
	}
}

func (g *Gate) shareOf(share Share) {
	g.add(fact(code.Next, "", share.Next), fact(code.Sure, "", share.Sure))
	g.add(Fact{Code: code.Share, Number: math.NaN(), Low: share.Low, High: share.High, Confidence: ShareConfidence})
	if share.Doubted() {
		g.Against = true
		g.because(code.OnlyIfSteady)
		g.add(fact(code.SureMoving, "", share.SureMoving))
	}
	if share.CountDiffers {
		g.because(code.CountDiffers)
		g.count(code.Expected, share.Expected)
	}
	if share.Few {
		g.because(code.FewToBeMet)
		g.count(code.MetContests, LeastDriftContests)
		g.count(code.MetFlights, LeastMetFlights)
	}
}

// atTheCategoryAsked judges what was flown there.
func (s *readinessState) atTheCategoryAsked(g *Gate, present Present, mark, want float64) {
	if len(present.Flights) == 0 {
		return
	}
	above, n := present.reached(mark), len(present.Flights)
	g.add(fact(code.AskedHave, present.Category, float64(above)), fact(code.AskedResults, present.Category, float64(n)))
	share, known := s.shareAt(present, mark, want)
	if known {
		g.add(fact(code.AskedSure, present.Category, share.Sure))
		g.add(Fact{Code: code.AskedShare, Name: present.Category, Number: math.NaN(), Low: share.Low, High: share.High, Confidence: ShareConfidence})
	}
	if known && share.State == code.NotMet {
		g.State = code.NotMet
		g.because(code.AskedNotMet)
	}
}
