package words

import "fmt"

// Term is a word of the workbook and what it means.
type Term struct{ Word, Meaning string }

// MarkTerms explain the marks.
func MarkTerms() []Term {
	return []Term{
		{"0.0 to 10.0", "grade in half points; 0.0 is the right figure with ten or more points of faults"},
		{"HZ", "hard zero: a matter of fact; what it does depends on the panel and the rules"},
		{"CHZ", "hard zero confirmed by the chief judge: the figure is zero from every judge"},
		{"PZ", "perception zero: counts as an ordinary 0 in the mean"},
		{"AV (or A)", "the judge did not see the figure: filled with the mean of the row's other numbers"},
		{"-", "nothing on the sheet: filled likewise; so is a seat of the panel left empty"},
	}
}

// SettingTerms explain the settings of a rule style; extremes are dropped in
// panels of so many judges or more.
func SettingTerms(dropPanel int) []Term {
	return []Term{
		{ColumnHardZero, "majority: zero from all when more than half of the judges who gave a mark saw one, fewer are filled; as-given: each counts as 0"},
		{ColumnExactlyHalf, "what follows when exactly half saw a hard zero: undecided until the column " + ColumnResolve + " says zero or fill, or zero, or fill"},
		{ColumnFillRounding, "none, to 0.1 or to 0.5, half up"},
		{ColumnDropExtremes, fmt.Sprintf("yes: one highest and one lowest mark of each line stand outside the mean, in panels of %d or more", dropPanel)},
	}
}

// SheetTerms explain the workbook itself.
func SheetTerms() []Term {
	return []Term{
		{GradesSheet, "change a grade, type HZ or AV, and every number that hangs on it follows; tinted cells are formulas"},
		{RemarksSheet, "one row per fault, as noted, with the grade that the faults of its figure leave (" + ColumnExpected + ") and the panel's (" + ColumnGiven + "); notes and reviews behind those of each flight"},
		{"working columns", "folded away at the right of " + GradesSheet + " and " + FlightsSheet + ": open them with the + above the sheet to see the steps"},
		{"italic numbers", WorkedOut + ": statistics, and all numbers of the sheets " + PanelSheet + " and " + FaultsSheet},
		{"grey italic rows", "on " + FlightsSheet + ": practice and void flights, left out of every statistic of the season"},
		{ElementsSheet, "each figure's loss shared out among its elements, which the sheet " + FamiliesSheet + " adds up"},
		{"undecided", "a row without points; its flight then has no points and no percent either"},
		{"record", "what the season counts: the official total where one was typed, else the sum of the marks"},
	}
}
