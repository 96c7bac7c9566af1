package sheetimport

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"

	"boxbook/season"
)

// Told is what sheets say of the flight that they are: the handle of its pilot and its day,
// each with the cell; "" where they do not, or not plainly.
type Told struct {
	Pilot, PilotAt string
	Date, DateAt   string
}

// dateHeadings stand before a day, or head a column of it.
var dateHeadings = []string{
	"date", "datum", "data", "fecha", "dato", "dátum", "päivä", "päivämäärä", "tarih", "date of flight", "flight date", "flugdatum", "date du vol", "data lotu",
}

// dayFirst is a day as text that has one reading alone: 15.08.2026.
var dayFirst = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`^(\d{1,2})\. ?(\d{1,2})\. ?(\d{4})$`) })

// TellOf finds what the worksheets that show say of their flight: where they name one pilot
// alone, by a whole name or the handle of one in the ledger, and one day alone.
func TellOf(grids []Grid, o Options) Told {
	var t Told
	var names, days []string
	for _, g := range grids {
		if g.Hidden {
			continue
		}
		at := func(column, row int) string {
			if len(grids) > 1 {
				return g.Name + "!" + CellName(column, row)
			}
			return CellName(column, row)
		}
		for _, p := range pilotsIn(g, o) {
			if names = append(names, folded(p.name)); t.PilotAt == "" {
				t.Pilot, t.PilotAt = o.handleOf(p.name), at(p.column, p.rows[0])
			}
		}
		for _, p := range daysIn(g) {
			if days = append(days, p.cell.Text); t.DateAt == "" {
				t.Date, t.DateAt = p.cell.Text, at(p.cell.Column, p.row)
			}
		}
	}
	if len(slices.Compact(names)) != 1 || t.Pilot == "" {
		t.Pilot, t.PilotAt = "", ""
	}
	if len(slices.Compact(days)) != 1 || t.Date == "" {
		t.Date, t.DateAt = "", ""
	}
	return t
}

// handleOf is the handle of the one pilot of the ledger whom a text names, else "".
func (o Options) handleOf(text string) string {
	o.Pilot = ""
	p, _ := o.anotherPilot(text)
	return p.Handle
}

// daysIn are the days beside a word for one, or beneath one that heads a column, as a ledger
// writes them; "" where a day has two readings.
func daysIn(g Grid) (days []place) {
	for i, row := range g.Rows[:min(headingRows, len(g.Rows))] {
		for k, c := range row.Cells {
			if c.Kind != Text {
				continue
			}
			if word, rest, found := strings.Cut(plain(c.Text), ":"); found && slices.Contains(dateHeadings, folded(word)) && strings.TrimSpace(rest) != "" {
				days = append(days, place{Cell{Column: c.Column, Text: dayOf(Cell{Kind: Text, Text: strings.TrimSpace(rest)})}, row.Number})
				continue
			}
			if !says(c, dateHeadings) {
				continue
			}
			if k+1 < len(row.Cells) && mayBeDay(row.Cells[k+1]) {
				days = append(days, place{Cell{Column: row.Cells[k+1].Column, Text: dayOf(row.Cells[k+1])}, row.Number})
				continue
			}
			for _, beneath := range g.Rows[i+1:] {
				if day := beneath.Cell(c.Column); mayBeDay(day) {
					days = append(days, place{Cell{Column: c.Column, Text: dayOf(day)}, beneath.Number})
				}
			}
		}
	}
	return days
}

// mayBeDay reports whether a cell is meant as a day.
func mayBeDay(c Cell) bool { return c.Kind == Date || c.Kind == Text && dateText(c.Text) }

// dayOf is the day of a cell as a ledger writes it, "" where it is not plain.
func dayOf(c Cell) string {
	text := plain(c.Text)
	if parts := dayFirst().FindStringSubmatch(text); parts != nil && c.Kind == Text {
		day, _ := strconv.Atoi(parts[1])
		month, _ := strconv.Atoi(parts[2])
		text = fmt.Sprintf("%s-%02d-%02d", parts[3], month, day)
	}
	if date, ok := season.ParseDate(text); ok {
		return date.String()
	}
	return ""
}
