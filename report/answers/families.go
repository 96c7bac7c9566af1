package answers

import (
	"strconv"

	"boxbook/report"
	"boxbook/season"
	"boxbook/season/analysis"
	"boxbook/season/analysis/code"
)

// Families is the trend groups of one category's contest flights, in JSON.
// Percents are K-weighted; shrunken, low and high are absent where too few
// groups were flown to compare their levels. tau2 and tau2Figure are the variances
// between families and between figures, tauHigh and tauHighFigure the roots that
// are not excluded, pooled that flights of a figure were enough to know what one
// varies by. DesignEffect, absent at 1, is by how much the trend's variance was
// taken to be larger because flights of one contest came out alike.
type Families struct {
	Pilot    string `json:"pilot"`
	Category string `json:"category,omitempty"`
	Flights  int    `json:"flights"`
	// LeftOut are those of the flights of which no figure has a family.
	LeftOut []string `json:"leftOut"`
	// Uncoded are the figures without a family in the others: a sequence and a number.
	Uncoded []string `json:"uncoded,omitempty"`
	Groups  []Group  `json:"groups"`
	// Percent is that of all groups together, weighed by their K.
	Percent       report.Number `json:"percent,omitzero"`
	Tau2          report.Number `json:"tau2,omitzero"`
	TauHigh       report.Number `json:"tauHigh,omitzero"`
	Tau2Figure    report.Number `json:"tau2Figure,omitzero"`
	TauHighFigure report.Number `json:"tauHighFigure,omitzero"`
	Distinct      int           `json:"distinct,omitempty"`
	Pooled        bool          `json:"pooled"`
	Compared      int           `json:"compared"`
	// Catalogues is how many catalogues the flights' sequences are of, none named being one:
	// absent where they are of one.
	Catalogues int `json:"catalogues,omitempty"`
	// LowFigures lie below the pilot's other figures by themselves, lowest first.
	LowFigures []LowFigure `json:"lowFigures,omitempty"`
	// Reason says what the shrunken levels lack where there are none.
	Reason code.Reason    `json:"reason,omitempty"`
	Limits FamiliesLimits `json:"limits"`
}

// LowFigure is one figure of one sequence, how often it was flown, and by how many
// percent points and with what chance it lies below the others. WithZero counts the
// flights in which the zero of a judge counted, without zeroing it.
type LowFigure struct {
	Figure   string        `json:"figure"`
	Flights  int           `json:"flights"`
	WithZero int           `json:"withZero,omitempty"`
	Groups   []string      `json:"groups,omitempty"`
	Gap      report.Number `json:"gap,omitzero"`
	Chance   report.Number `json:"chance,omitzero"`
}

// FamiliesLimits are the thresholds that the sentences about families name:
// those of a trend; p and q of a firm word on a trend, at the most, and of "may
// be"; how many families can be compared, at the least; the confidence of the
// interval about a level and of a spread; what a weak family and a low figure need.
type FamiliesLimits struct {
	TrendLimits
	Chance           report.Number `json:"chance"`
	MayBe            report.Number `json:"mayBe"`
	Families         int           `json:"families"`
	Confidence       report.Number `json:"confidence"`
	SpreadConfidence report.Number `json:"spreadConfidence"`
	WeakSure         report.Number `json:"weakSure"`
	MayBeWeak        report.Number `json:"mayBeWeak"`
	WeakGap          report.Number `json:"weakGap"`
	WeakFigures      int           `json:"weakFigures"`
	LowSure          report.Number `json:"lowSure"`
	LowGap           report.Number `json:"lowGap"`
	LowFlights       int           `json:"lowFlights"`
}

// Group is one trend group.
type Group struct {
	Group        string        `json:"group"`
	Figures      int           `json:"figures"`
	Flights      int           `json:"flights"`
	K            report.Number `json:"k"`
	Percent      report.Number `json:"percent"`
	WithoutZeros report.Number `json:"withoutZeros,omitzero"`
	// Zeros counts those of the figures that were zeroed.
	Zeros         int           `json:"zeros,omitempty"`
	Shrunken      report.Number `json:"shrunken,omitzero"`
	Low           report.Number `json:"low,omitzero"`
	High          report.Number `json:"high,omitzero"`
	VersusRest    report.Number `json:"versusRest,omitzero"`
	Trend         Trend         `json:"trend"`
	DesignEffect  report.Number `json:"designEffect,omitzero"`
	Q             report.Number `json:"q,omitzero"`
	LostPerFlight report.Number `json:"lostPerFlight"`
	Weak          bool          `json:"weak"`
	// WeakOne says that it lies as low, but is one figure of several sequences.
	WeakOne  bool `json:"weakOne,omitempty"`
	Contests int  `json:"contests"`
	// Distinct counts the figures that the level is of, which Of lists, and Different
	// those of them that differ in what is flown: one that stands in several sequences is
	// one. Gap is the level less the other groups', weakChance the chance that it lies below them.
	Distinct   int           `json:"distinct"`
	Different  int           `json:"different"`
	Of         []string      `json:"of,omitempty"`
	Gap        report.Number `json:"gap,omitzero"`
	WeakChance report.Number `json:"weakChance,omitzero"`
	WeakFigure string        `json:"weakFigure,omitempty"`
	// Alike are the groups with the same figures.
	Alike []string `json:"alike,omitempty"`
	// LowWith are the groups that one which lies as low as a weak one cannot be told from:
	// it does so by the figures that have both.
	LowWith []string `json:"lowWith,omitempty"`
	// First and last are the group's own percent over the first and the last ends
	// flights with it.
	First report.Number `json:"first,omitzero"`
	Last  report.Number `json:"last,omitzero"`
	Ends  int           `json:"ends,omitempty"`
}

// FamiliesOf are the families of the selection's pilot in one category, the one
// flown last where the selection names none.
func FamiliesOf(l *season.Ledger, s season.Selection) Families {
	f := analysis.FamiliesOf(l, s)
	d := Families{
		Pilot: s.Pilot.Handle, Category: f.Category, Flights: f.Flights, LeftOut: flightNames(f.Uncoded), Groups: []Group{}, Compared: f.Compared, Reason: f.Reason,
		Limits: familiesLimits(s),
	}
	if f.Catalogues > 1 {
		d.Catalogues = f.Catalogues
	}
	if f.Known {
		d.Tau2, d.TauHigh = report.Float(f.Tau2), report.Float(f.TauHigh)
		d.Tau2Figure, d.TauHighFigure = report.Float(f.FigureTau2), report.Float(f.FigureHigh)
		d.Distinct, d.Pooled = f.FamilySpread.Figures, f.Pooled
	}
	for _, figure := range f.Bare {
		d.Uncoded = append(d.Uncoded, figureOf(figure.Sequence, figure.Number))
	}
	d.LowFigures = lowFiguresOf(f.Low)
	sum, k := 0.0, 0.0
	for _, g := range f.Groups {
		group := groupOf(g)
		d.Groups = append(d.Groups, group)
		sum, k = sum+g.Percent*group.K.Float64(), k+group.K.Float64()
	}
	if k > 0 {
		d.Percent = report.Float(sum / k)
	}
	return d
}

func familiesLimits(s season.Selection) FamiliesLimits {
	return FamiliesLimits{
		TrendLimits: trendLimitsOf(s), Chance: report.Float(analysis.FirmGroup), MayBe: report.Float(analysis.MayBe),
		Families: analysis.LeastFamilies, Confidence: report.Float(analysis.FamilyConfidence),
		SpreadConfidence: report.Float(analysis.SpreadConfidence),
		WeakSure:         report.Float(analysis.WeakSure), MayBeWeak: report.Float(analysis.MayBeWeak),
		WeakGap: report.Float(analysis.WeakGap), WeakFigures: analysis.WeakFigures,
		LowSure: report.Float(analysis.LowSure), LowGap: report.Float(analysis.LowGap), LowFlights: analysis.LowFlights,
	}
}

// figureName is how a distinct figure is written: its sequence and its number.
func figureName(f analysis.DistinctFigure) string { return figureOf(f.Sequence, f.Number) }

func figureOf(seq *season.Sequence, number int) string {
	return seq.Handle + "/" + strconv.Itoa(number)
}

func groupOf(g analysis.FamilyLine) Group {
	group := Group{
		Group: g.Group, Figures: g.Figures, Flights: g.Flights, K: report.Exact(g.K), Percent: report.Float(g.Percent),
		Shrunken: report.Float(g.Shrunken), Low: report.Float(g.Low), High: report.Float(g.High),
		Trend: trendOf(g.Trend, false), Q: report.Float(g.Q), LostPerFlight: report.Exact(g.LostPerFlight),
		Weak: g.Weak, WeakOne: g.WeakOne, Contests: g.Contests, Distinct: len(g.Distinct), Different: g.Different, Gap: report.Float(g.Gap), WeakChance: report.Float(g.WeakChance),
		Alike: g.Alike, LowWith: g.LowWith, First: report.Float(g.First), Last: report.Float(g.Last), Ends: g.Ends,
	}
	for _, figure := range g.Distinct {
		group.Of = append(group.Of, figureName(figure))
	}
	if g.WeakFigure != nil {
		group.WeakFigure = figureName(*g.WeakFigure)
	}
	group.Zeros = g.Zeros
	if g.Zeros > 0 && g.Zeros < g.Figures {
		group.WithoutZeros = report.Float(g.WithoutZeros)
	}
	if g.Trend.DesignEffect > 1 {
		group.DesignEffect = report.Float(g.Trend.DesignEffect)
	}
	if g.HasRest {
		group.VersusRest = report.Float(g.VersusRest)
	}
	return group
}

func lowFiguresOf(figures []analysis.DistinctFigure) []LowFigure {
	var low []LowFigure
	for _, figure := range figures {
		low = append(low, LowFigure{
			Figure: figureName(figure), Flights: figure.Flights, WithZero: figure.WithZero, Groups: figure.Groups,
			Gap: report.Float(figure.Gap), Chance: report.Float(figure.LowChance),
		})
	}
	return low
}
