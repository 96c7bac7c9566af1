package tables

import (
	"fmt"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/words"
)

// RecurringNotes name what comes back, each with its drill.
func RecurringNotes(d answers.Faults) *report.Notes {
	notes := KindNotesOf(d.Recurring)
	if d.Reviewed < d.Limits.Flights {
		AddNote(notes, "%s", words.FewWatched(d))
	}
	return notes
}

// KindNotesOf are kinds that come back, numbered, each with its drill.
func KindNotesOf(kinds []answers.FaultKind) *report.Notes {
	said := make([]string, len(kinds))
	for i, k := range kinds {
		said[i] = words.RecurringKind(k)
	}
	return Numbered(said)
}

// KindPoints is the key of the points at stake in the table of kinds.
const KindPoints = "points"

// KindTableBrief has a row a kind and group, the first ones: in how many flights,
// what it costs, and since when a drill is set.
func KindTableBrief(d answers.Faults, most int) *report.Table {
	t := only(KindTable(d), "kind", "family", "flights", KindPoints, "drill")
	t.Rows = t.Rows[:min(most, len(t.Rows))]
	for i := range t.Rows {
		t.Rows[i][1] = report.Text(words.KindFamily(d.Kinds[i]))
		sayEnded(t.Rows[i], d.Kinds[i])
	}
	return t
}

// KindTableWhole is that table for people, with every column.
func KindTableWhole(d answers.Faults) *report.Table {
	t := KindTable(d)
	t.Columns[0].Min = 13
	t.Columns[len(t.Columns)-1].Wrapped, t.Columns[len(t.Columns)-1].Min = true, 11
	for i := range t.Rows {
		if d.Kinds[i].Group == "" {
			t.Rows[i][1] = report.Text(words.NoOneFamily).Toned(report.Faint)
		}
		sayEnded(t.Rows[i], d.Kinds[i])
	}
	return t
}

// KindTableForSheet is the table of kinds for a sheet that people read: a drill that
// was ended says so.
func KindTableForSheet(d answers.Faults) *report.Table {
	t := KindTable(d)
	for i := range t.Rows {
		sayEnded(t.Rows[i], d.Kinds[i])
	}
	return t
}

// KindTableForRows is the table of kinds for another program: the day on which a
// drill was ended in a column of its own.
func KindTableForRows(d answers.Faults) *report.Table {
	t := KindTable(d)
	t.Columns = append(t.Columns, report.Column{Key: "ended", Title: words.ColumnEnded})
	for i, k := range d.Kinds {
		t.Rows[i] = append(t.Rows[i], report.Text(k.DrillEnded))
	}
	return t
}

// sayEnded says in a row's last cell that its drill was ended: a date alone reads as
// one that goes on.
func sayEnded(row []report.Cell, k answers.FaultKind) {
	if k.DrillEnded != "" {
		row[len(row)-1] = report.Text(words.KindDrill(k))
	}
}

// KindTable has a row a kind and group.
func KindTable(d answers.Faults) *report.Table {
	t := &report.Table{Key: 2, Columns: []report.Column{
		{Key: "kind", Title: words.ColumnKind, Wrapped: true, Min: 10},
		{Key: "family", Title: words.ColumnFamily, Wrapped: true, Min: 10},
		{Key: "flights", Title: words.ColumnFlights, Align: report.Right},
		{Title: words.ColumnSeen, Align: report.Right},
		{Title: words.ColumnFelt, Align: report.Right},
		{Key: KindPoints, Title: words.ColumnPoints, Align: report.Right, Bars: true},
		{Title: words.ColumnSince, Drop: 1},
		{Key: "drill", Title: words.ColumnDrill},
	}}
	for _, k := range d.Kinds {
		points := num(k.Points)
		if !k.Points.Known() {
			points = report.Text(words.UnknownSign)
		} else if k.Unknown > 0 {
			points = points.Marked(words.UnknownSign)
		}
		drill := report.Text(k.Drill)
		if k.Drill == "" {
			drill = report.Text(words.NoDrill).Toned(report.Faint)
		}
		t.Rows = append(t.Rows, []report.Cell{
			report.Text(k.Kind), report.Text(k.Group), report.Text(fmt.Sprintf("%d of %d", k.Flights, k.Exposed)),
			CountCell(k.Seen), CountCell(k.Felt), points, report.Text(k.Since), drill,
		})
	}
	return t
}

// KindNotes explain the columns; of the brief table how many rows it leaves out.
func KindNotes(d answers.Faults, all bool, most int) *report.Notes {
	notes := &report.Notes{}
	if !all && len(d.Kinds) > most {
		AddNote(notes, "%s", words.MoreKinds(len(d.Kinds)-most))
	}
	unknown := 0
	for _, k := range d.Kinds {
		unknown += k.Unknown
	}
	if unknown > 0 {
		notes.Items = append(notes.Items, report.Note{Mark: words.UnknownSign, Text: words.UnknownPoints(unknown)})
	}
	for _, text := range words.KindColumns(all) {
		AddNote(notes, "%s", text)
	}
	if text := words.BeforeDrillExplained(d); text != "" {
		AddNote(notes, "%s", text)
	}
	return notes
}

// CalibrationFacts are how far the noted faults explain the grades given.
func CalibrationFacts(c answers.Calibration) *report.Facts {
	facts := &report.Facts{}
	AddFact(facts, "expected minus given, mean", report.Signed(c.Bias, words.MeanDecimals))
	if c.Spread.Known() {
		AddFact(facts, "spread (standard deviation)", report.Num(c.Spread, words.MeanDecimals))
	}
	AddFact(facts, "figures", CountCell(c.N))
	return facts
}

// CalibrationNotes explain them.
func CalibrationNotes(c answers.Calibration) *report.Notes {
	notes := &report.Notes{}
	AddNote(notes, "%s", words.CalibrationExplained)
	if c.Zeroed > 0 {
		AddNote(notes, "%s", words.CalibrationZeroed(c))
	}
	return notes
}

// OpenNotes list what must be put right before anything else.
func OpenNotes(open []answers.Open) *report.Notes {
	notes := &report.Notes{}
	for _, o := range open {
		AddNote(notes, "%s", words.OpenMatter(o))
	}
	return notes
}
