package answers

import (
	"math/big"

	"boxbook/report"
	"boxbook/scoring"
	"boxbook/season"
)

// Official is the printed total, with its decimals, beside the tool's own.
// Difference is official less own, absent where they cannot be compared: another
// maximum, a line undecided, a sheet missing. LessOwn is the same whatever sheets
// are missing. Explanations are what would give the printed total, the most
// plausible first.
type Official struct {
	Points   report.Number `json:"points"`
	Decimals int           `json:"decimals"`
	Maximum  report.Number `json:"maximum,omitzero"`
	// MaximumTyped says that the maximum was typed, not that of the sequence.
	MaximumTyped bool `json:"maximumTyped,omitempty"`
	// MayBePercent says that, typed as points, it is likelier a percent: nothing is then
	// looked for that would explain it.
	MayBePercent bool          `json:"mayBePercent,omitempty"`
	Percent      report.Number `json:"percent,omitzero"`
	Difference   report.Number `json:"difference,omitzero"`
	LessOwn      report.Number `json:"lessOwn,omitzero"`
	// LessShown is LessOwn of the points as they are shown, so that a reader who takes one
	// from the other comes to it.
	LessShown report.Number `json:"lessShown,omitzero"`
	// PercentLess is, of an official total that is a percent of the sequence's maximum, how
	// much more it is than the own one as that is shown; PointsLess is that in points, and
	// PointsWithin by how much the percent's rounding may leave those out, either way.
	PercentLess  report.Number   `json:"percentLess,omitzero"`
	PointsLess   report.Number   `json:"pointsLess,omitzero"`
	PointsWithin report.Number   `json:"pointsWithin,omitzero"`
	Agrees       *bool           `json:"agrees,omitempty"`
	Judges       []OfficialJudge `json:"judges,omitempty"`
	// FromJudge says that all of the difference lies in the sheet of the one judge whose
	// printed total is not the marks'.
	FromJudge bool `json:"fromJudge,omitempty"`
	// OfTotals says that the official total, which is not the marks', is the mean of the
	// judges' printed totals, less the penalties and OfTotalsLess, one that is not in the
	// ledger.
	OfTotals     bool          `json:"ofTotals,omitempty"`
	OfTotalsLess int64         `json:"ofTotalsLess,omitempty"`
	MissingTotal report.Number `json:"missingTotal,omitzero"`
	// MissingSheets says what more is known of sheets that are not to hand.
	MissingSheets *MissingSheets `json:"missingSheets,omitempty"`
	Explanations  []Explanation  `json:"explanations"`
	Fits          int            `json:"fits"`
	// Days is how long ago the flight was, absent where the ledger has no day that
	// stands for today.
	Days *int `json:"days,omitempty"`
	// Coarse says that fewer than two decimals were printed, so that chance alone
	// often fits.
	Coarse bool `json:"coarse,omitempty"`
	// Chances say, for each kind among the explanations in their order, how often
	// chance alone would be explained so; absent where a figure is undecided.
	Chances []Chance `json:"chances,omitempty"`
	// Supposed is all this as it would be were the printed maximum alone a slip for
	// the sequence's; absent where that is not supposed.
	Supposed *Official `json:"supposed,omitempty"`
}

// ProtestDays are the days after a flight beyond which a protest is probably out of
// time, whatever the rules in force say [common practice].
const ProtestDays = 14

// Chance says in how many of the totals that could be printed, none of them
// farther from the own one than the printed one is, an explanation of a kind
// would be found: Reached of Of, which is the Share.
type Chance struct {
	Kind    string        `json:"kind"`
	Reached int64         `json:"reached"`
	Of      int64         `json:"of"`
	Share   report.Number `json:"share"`
}

// OfficialJudge compares a judge's printed total with the marks': Own as they count,
// Typed as they stand on the sheet, where that is another sum.
type OfficialJudge struct {
	Judge  string        `json:"judge"`
	Points report.Number `json:"points"`
	Own    report.Number `json:"own,omitzero"`
	Typed  report.Number `json:"typed,omitzero"`
	Agrees bool          `json:"agrees"`
}

// officialOf lays the printed total beside the tool's own, with what would
// explain it, of what fits equally well a lone grade first; nil where none was typed.
func officialOf(f *season.Flight, flags []Flag) *Official {
	d := printedOf(f)
	r, ok := f.Reconcile()
	if !ok {
		return d
	}
	d.reconciled(f, r, flags)
	if d.MayBePercent {
		d.Explanations, d.Chances, d.Fits = []Explanation{}, nil, 0
	}
	if r.Supposed != nil {
		own := whole(f.Score().Maximum)
		percent := new(big.Rat).Mul(f.Official.Points.Rat(), big.NewRat(100, 1))
		d.Supposed = &Official{
			Points: d.Points, Decimals: d.Decimals, Maximum: report.Exact(own), Percent: report.Exact(percent.Quo(percent, own)),
			LessOwn: report.Exact(r.Supposed.Difference),
		}
		d.Supposed.LessShown = lessShown(f, d.Supposed.LessOwn)
		d.Supposed.reconciled(f, *r.Supposed, flags)
	}
	return d
}

// printedOf is the printed total, and whether it agrees where it is out of the
// same maximum as the own one and no sheet is missing; nil where none was typed.
func printedOf(f *season.Flight) *Official {
	o := f.Official
	if o == nil {
		return nil
	}
	d := &Official{
		Points: report.Exact(o.Points.Rat()), Decimals: o.Points.Places, Percent: report.Exact(o.Percent()),
		MaximumTyped: o.Typed, MayBePercent: f.PercentDoubt() != season.NoPercentDoubt, Explanations: []Explanation{},
	}
	if o.Maximum != nil {
		d.Maximum, d.LessOwn = report.Exact(o.Maximum.Rat()), lessOwn(f)
		d.LessShown = lessShown(f, d.LessOwn)
	}
	if d.LessOwn.Known() && f.Void == nil && len(f.Missing) == 0 {
		agrees := scoring.Agrees(f.Score().Points, o.Points)
		d.Agrees = &agrees
	}
	return d
}

// lessOwn is the printed total less the own one, where both are out of the same
// maximum.
func lessOwn(f *season.Flight) report.Number {
	score := f.Score()
	if !score.Decided() || f.Official.Maximum.Rat().Cmp(whole(score.Maximum)) != 0 {
		return report.Number{}
	}
	return report.Exact(new(big.Rat).Sub(f.Official.Points.Rat(), score.Points))
}

// PointDecimals are the decimals that points are shown with.
const PointDecimals = 2

// lessShown is how much more the printed total is than the own one as it is shown,
// where it is known how much more it is.
func lessShown(f *season.Flight, less report.Number) report.Number {
	shown, ok := new(big.Rat).SetString(report.Exact(f.Score().Points).Text(PointDecimals))
	if !less.Known() || !ok {
		return report.Number{}
	}
	return report.Exact(shown.Sub(f.Official.Points.Rat(), shown))
}

func (d *Official) reconciled(f *season.Flight, r scoring.Reconciliation, flags []Flag) {
	d.Explanations = explanationsOf(f, r.Explanations)
	loneFirst(d.Explanations, flags)
	if len(f.Missing) == 0 {
		d.Agrees = &r.Agrees
	}
	if r.Percent && r.PercentDifference != nil {
		d.ofPercent(f, r)
	}
	d.Difference, d.MissingTotal = report.Exact(r.Difference), report.Exact(r.MissingTotal)
	d.Fits, d.Coarse, d.FromJudge, d.OfTotals = r.Fits, r.Coarse, r.FromJudge, r.OfTotals
	d.OfTotalsLess = r.OfTotalsLess
	d.Judges = officialJudges(r.Judges)
	for _, c := range r.Chances {
		d.Chances = append(d.Chances, Chance{string(c.Kind), c.Reached, c.Of, report.Exact(big.NewRat(c.Reached, c.Of))})
	}
	d.MissingSheets = missingOf(r)
}

func officialJudges(all []scoring.JudgeDifference) (judges []OfficialJudge) {
	for _, j := range all {
		judge := OfficialJudge{Judge: j.Judge, Points: report.Exact(j.Printed.Rat()), Own: report.Exact(j.Own), Agrees: j.Agrees}
		if j.Own == nil || j.Own.Cmp(j.Typed) != 0 {
			judge.Typed = report.Exact(j.Typed)
		}
		judges = append(judges, judge)
	}
	return judges
}

// PercentDecimals are the decimals that percents are shown with.
const PercentDecimals = 2

// ofPercent says how far a printed percent is from the own one, both as they are shown.
func (d *Official) ofPercent(f *season.Flight, r scoring.Reconciliation) {
	score := f.Score()
	percent, ok := new(big.Rat).SetString(report.Exact(score.Percent).Text(PercentDecimals))
	points, shown := new(big.Rat).SetString(report.Exact(score.Points).Text(PointDecimals))
	if !ok || !shown {
		return
	}
	printed := f.Official.Points.Rat()
	d.PercentLess = report.Exact(percent.Sub(printed, percent))
	ofMaximum := new(big.Rat).Mul(printed, big.NewRat(int64(score.Maximum), 100))
	d.PointsLess, d.PointsWithin = report.Exact(points.Sub(ofMaximum, points)), report.Exact(r.Within)
}

// JudgesAgree reports whether every judge's printed total is the marks'.
func (o *Official) JudgesAgree() bool {
	for _, j := range o.Judges {
		if !j.Agrees {
			return false
		}
	}
	return len(o.Judges) > 0
}

// MissingSheets says how well the total of the missing sheets is known: within
// how much, give or take, or the Reason why nothing can be said of it. Rough
// says that marks were filled without the sheets, Outside that the total is
// below 0 or above Most, Uneven that it is no multiple of one half.
type MissingSheets struct {
	Within  report.Number `json:"within,omitzero"`
	Most    report.Number `json:"most,omitzero"`
	Rough   bool          `json:"rough,omitempty"`
	Outside bool          `json:"outside,omitempty"`
	Uneven  bool          `json:"uneven,omitempty"`
	Reason  string        `json:"reason,omitempty"`
}

// The codes of MissingSheets.Reason: the maximum is another, a line is undecided,
// extremes are dropped, a total of 0 may hide a larger penalty.
const (
	UnknownMaximum   = string(scoring.UnknownMaximum)
	UnknownUndecided = string(scoring.UnknownUndecided)
	UnknownExtremes  = string(scoring.UnknownExtremes)
	UnknownPenalty   = string(scoring.UnknownPenalty)
)

// missingOf says what is known of the missing sheets; nil where none is missing.
func missingOf(r scoring.Reconciliation) *MissingSheets {
	switch {
	case r.MissingUnknown != "":
		return &MissingSheets{Reason: string(r.MissingUnknown)}
	case r.MissingTotal != nil:
		return &MissingSheets{
			Within: report.Exact(r.MissingWithin), Most: report.Int(r.MissingMost),
			Rough: r.MissingRough, Outside: r.MissingOutside, Uneven: r.MissingUneven,
		}
	default:
		return nil
	}
}
