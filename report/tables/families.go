package tables

import (
	"slices"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/words"
)

// LevelTable has a row a family: what it scored, and its level beside the others'.
func LevelTable(d answers.Families) *report.Table {
	t := &report.Table{Key: 1, Columns: []report.Column{
		{Title: words.ColumnFamily, Wrapped: true, Min: 16},
		{Title: words.ColumnFigures, Align: report.Right},
		{Title: words.ColumnDistinct, Align: report.Right},
		{Title: words.ColumnKFlown, Align: report.Right, Drop: 3},
		{Title: words.ColumnPercent, Align: report.Right},
		{Title: words.ColumnShrunken, Align: report.Right},
		{Title: words.RangeFrom(d.Limits.Confidence), Align: report.Right},
		{Title: words.ColumnTo, Align: report.Right},
		{Title: words.ColumnLostAFlight, Align: report.Right, Drop: 2},
		{Title: words.ColumnVerdict, Drop: 1},
	}}
	for _, g := range d.Groups {
		low, level, high := words.FamilyRange(g, d.Limits.Confidence).Cells()
		t.Rows = append(t.Rows, []report.Cell{
			report.Text(words.GroupTitle(g.Group)), CountCell(g.Figures), CountCell(g.Different), report.Num(g.K, 0), percentOf(g),
			level, low, high, report.Num(g.LostPerFlight, 1), levelVerdict(g),
		})
	}
	return t
}

// FamilyTableBrief has a row a family: what it scored, beside the rest of the same
// flights, what it cost, and the two verdicts without their tests.
func FamilyTableBrief(d answers.Families) *report.Table {
	t := &report.Table{Key: 1, Columns: []report.Column{
		{Title: words.ColumnFamily, Wrapped: true, Min: 16, Key: briefFamily},
		{Title: words.ColumnPercent, Align: report.Right, Key: briefPercent},
		{Title: words.ColumnVsRest, Align: report.Right, Key: briefVsRest},
		{Title: words.ColumnLostAFlight, Align: report.Right, Key: briefLost},
		{Title: words.ColumnLevel, Key: briefLevel},
		{Title: words.ColumnTrend, Wrapped: true, Min: 14, Key: briefTrend},
	}}
	for _, g := range d.Groups {
		level := report.Empty()
		if g.Weak {
			level = levelVerdict(g)
		}
		t.Rows = append(t.Rows, []report.Cell{
			report.Text(words.GroupTitle(g.Group)), percentOf(g), report.Signed(g.VersusRest, 1), report.Num(g.LostPerFlight, 1),
			level, wordCell(g.Trend.Word, words.FamilyTrend(d, g.Trend.Word)),
		})
	}
	switch {
	case !hasVersusRest(d): // nor can a family be called weak
		return only(t, briefFamily, briefPercent, briefLost, briefTrend)
	case !slices.ContainsFunc(d.Groups, func(g answers.Group) bool { return g.Weak }):
		return only(t, briefFamily, briefPercent, briefVsRest, briefLost, briefTrend)
	}
	return t
}

// The keys of the brief table's columns.
const (
	briefFamily  = "family"
	briefPercent = "percent"
	briefVsRest  = "vs-rest"
	briefLost    = "lost"
	briefLevel   = "level"
	briefTrend   = "trend"
)

// hasVersusRest reports whether a family can be compared with the rest of its flights, or
// is weak.
func hasVersusRest(d answers.Families) bool {
	return slices.ContainsFunc(d.Groups, func(g answers.Group) bool { return g.VersusRest.Known() || g.Weak })
}

// percentOf is a family's percent, marked where zeroed figures are in it.
func percentOf(g answers.Group) report.Cell {
	percent := report.Num(g.Percent, words.PercentDecimals)
	if g.WithoutZeros.Known() {
		return percent.Marked(words.ZeroSign)
	}
	return percent
}

// levelVerdict says whether a family is weak; of one distinct figure nothing is
// said of a family.
func levelVerdict(g answers.Group) report.Cell {
	text := words.LevelVerdict(g)
	switch {
	case text == "":
		return report.Empty()
	case g.Weak:
		return report.Text(text).Toned(report.Bad)
	default:
		return report.Text(text).Toned(report.Faint)
	}
}

// FamilyNotesBrief say what must be known beside the brief table.
func FamilyNotesBrief(d answers.Families) *report.Notes {
	notes := familyNotes(d)
	if words.SaysLevels(d) {
		AddNote(notes, "%s", words.LevelsBeside)
	}
	if hasVersusRest(d) {
		AddNote(notes, "%s", words.VersusRestBrief)
	}
	for _, text := range []string{words.TooFewNote(d), words.ReversedNote(d)} {
		if text != "" {
			AddNote(notes, "%s", text)
		}
	}
	if words.SaysOwnMarks(d) {
		AddNote(notes, "%s", words.OwnMarks)
	}
	return notes
}

// LevelNotes explain the levels.
func LevelNotes(d answers.Families) *report.Notes {
	notes := familyNotes(d)
	AddNote(notes, "%s", words.FiguresExplained)
	AddNote(notes, "%s", words.ShrunkenExplained)
	if d.TauHigh.Known() {
		AddNote(notes, "%s", words.SpreadBetweenFamilies(d))
	}
	if text := words.NotPooled(d); text != "" {
		AddNote(notes, "%s", text)
	}
	return notes
}

// familyNotes say of families what their percents have in them.
func familyNotes(d answers.Families) *report.Notes {
	notes := &report.Notes{}
	if text := words.WithoutZeros(d); text != "" {
		notes.Items = append(notes.Items, report.Note{Mark: words.ZeroSign, Text: text})
	}
	for _, text := range []string{words.FlightsWithoutFamilies(d), words.OneContest(d)} {
		if text != "" {
			AddNote(notes, "%s", text)
		}
	}
	for _, text := range append(words.SameFigures(d), words.WithinFigures(d)...) {
		AddNote(notes, "%s", text)
	}
	return notes
}

// GroupTrendTable has a row a family: how it moved against the rest.
func GroupTrendTable(d answers.Families) *report.Table {
	t := &report.Table{Key: 1, Columns: []report.Column{
		{Title: words.ColumnFamily, Wrapped: true, Min: 16},
		{Title: words.ColumnVsRest, Align: report.Right},
		{Title: words.ColumnCompared, Align: report.Right},
		{Title: words.ColumnChange, Align: report.Right},
		{Title: words.ChangesFrom(d), Align: report.Right},
		{Title: words.ColumnTo, Align: report.Right},
		{Title: words.ColumnP, Align: report.Right, Drop: 2},
		{Title: words.ColumnQ, Align: report.Right, Drop: 1},
		{Title: words.ColumnVerdict},
	}}
	for _, g := range d.Groups {
		low, change, high := words.TrendRange(g.Trend).ChangeCells()
		t.Rows = append(t.Rows, []report.Cell{
			report.Text(words.GroupTitle(g.Group)), report.Signed(g.VersusRest, 1), CountCell(g.Trend.N),
			change, low, high,
			report.Chance(g.Trend.P), report.Chance(g.Q), wordCell(g.Trend.Word, string(g.Trend.Word)),
		})
	}
	return t
}

// wordCell shows a verdict as it is said; a firm one stands out.
func wordCell(word answers.TrendWord, text string) report.Cell {
	said := report.Text(text)
	switch word {
	case answers.Improving:
		return said.Toned(report.Good)
	case answers.Declining:
		return said.Toned(report.Bad)
	case answers.TooFew:
		return said.Toned(report.Faint)
	default:
		return said
	}
}

// GroupTrendNotes explain the trends.
func GroupTrendNotes(d answers.Families) *report.Notes {
	notes := &report.Notes{}
	AddNote(notes, "%s", words.VersusRestExplained)
	if reversed := words.ReversedNote(d); reversed != "" {
		AddNote(notes, "%s", reversed)
	}
	if text := words.ConfidenceNote(d); text != "" {
		AddNote(notes, "%s", text)
	}
	AddNote(notes, "%s", words.FirmWord(d))
	if text := words.NotLookedAt(d); text != "" {
		AddNote(notes, "%s", text)
	}
	if words.SaysOwnMarks(d) {
		AddNote(notes, "%s", words.OwnMarks)
	}
	if slices.ContainsFunc(d.Groups, func(g answers.Group) bool { return g.DesignEffect.Known() }) {
		AddNote(notes, "%s", words.AlikeExplained)
	}
	if text := words.CutNote(d); text != "" {
		AddNote(notes, "%s", text)
	}
	if text := words.GapNote(d); text != "" {
		AddNote(notes, "%s", text)
	}
	return notes
}
