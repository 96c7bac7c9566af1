package sheetimport_test

import (
	"testing"

	"boxbook/season/sheetimport"

	"github.com/stretchr/testify/assert"
)

// A day and a pilot are taken where the sheet has one of each that is plain.
func TestWhatASheetTellsOfItsFlight(t *testing.T) {
	const table = "\nfig|A|B|C\n1|7|7|7\n2|7|7|7\n3|7|7|7\npos|7|7|7"
	for _, c := range []struct {
		name, sheet string
		told        sheetimport.Told
	}{
		{"day first, a title", "Results - Pilote: Jan Moser\nDate:|15.08.2026" + table, sheetimport.Told{Pilot: "jan", PilotAt: "A1", Date: "2026-08-15", DateAt: "B2"}},
		{"a date of a spreadsheet", "Date|@2026-08-15\nPilot|jana" + table, sheetimport.Told{Pilot: "jana", PilotAt: "B2", Date: "2026-08-15", DateAt: "B1"}},
		{"in one cell", "Datum: 5.8.2026" + table, sheetimport.Told{Date: "2026-08-05", DateAt: "A1"}},
		{"columns", "date|pilot|figure|judge|mark\n2026-08-15|jan|1|A|7\n2026-08-15|jan|1|B|7", sheetimport.Told{Pilot: "jan", PilotAt: "B2", Date: "2026-08-15", DateAt: "A2"}},
		{"several", "date|pilot|figure|judge|mark\n2026-08-15|jan|1|A|7\n2026-08-16|jana|1|B|7", sheetimport.Told{}},
		{"two readings", "Date:|05/08/2026" + table, sheetimport.Told{}},
		{"part of a name", "Pilot: Moser" + table, sheetimport.Told{}},
		{"nothing", table, sheetimport.Told{}},
	} {
		t.Run(c.name, func(t *testing.T) {
			assert.Equal(t, c.told, sheetimport.TellOf([]sheetimport.Grid{gridOf(c.sheet)}, sheetimport.Options{Pilots: pilotsKnown}))
		})
	}
}
