package answers

import (
	"slices"

	"boxbook/report"
	"boxbook/season"
	"boxbook/season/analysis"
)

// addPanel adds what the grades say of the panel; nothing where there are too
// few judges or figures.
func (d *Flight) addPanel(f *season.Flight) {
	check, ok := analysis.CheckPanel(f)
	if !ok {
		return
	}
	d.Scatter, d.Noise = report.Float(check.Scatter), report.Float(check.Noise)
	for _, judge := range check.Judges {
		j := slices.IndexFunc(d.Judges, func(data Judge) bool { return data.Name == judge.Name })
		if j < 0 {
			continue
		}
		d.Judges[j].Leniency, d.Judges[j].SE = report.Float(judge.Leniency), report.Float(judge.SE)
		if judge.N > 1 {
			d.Judges[j].Scatter = report.Float(judge.Scatter)
		}
	}
	for _, flag := range check.Flags {
		d.Flags = append(d.Flags, flagOf(flag, false))
	}
	d.Refit = check.Refit
}
