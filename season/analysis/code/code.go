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
	FewFlights   Reason = "few-flights"    // with marks, fewer than are needed
	SameScore    Reason = "same-score"     // every result is the same
	NoRange      Reason = "no-range"       // grades that allow no range
	FewFamilies  Reason = "few-families"   // flown, fewer than are needed
	NoTwoFigures Reason = "no-two-figures" // in any family
	NoScatter    Reason = "no-scatter"     // of a family's figures against their flight
	NoRise       Reason = "no-rise"        // of a best quarter above its level, beyond chance
)

// Reasons of gates.
const (
	Unset        Reason = "unset"          // the policy has no number for what the gate goes by
	Apart        Reason = "apart"          // flights of the category asked about are not counted
	FewContests  Reason = "few-contests"   // fewer than an interval needs
	Improving    Reason = "improving"      // a firm trend of the gate's flights
	Declining    Reason = "declining"      // a firm trend of the gate's flights
	TooLongAfter Reason = "too-long-after" // the last flight, to follow a line
	NoLine       Reason = "no-line"        // can be drawn through the flights
	OtherWay     Reason = "other-way"      // the line runs against the trend
	LooksAtNone  Reason = "looks-at-none"  // the policy looks at no flight
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
	ResultsShare  Fact = "resultsShare"  // those that reached the mark, with the interval of the plain count
	Contests      Fact = "contests"      // that the results are of
	LeastContests Fact = "leastContests" // that an interval needs
	LongRun       Fact = "longRun"       // interval of the share of flights at or above the mark
	NextReaches   Fact = "nextReaches"   // probability that the next flight reaches the mark
	NextPercent   Fact = "nextPercent"   // of a flight on a day, by a line, with its range
	Gap           Fact = "gap"           // days without a contest flight that a line crosses
	ZeroRisk      Fact = "zeroRisk"      // probability of a zero in the next sequence
	ZeroBound     Fact = "zeroBound"     // the most that the share of figures with a zero can be
	ZeroFigures   Fact = "zeroFigures"   // figures without a zero that the bound rests on
	Graded        Fact = "graded"        // elements of a family
	MeanGrade     Fact = "meanGrade"     // of those
	More          Fact = "more"          // elements that would meet the gate
	MoreAt        Fact = "moreAt"        // the grade of each of those
	MeanAfter     Fact = "meanAfter"     // those
	OutOfReach    Fact = "outOfReach"    // a family whose mean no grade brings there
	Forecast      Fact = "forecast"      // percent on a sequence, with its range
	NotFlown      Fact = "notFlown"      // a family that the pilot does not fly, with the reason as its text
	Unseen        Fact = "unseen"        // a family that no contest flight had of late
	OfLate        Fact = "ofLate"        // days that count as of late
	LeastFlights  Fact = "leastFlights"  // with graded figures and codes, or contests of them, that a forecast needs
	Uncoded       Fact = "uncoded"       // flights with marks, and no family in any figure
	SignedOff     Fact = "signedOff"     // by a coach, on a day
	LowPenalty    Fact = "lowPenalty"    // of a day, which a sign-off is not after
	OpenMatter    Fact = "openMatter"    // a fault noted on a day
)
