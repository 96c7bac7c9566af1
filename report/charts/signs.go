package charts

import (
	"boxbook/report"
	"boxbook/season"
)

// sign is the sign of a programme around a point: round, square, a rhomb or a
// triangle, filled or open, so that no colour tells them apart.
func sign(programme string, small bool) report.Shape {
	radius := "5"
	if small {
		radius = "4.5"
	}
	path := func(class, drawn string) report.Shape {
		return report.Shape{Name: "path", Class: class, Attributes: at("d", drawn)}
	}
	const square = "M-4.5-4.5h9v9h-9z"
	switch season.Programme(programme) {
	case season.Unknown:
		return report.Shape{Name: "circle", Class: "open", Attributes: at("r", radius)}
	case season.Free:
		return path("full", square)
	case season.FreeUnknown:
		return path("open", square)
	case season.FreeKnown:
		return path("full", "M0-6L6 0L0 6L-6 0z")
	case season.Final:
		return path("full", "M0-5.5L5.5 4.5H-5.5z")
	default:
		return report.Shape{Name: "circle", Class: "full", Attributes: at("r", radius)}
	}
}
