package commands

import (
	"fmt"
	"strings"

	"boxbook/report/sheetfile"
	"boxbook/season"
	"boxbook/season/sheetimport"
)

// fromSheet takes the pilot and the date that no flag gives from what the sheet plainly says,
// and says from where. A sheet that cannot be read says nothing: that is reported later.
func (o *importFlags) fromSheet(path string, l *season.Ledger) (said []string) {
	pilot := !o.flight.Has("pilot") && len(l.Pilots) > 1
	if !pilot && o.flight.Has("date") {
		return nil
	}
	var grids []sheetimport.Grid
	var err error
	if o.worksheet != "" {
		var grid sheetimport.Grid
		grid, err = sheetfile.Load(path, o.worksheet)
		grids = []sheetimport.Grid{grid}
	} else {
		grids, err = sheetfile.LoadAll(path)
	}
	columns, wrong := sheetimport.ParseColumns(o.columns)
	if err != nil || wrong != nil {
		return nil
	}
	told := sheetimport.TellOf(grids, sheetimport.Options{Columns: columns, Pilots: sheetPilots(l)})
	if pilot && told.Pilot != "" {
		o.fill("pilot", told.Pilot)
		said = append(said, fmt.Sprintf("the pilot %s (%s)", told.Pilot, told.PilotAt))
	}
	contest := l.ContestNamed(o.flight.One("contest"))
	during := contest == nil || contest.First != contest.Last && told.Date >= contest.First.String() && told.Date <= contest.Last.String()
	if !o.flight.Has("date") && told.Date != "" && during {
		o.fill("date", told.Date)
		said = append(said, fmt.Sprintf("the date %s (%s)", told.Date, told.DateAt))
	}
	return said
}

// sheetPilots are the pilots of the ledger as a sheet may name them.
func sheetPilots(l *season.Ledger) []sheetimport.Pilot {
	var pilots []sheetimport.Pilot
	for _, p := range l.Pilots {
		pilots = append(pilots, sheetimport.Pilot{Handle: p.Handle, Name: p.Name})
	}
	return pilots
}

// tellTaken says what was taken from the sheet.
func (a *app) tellTaken(sheet string, taken []string) {
	if len(taken) > 0 {
		fmt.Fprintf(a.err, "%s: note: taken from the sheet: %s\n", sheet, strings.Join(taken, ", "))
	}
}

// fromWaiting takes programme and number from the one flight of that pilot and day that
// waits for its marks, where no flag says which flight is meant.
func (o *importFlags) fromWaiting(l *season.Ledger) {
	if o.flight.Has("sequence") || o.flight.Has("programme") || o.flight.Has("number") {
		return
	}
	var waiting []*season.Flight
	for _, f := range l.Flights {
		if f.Pilot.Handle == o.flight.One("pilot") && f.Date.String() == o.flight.One("date") && !f.HasMarks() && f.Void == nil && f.Sequence != nil {
			waiting = append(waiting, f)
		}
	}
	if len(waiting) != 1 {
		return
	}
	f := waiting[0]
	o.fill("programme", string(f.Programme))
	if parts := strings.Split(f.Name, "/"); len(parts) == 4 {
		o.fill("number", parts[3])
	}
	o.fill("sequence", f.Sequence.Handle)
}
