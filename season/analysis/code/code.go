// Package code names what the analysis has to say beside its numbers: how a gate
// stands, why a number is absent, what a number is of. A code is for programs and
// stands in JSON as it is; the words for people are made of it in report/words.
package code

// GateState is how a gate of a policy stands, or a verdict over all of them.
type GateState string

// The states of a gate, and of the verdict.
const (
	Met        GateState = "met"
	NotMet     GateState = "not met"
	CannotTell GateState = "cannot tell"
	Ready      GateState = "ready"
	NotYet     GateState = "not yet"
)

// Reason is why there is no number, or what qualifies a gate's state.
type Reason string

// Reasons why nothing can be forecast or planned.
const (
	FewFlights  Reason = "few-flights"  // with marks, fewer than are needed
	SameScore   Reason = "same-score"   // every result is the same
	NoRange     Reason = "no-range"     // grades that allow no range
	FewFamilies Reason = "few-families" // flown, fewer than are needed
	NoGain      Reason = "no-gain"      // on the sequence, from any family that was flown
)

// Reasons why a weak family is none of a plan's places.
const (
	NotInSequence Reason = "not-in-sequence" // the sequence has nothing of it
	LittleK       Reason = "little-k"        // it carries little K there
	SmallerGain   Reason = "smaller-gain"    // others promise more
)

// Reasons of a level: why it is not known, or what qualifies it.
const (
	FewContests  Reason = "few-contests"   // fewer than are needed
	NoDriftSeen  Reason = "no-drift-seen"  // the contests are too few to show a drift
	TooLongAfter Reason = "too-long-after" // the last flight, whose day it is told for
)

// Reasons of gates.
const (
	Unset        Reason = "unset"          // the policy has no number for what the gate goes by
	FewerFlights Reason = "fewer-flights"  // than the gate looks at
	NotDecided   Reason = "not-decided"    // figures that could break the gate
	FewToBeMet   Reason = "few-to-be-met"  // too few contests and flights, sure as it looks
	OnlyIfSteady Reason = "only-if-steady" // met, and would not be were the form known to move
	ByTotals     Reason = "by-totals"      // met, with results whose marks do not agree with their printed totals
	CountDiffers Reason = "count-differs"  // the plain count, from what the level lets expect
	AtPresent    Reason = "at-present"     // by the last flights at the present category, not by the last of any
	AskedNotMet  Reason = "asked-not-met"  // by the flights at the category asked about
	LooksAtNone  Reason = "looks-at-none"  // the policy counts no flight
	NoMarks      Reason = "no-marks"       // in the window
	NoFlight     Reason = "no-flight"      // to judge by
	NoStep       Reason = "no-step"        // of that name in the ladder
	NoneNew      Reason = "none-new"       // no family is new at the next step
	NoKnown      Reason = "no-known"       // sequence of the next step in the ledger
	NoForecast   Reason = "no-forecast"    // of any known sequence of the next step
	NeverFlown   Reason = "never-flown"    // the next step, in a contest
)

// Fact says what a number, a range, a date or a name of a gate is of; it is the
// name of a field in JSON.
type Fact string

// Facts that every gate may have: a gate with no words of its own is told by them.
const (
	Have Fact = "have" // what was counted
	Want Fact = "want" // what is needed of it, where that is no setting of the policy
)

// Facts of gates.
const (
	Flights       Fact = "flights"       // that the gate looked at
	Figures       Fact = "figures"       // that the gate looked at
	Results       Fact = "results"       // that a share is of
	Aside         Fact = "aside"         // flights of the category on sequences of another catalogue than these, which is named
	ResultsShare  Fact = "resultsShare"  // those that reached the mark, with the interval of the plain count
	Contests      Fact = "contests"      // that the results are of
	LeastContests Fact = "leastContests" // that a level needs
	LevelNow      Fact = "level"         // on a day, with its range
	RangeHolds    Fact = "rangeHolds"    // how often a range from so few contests held, in simulation
	Next          Fact = "next"          // probability that the next flight reaches the mark
	Share         Fact = "share"         // interval of the share of flights at or above the mark, at the level now
	Sure          Fact = "sure"          // probability that this share is at least the one asked for
	SureMoving    Fact = "sureMoving"    // the same if the form is not steady
	LastVoid      Fact = "lastVoid"      // 1 where the last flight is a void one
	Disputed      Fact = "disputed"      // printed totals that do not agree with their marks
	ByTotalsAlone Fact = "byTotals"      // those of them whose marks do not reach the mark
	Expected      Fact = "expected"      // how many flights reach the mark by the level
	MetContests   Fact = "metContests"   // that need more flights for a gate to be met
	MetFlights    Fact = "metFlights"    // that these contests need
	AskedHave     Fact = "askedHave"     // flights that reached the mark at the category asked about
	AskedResults  Fact = "askedResults"  // flights there
	AskedShare    Fact = "askedShare"    // interval of the share there
	AskedSure     Fact = "askedSure"     // probability that it is at least the one asked for
	ZeroRisk      Fact = "zeroRisk"      // probability of a zero in the next sequence
	ByPanel       Fact = "byPanel"       // of a family's graded elements, those by a contest's panel
	ZerosSeen     Fact = "zerosSeen"     // figures with a zero that this rests on
	ZerosWhole    Fact = "zerosWhole"    // of those, figures that came to 0
	ZerosWaived   Fact = "zerosWaived"   // further figures there with a judge's zero that does not count
	AircraftNamed Fact = "aircraftNamed" // aircraft of the flights of a level, where one gave way to another
	AircraftNone  Fact = "aircraftNone"  // flights of these that name none
	ZerosOf       Fact = "zerosOf"       // flights that this rests on
	ZeroBound     Fact = "zeroBound"     // the most that the share of figures with a zero can be
	ZeroFigures   Fact = "zeroFigures"   // figures without a zero that the bound rests on
	Graded        Fact = "graded"        // elements of a family
	MeanGrade     Fact = "meanGrade"     // of those
	More          Fact = "more"          // elements, or contest flights without what was found, that would meet the gate
	MoreAt        Fact = "moreAt"        // the grade of each of those
	MeanAfter     Fact = "meanAfter"     // those
	OutOfReach    Fact = "outOfReach"    // a family whose mean no grade brings there
	Forecast      Fact = "forecast"      // percent on a sequence, with its range
	KnownOnes     Fact = "knownOnes"     // known sequences that a forecast was tried on, where several
	NotFlown      Fact = "notFlown"      // a family that the pilot does not fly, with the reason as its text
	Unseen        Fact = "unseen"        // a family that no contest flight had of late
	OfLate        Fact = "ofLate"        // days that count as of late
	LeastFlights  Fact = "leastFlights"  // that a level or a forecast needs
	BareFigure    Fact = "bareFigure"    // the number of a figure of a forecast's sequence without codes
	Uncoded       Fact = "uncoded"       // flights with marks, and no family in any figure
	SignedOff     Fact = "signedOff"     // by a coach, on a day
	LowPenalty    Fact = "lowPenalty"    // of a flight
	OpenMatter    Fact = "openMatter"    // a fault noted on a day
)

// Facts of gates that name what they found.
const (
	Bare            Fact = "bare"            // a contest flight without marks among those that the gate looks at, or after them
	ZeroAt          Fact = "zeroAt"          // a judge's, of a figure of a flight
	BelowFloor      Fact = "belowFloor"      // the grade of a figure of a flight
	Skipped         Fact = "skipped"         // a category between the present one and the one asked for
	Latest          Fact = "latest"          // grade of a family, of a day, by a coach where in practice
	Worst           Fact = "worst"           // the same, the lowest
	ZeroLately      Fact = "zeroLately"      // a family with a zero among its latest
	NoZeroIn        Fact = "noZeroIn"        // latest elements of a family that must be without a zero
	SignedElsewhere Fact = "signedElsewhere" // for another category, its name
	SignedBySelf    Fact = "signedBySelf"    // by the pilot
	SignedLongAgo   Fact = "signedLongAgo"   // before the window
	SignedBefore    Fact = "signedBefore"    // the last low penalty, or on its day
)
