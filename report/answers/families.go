package answers

import (
	"boxbook/report"
	"boxbook/season"
	"boxbook/season/analysis"
)

// Families is the trend groups of one category's contest flights, in JSON.
// Percents are K-weighted; shrunken, low and high are absent where too few
// groups were flown to tell their spread from chance. DesignEffect, absent at 1,
// is by how much the trend's variance was taken to be larger because flights of
// one contest came out alike.
type Families struct {
	Pilot    string        `json:"pilot"`
	Category string        `json:"category,omitempty"`
	Flights  int           `json:"flights"`
	Groups   []Group       `json:"groups"`
	Tau2     report.Number `json:"tau2,omitzero"`
	TauHigh  report.Number `json:"tauHigh,omitzero"`
	Compared int           `json:"compared"`
	// Reason says what the shrunken levels lack where there are none.
	Reason FamiliesReason `json:"reason,omitempty"`
	Limits FamiliesLimits `json:"limits"`
}

// FamiliesReason says why the levels of families cannot be compared.
type FamiliesReason = analysis.FamiliesReason

// The reasons why levels cannot be compared.
const (
	FewFamilies  = analysis.FewFamilies
	NoTwoFigures = analysis.NoTwoFigures
	NoScatter    = analysis.NoScatter
)

// FamiliesLimits are the thresholds that the sentences about families name:
// those of a trend; p and q of a firm word on a trend, at the most; how many
// families can be compared, at the least; the confidence of the interval about a
// level.
type FamiliesLimits struct {
	TrendLimits
	Chance     report.Number `json:"chance"`
	Families   int           `json:"families"`
	Confidence report.Number `json:"confidence"`
}

// Group is one trend group.
type Group struct {
	Group         string        `json:"group"`
	Figures       int           `json:"figures"`
	Flights       int           `json:"flights"`
	K             report.Number `json:"k"`
	Percent       report.Number `json:"percent"`
	WithoutZeros  report.Number `json:"withoutZeros,omitzero"`
	Shrunken      report.Number `json:"shrunken,omitzero"`
	Low           report.Number `json:"low,omitzero"`
	High          report.Number `json:"high,omitzero"`
	VersusRest    report.Number `json:"versusRest,omitzero"`
	Trend         Trend         `json:"trend"`
	DesignEffect  report.Number `json:"designEffect,omitzero"`
	Q             report.Number `json:"q,omitzero"`
	LostPerFlight report.Number `json:"lostPerFlight"`
	Weak          bool          `json:"weak"`
	Contests      int           `json:"contests"`
}

// FamiliesOf are the families of the selection's pilot in one category, the one
// flown last where the selection names none.
func FamiliesOf(l *season.Ledger, s season.Selection) Families {
	f := analysis.FamiliesOf(l, s)
	d := Families{
		Pilot: s.Pilot.Handle, Category: f.Category, Flights: f.Flights, Groups: []Group{}, Compared: f.Compared, Reason: f.Reason,
		Limits: FamiliesLimits{
			TrendLimits: trendLimits(), Chance: report.Float(analysis.FirmGroup),
			Families: analysis.LeastFamilies, Confidence: report.Float(analysis.FamilyConfidence),
		},
	}
	if f.Shrunk {
		d.Tau2, d.TauHigh = report.Float(f.Tau2), report.Float(f.TauHigh)
	}
	for _, g := range f.Groups {
		d.Groups = append(d.Groups, groupOf(g))
	}
	return d
}

func groupOf(g analysis.FamilyLine) Group {
	group := Group{
		Group: g.Group, Figures: g.Figures, Flights: g.Flights, K: report.Exact(g.K), Percent: report.Float(g.Percent),
		Shrunken: report.Float(g.Shrunken), Low: report.Float(g.Low), High: report.Float(g.High),
		Trend: trendOf(g.Trend, false), Q: report.Float(g.Q), LostPerFlight: report.Exact(g.LostPerFlight),
		Weak: g.Weak, Contests: g.Contests,
	}
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
