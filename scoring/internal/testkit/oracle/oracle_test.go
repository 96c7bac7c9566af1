package oracle

import (
	"math/big"
	"testing"
)

var (
	panelMean    = Style{HardZero: Majority, Half: Undecided, FillRounding: "none"}
	dropExtremes = Style{HardZero: Majority, Half: Undecided, FillRounding: "none", DropExtremes: true}
	asGraded     = Style{HardZero: AsGiven, Half: Undecided, FillRounding: "none"}
)

// panelOfThree is the sheet of three judges, five figures and positioning with
// a hard zero and an AV; maximum 1000. [derived].
func panelOfThree(style Style) Sheet {
	return Sheet{Judges: 3, Style: style, Lines: []Line{
		figure(10, "8.0 7.5 8.5"),
		figure(17, "7.5 HZ 7.0"),
		figure(13, "7.0 6.5 7.5"),
		figure(31, "6.5 6.0 7.0"),
		figure(19, "8.0 AV 7.5"),
		weighted(10, "8.0 7.5 8.0"),
	}}
}

// [derived], plain arithmetic from the stated rules.
func TestPanelOfThree(t *testing.T) {
	result := Score(panelOfThree(panelMean))
	equal(t, Filled, result.Lines[1].Ruling)
	equal(t, Filled, result.Lines[4].Ruling)
	equal(t, "", result.Lines[0].Ruling)
	equal(t, "7.5000 7.2500 7.0000", show(result.Lines[1].Filled...))
	equal(t, "8.0000 7.7500 7.5000", show(result.Lines[4].Filled...))
	equal(t, "732.0000 691.0000 741.0000", show(result.JudgeTotals...))
	equal(t, "721.3333", show(result.Raw))
	equal(t, "1000.0000", show(result.Maximum))
	equal(t, "72.1333", show(result.Percent)) // printed 72.13
}

// [derived].
func TestPanelOfThreeWithPenalty(t *testing.T) {
	sheet := panelOfThree(panelMean)
	sheet.Penalties = []*big.Rat{whole(30)}
	result := Score(sheet)
	equal(t, "721.3333", show(result.Raw))
	equal(t, "30.0000", show(result.Penalty))
	equal(t, "691.3333", show(result.Points))
	equal(t, "69.1333", show(result.Percent)) // printed 69.13
	equal(t, "691.3333", show(result.Low))
	equal(t, "691.3333", show(result.High))
}

// The first judge gives a hard zero too: a majority. The values are
// [derived], on the majority principle [memory].
func TestPanelOfThreeMajority(t *testing.T) {
	sheet := panelOfThree(panelMean)
	sheet.Lines[1].Marks[0] = HardZero
	result := Score(sheet)
	equal(t, Zeroed, result.Lines[1].Ruling)
	equal(t, "604.5000 567.7500 622.0000", show(result.JudgeTotals...))
	equal(t, "598.0833", show(result.Points))
	equal(t, "59.8083", show(result.Percent)) // printed 59.81
}

// Rounding of a filled mark, half up: 7.25 and 7.75 become 7.3 and 7.8, or 7.5
// and 8.0. [derived].
func TestPanelOfThreeFillRounding(t *testing.T) {
	for rounding, want := range map[string]string{"none": "721.3333", "0.1": "721.9333", "0.5": "724.3333"} {
		style := panelMean
		style.FillRounding = rounding
		equal(t, want, show(Score(panelOfThree(style)).Points), rounding) // printed 721.93, 724.33
	}
}

// Hard zeros from two of four judges. [derived].
func TestExactlyHalf(t *testing.T) {
	sheet := Sheet{Judges: 4, Style: panelMean, Lines: []Line{figure(10, "HZ HZ 7.0 8.0"), figure(10, "8.0 8.0 8.0 8.0")}}
	result := Score(sheet)
	line := result.Lines[0]
	equal(t, Undecided, line.Ruling)
	equal(t, "0.0000", show(line.Low))
	equal(t, "75.0000", show(line.High))
	equal(t, true, line.Filled == nil, "no filled row")
	equal(t, "nil nil nil nil", show(line.Used...))
	equal(t, "nil nil nil", show(line.Mean, line.Points, line.Lost))
	equal(t, "nil nil nil", show(result.Raw, result.Points, result.Percent))
	equal(t, true, result.JudgeTotals == nil, "no judge totals")
	equal(t, "80.0000", show(result.Low))
	equal(t, "155.0000", show(result.High))

	sheet.Penalties = []*big.Rat{whole(90), whole(10)}
	result = Score(sheet)
	equal(t, "0.0000", show(result.Low), "the low end is not below 0")
	equal(t, "55.0000", show(result.High))
}

// A grade 0.0 is no hard zero. [derived].
func TestZeroGradeIsNoHardZero(t *testing.T) {
	result := Score(Sheet{Judges: 3, Style: panelMean, Lines: []Line{figure(10, "7.0 0.0 7.0")}})
	equal(t, "", result.Lines[0].Ruling)
	equal(t, "70.0000 0.0000 70.0000", show(result.JudgeTotals...))
	equal(t, "46.6667", show(result.Points)) // printed 46.67
	equal(t, "53.3333", show(result.Lines[0].Lost))
}

// knownFlight is the flight of the example ledger: five judges, four figures,
// positioning, two penalties; maximum 800. [derived].
func knownFlight(style Style) Sheet {
	return Sheet{Judges: 5, Style: style, Penalties: []*big.Rat{whole(20), whole(30)}, Lines: []Line{
		figure(14, "8.0 7.5 8.0 8.5 7.5"),
		figure(23, "7.0 HZ 6.5 7.0 AV"),
		figure(14, "6.5 6.0 7.0 6.5 6.0"),
		figure(9, "8.0 8.0 8.5 8.0 -"),
		weighted(20, "8.0 7.5 8.0 8.0 8.5"),
	}}
}

// [derived]; the judges' totals are those printed in the example ledger.
func TestKnownFlight(t *testing.T) {
	result := Score(knownFlight(panelMean))
	equal(t, "596.0000 568.1667 596.0000 603.0000 589.2917", show(result.JudgeTotals...))
	equal(t, "590.4917", show(result.Raw))
	equal(t, "540.4917", show(result.Points))
	equal(t, "800.0000", show(result.Maximum))
	equal(t, "67.5615", show(result.Percent)) // printed 67.56
}

// [derived]; that a judge's total still holds all filled marks: [common practice].
func TestKnownFlightDropExtremes(t *testing.T) {
	result := Score(knownFlight(dropExtremes))
	equal(t, "589.1528", show(result.Raw))    // printed 589.15
	equal(t, "539.1528", show(result.Points)) // printed 539.15
	equal(t, "8.0000 nil 8.0000 nil 7.5000", show(result.Lines[0].Used...))
	equal(t, "8.0000 nil 8.0000 8.0000 nil", show(result.Lines[4].Used...), "weighted lines too")
	equal(t, "596.0000 568.1667 596.0000 603.0000 589.2917", show(result.JudgeTotals...))
}

// Styles beside the shipped ones: one setting of panelMean changed.
var (
	halfZero = Style{HardZero: Majority, Half: Zero, FillRounding: "none"}
	halfFill = Style{HardZero: Majority, Half: Fill, FillRounding: "none"}
	tenths   = Style{HardZero: Majority, Half: Undecided, FillRounding: "0.1"}
	halves   = Style{HardZero: Majority, Half: Undecided, FillRounding: "0.5"}
)

// rulings holds one row under one style, K 10: ruling, filled row, lowest and highest points.
// The majority principle and CHZ from every judge: [memory]. What a hard zero is:
// [published: iac-2018, 7.3.1]; that 0.0 and PZ are ordinary grades: [published:
// baea-major, 0.0; baea-major, PZ]; that others' mean fills: [published:
// judges-list-1996, filling]; the numbers [derived].
var rulings = []struct {
	name    string
	style   Style
	marks   string
	resolve string
	ruling  string
	filled  string
	low     string
	high    string
}{
	{"CHZ beats grades", panelMean, "8.0 CHZ 7.0", "", Zeroed, "0 0 0", "0", "0"},
	{"CHZ beats as-given", asGraded, "8.0 CHZ AV", "", Zeroed, "0 0 0", "0", "0"},
	{"CHZ beats a minority", panelMean, "8.0 CHZ HZ 7.0 7.0", "", Zeroed, "0 0 0 0 0", "0", "0"},
	{"CHZ beats exactly half", panelMean, "CHZ HZ 7.0 7.0", Fill, Zeroed, "0 0 0 0", "0", "0"},
	{"CHZ beside AV alone", panelMean, "CHZ AV -", Fill, Zeroed, "0 0 0", "0", "0"},
	{"majority of marks given", panelMean, "HZ AV - HZ 8.0", "", Zeroed, "0 0 0 0 0", "0", "0"},
	{"one of one", panelMean, "HZ", Fill, Zeroed, "0", "0", "0"},
	{"one of one beside AV", panelMean, "HZ AV AV", "", Zeroed, "0 0 0", "0", "0"},
	{"minority with AV and PZ", panelMean, "HZ AV PZ 8.0 7.0", "", Filled, "5 5 0 8 7", "50", "50"},
	{"PZ is no hard zero", panelMean, "PZ PZ 6.0", "", "", "0 0 6", "20", "20"},
	{"PZ among marks given", panelMean, "HZ PZ 6.0", "", Filled, "3 0 6", "30", "30"},
	{"half beside AV", panelMean, "HZ AV 8.0", "", Undecided, "", "0", "80"},
	{"half resolved zero", panelMean, "HZ AV 8.0", Zero, Resolved, "0 0 0", "0", "0"},
	{"half resolved fill", panelMean, "HZ AV 8.0", Fill, Resolved, "8 8 8", "80", "80"},
	{"half by style zero", halfZero, "HZ 8.0", Fill, Zeroed, "0 0", "0", "0"},
	{"half by style fill", halfFill, "HZ 8.0", Zero, Filled, "8 8", "80", "80"},
	{"as-given counts zeros", asGraded, "HZ HZ 6.0", Fill, "", "0 0 6", "20", "20"},
	{"as-given fills with zeros", asGraded, "HZ 8.0 AV", "", Filled, "0 8 4", "40", "40"},
	{"as-given, HZ is numeric", asGraded, "HZ AV", Zero, Filled, "0 0", "0", "0"},
	{"no mark", panelMean, "AV -", "", Undecided, "", "0", "100"},
	{"no mark, half by style", halfZero, "AV -", "", Undecided, "", "0", "100"},
	{"no mark, as-given", asGraded, "AV AV", "", Undecided, "", "0", "100"},
	{"no mark, fill has no effect", panelMean, "AV -", Fill, Undecided, "", "0", "100"},
	{"no mark, resolved zero", asGraded, "AV -", Zero, Resolved, "0 0", "0", "0"},
	{"no mark, drop", dropExtremes, "AV AV AV AV -", "", Undecided, "", "0", "100"},
	{"idle resolve", panelMean, "8.0 8.0", Zero, "", "8 8", "80", "80"},
	{"tenths down", tenths, "8.0 8.0 7.5 6.5 6.5 6.5 AV", "", Filled, "8 8 15/2 13/2 13/2 13/2 36/5", "502/7", "502/7"},
	{"tenths half up", tenths, "8.0 8.5 AV AV", "", Filled, "8 17/2 83/10 83/10", "331/4", "331/4"},
	{"halves down", halves, "6.0 6.5 6.0 AV", "", Filled, "6 13/2 6 6", "245/4", "245/4"},
	{"halves half up", halves, "8.0 8.5 AV AV", "", Filled, "8 17/2 17/2 17/2", "335/4", "335/4"},
	{"rounding reaches 10", halves, "10.0 9.5 AV", "", Filled, "10 19/2 10", "295/3", "295/3"},
	{"half, the range rounded", tenths, "HZ HZ 8.0 8.5", "", Undecided, "", "0", "331/4"},
	{"half, the range dropped", dropExtremes, "HZ HZ HZ 6.0 7.0 8.0", "", Undecided, "", "0", "70"},
	{"drop from the filled row", dropExtremes, "HZ 5.0 6.0 6.5 9.0", "", Filled, "53/8 5 6 13/2 9", "255/4", "255/4"},
	{"four do not drop", dropExtremes, "5.0 6.0 6.0 9.0", "", "", "5 6 6 9", "65", "65"},
}

func TestRulings(t *testing.T) {
	for _, test := range rulings {
		t.Run(test.name, func(t *testing.T) {
			line := figure(10, test.marks)
			line.Resolve = test.resolve
			got := Score(Sheet{Judges: len(line.Marks), Style: test.style, Lines: []Line{line}}).Lines[0]
			equal(t, test.ruling, got.Ruling, "ruling")
			equal(t, test.filled, exact(got.Filled...), "filled row")
			equal(t, test.low, exact(got.Low), "low")
			equal(t, test.high, exact(got.High), "high")
		})
	}
}

// Which marks are dropped: of equals the first from the left. [derived] from
// the stated choice.
func TestDroppedMarks(t *testing.T) {
	for marks, want := range map[string]string{
		"7.0 7.0 7.0 7.0 7.0":     "nil nil 7.0000 7.0000 7.0000",
		"8.0 7.0 8.0 7.0 7.5":     "nil nil 8.0000 7.0000 7.5000",
		"7.0 7.0 8.0 8.0 7.0 7.0": "nil 7.0000 nil 8.0000 7.0000 7.0000",
		"7.0 8.0 8.0 8.0 8.0":     "nil nil 8.0000 8.0000 8.0000",
		"CHZ 8.0 8.0 8.0 8.0":     "nil nil 0.0000 0.0000 0.0000",
	} {
		line := figure(10, marks)
		got := Score(Sheet{Judges: len(line.Marks), Style: dropExtremes, Lines: []Line{line}})
		equal(t, want, show(got.Lines[0].Used...), marks)
	}
}

// Points are never below 0 [common practice].
func TestPenaltyAboveRaw(t *testing.T) {
	result := Score(Sheet{Judges: 1, Style: panelMean, Lines: []Line{figure(1, "8.0")}, Penalties: []*big.Rat{whole(30)}})
	equal(t, "8.0000", show(result.Raw))
	equal(t, "0.0000 0.0000 0.0000 0.0000",
		show(result.Points, result.Percent, result.Low, result.High))
}

func TestInvalidSheetsPanic(t *testing.T) {
	valid := func() Sheet {
		return Sheet{Judges: 2, Style: panelMean, Lines: []Line{figure(10, "8.0 7.5")}, Penalties: []*big.Rat{whole(5)}}
	}
	equal(t, false, panics(func() { Score(valid()) }), "a valid sheet")
	for name, spoil := range map[string]func(*Sheet){
		"panel of none":     func(s *Sheet) { s.Judges, s.Lines = 0, nil },
		"row too short":     func(s *Sheet) { s.Lines[0].Marks = []string{"8.0"} },
		"no half point":     func(s *Sheet) { s.Lines[0].Marks[0] = "8.3" },
		"above 10":          func(s *Sheet) { s.Lines[0].Marks[0] = "10.5" },
		"unknown mark":      func(s *Sheet) { s.Lines[0].Marks[0] = "XZ" },
		"weighted with HZ":  func(s *Sheet) { s.Lines[0] = weighted(10, "HZ 7.5") },
		"weighted with PZ":  func(s *Sheet) { s.Lines[0] = weighted(10, "PZ 7.5") },
		"K 0":               func(s *Sheet) { s.Lines[0].K = 0 },
		"unknown resolve":   func(s *Sheet) { s.Lines[0].Resolve = "mean" },
		"unknown hard-zero": func(s *Sheet) { s.Style.HardZero = "" },
		"unknown half":      func(s *Sheet) { s.Style.Half = "" },
		"unknown rounding":  func(s *Sheet) { s.Style.FillRounding = "1" },
		"negative penalty":  func(s *Sheet) { s.Penalties[0] = whole(-5) },
	} {
		sheet := valid()
		spoil(&sheet)
		equal(t, true, panics(func() { Score(sheet) }), name)
	}
}
