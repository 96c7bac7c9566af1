// Package calibration makes seasons of which the truth is known, asks the program
// about them, and counts how often its words and ranges hold. The seasons are made
// from the description of the methods alone, by nobody's estimator: a pilot's
// level that stands or moves, contests, judges, figures, faults, drills. The
// program is asked through its JSON, as any other program would ask it. The sizes
// of noise are assumptions, not contest data.
package calibration
