package words

// Headings that stand on a page and on a sheet of the workbook.
const (
	OpenHeading        = "Open, before anything else"
	RecurringHeading   = "What comes back"
	KindsHeading       = "Faults by kind and family"
	CalibrationHeading = "Coach against panel"
	CountsHeading      = "Counts"
	LevelHeading       = "Level"
	MovementHeading    = "Trend against the rest of the same flights"
	GatesHeading       = "Gates"
	AgainstHeading     = "What speaks against"
	PilotsHeading      = "Pilots"
	MoneyHeading       = "Money"
	ContestsHeading    = "Contests"
	CategoriesHeading  = "Categories"
	PaymentsHeading    = "Payments"
)
