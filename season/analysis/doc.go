// Package analysis answers questions over flights: levels, trends, families,
// faults, drills, plan, forecast, readiness, judges, the year. One file a
// question, and a function of that name, such as SeasonOf.
//
// An answer is numbers, or absent with a reason, never a sentence: what may be
// shown is decided here, once, and every output follows. The thresholds of
// verdicts are constants of this package and stand nowhere else.
package analysis
