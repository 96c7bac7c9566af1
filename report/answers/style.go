package answers

import (
	"boxbook/scoring"
	"boxbook/season"
)

// RuleStyle is how marks are counted: the settings of a rule style as codes,
// those that a ledger types.
type RuleStyle struct {
	Name string `json:"name"`
	// HardZero is Majority or AsGiven.
	HardZero string `json:"hardZero"`
	// Half is what a hard zero from exactly half of the judges does:
	// HalfUndecided, HalfZero or HalfFill.
	Half string `json:"half"`
	// FillRounding is Unrounded, ToTenth or ToHalf.
	FillRounding string `json:"fillRounding"`
	// DropExtremes says that one highest and one lowest mark of a line are left
	// out of the mean, in panels of DropPanel judges or more.
	DropExtremes bool `json:"dropExtremes"`
	DropPanel    int  `json:"dropPanel"`
}

// The codes of a rule style's settings.
const (
	Majority = "majority"
	AsGiven  = "as-given"

	HalfUndecided = "undecided"
	HalfZero      = "zero"
	HalfFill      = "fill"

	Unrounded = "none"
	ToTenth   = "0.1"
	ToHalf    = "0.5"
)

// StyleOf gives a rule style's settings; nil is the default style, for a flight
// that has none.
func StyleOf(s *season.RuleStyle) RuleStyle {
	style := scoring.Style{Name: season.DefaultStyle} // the zero style is the default one
	if s != nil {
		style = s.Style
	}
	return RuleStyle{
		Name: style.Name, HardZero: style.HardZero.String(), Half: style.Half.String(),
		FillRounding: style.FillRounding.String(), DropExtremes: style.DropExtremes, DropPanel: scoring.DropPanel,
	}
}

// StylesOf lists every rule style of the ledger, in its order.
func StylesOf(l *season.Ledger) []RuleStyle {
	styles := make([]RuleStyle, len(l.Styles))
	for i, s := range l.Styles {
		styles[i] = StyleOf(s)
	}
	return styles
}
