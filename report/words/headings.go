package words

// The headings of sections over many flights; a sheet or a file that shows the
// same part of an answer takes the same.
const (
	FlightsHeading   = "Flights"
	TrendHeading     = "Trend"
	ContestsHeading  = "Contests"
	LevelHeading     = "Level"
	VersusRest       = "Trend against the rest of the same flights"
	OpenHeading      = "Open, before anything else"
	RecurringHeading = "What comes back"
	KindsHeading     = "Faults by kind and family"
	CoachHeading     = "Coach compared with the judges"
	TestsHeading     = "Tests"

	PilotsHeading     = "Pilots"
	MoneyHeading      = "Money"
	CategoriesHeading = "Categories"
	PaymentsHeading   = "Payments"
	EntriesHeading    = "Entries and results"
)
