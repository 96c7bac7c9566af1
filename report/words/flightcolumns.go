package words

// The columns of a flight's tables and of the judges'.
const (
	ColumnFig        = "fig" // a figure's number
	ColumnFigure     = "figure"
	ColumnK          = "K"
	ColumnMean       = "mean"
	ColumnPoints     = "points"
	ColumnLost       = "lost"
	ColumnShare      = "share %"
	ColumnFault      = "fault"
	ColumnAmount     = "amount"
	ColumnOn         = "on"
	ColumnCosts      = "costs"
	ColumnNoted      = "noted"
	ColumnAt         = "at" // a place in the video
	ColumnBy         = "by"
	ColumnExpected   = "expected"
	ColumnGiven      = "given"
	ColumnDifference = "difference"

	ColumnJudge        = "judge"
	ColumnTotal        = "total"
	ColumnLeniency     = "leniency"
	ColumnGiveOrTake   = "give or take"
	ColumnScatter      = "scatter"
	ColumnGrades       = "grades"
	ColumnFlights      = "flights"
	ColumnFlight       = "flight"
	ColumnMark         = "mark"
	ColumnOthersSay    = "expected"
	ColumnGradeScatter = "scatter of a grade"
	ColumnPercentNoise = "noise of the percent"
)

// What stands in a cell in the place of a number, or of a name.
const (
	OpenCell    = "open"    // not known while a figure is undecided
	MissingCell = "missing" // the sheet is not to hand
	SeenCell    = "seen"
	FeltCell    = "felt"
	AllCell     = "all"
	TotalsCell  = "totals" // of all, and of each judge
	NoFigure    = "-"      // of the flight as a whole
)

// ExpectedTitle stands above the expected grades.
const ExpectedTitle = "expected against given"

// The lines of a flight's score.
const (
	FactRaw             = "raw"
	FactPoints          = "points"
	FactPointsLow       = "points, at least"
	FactPointsHigh      = "points, at most"
	FactMaximum         = "maximum"
	FactPercent         = "percent"
	FactOfficial        = "official"
	FactOfficialMaximum = "official maximum"
	FactOfficialLessOwn = "official minus calculated"
	FactRecordPercent   = "counted percent"
	FactPlace           = "place"
	FactVideo           = "video"
)

// PenaltyName names a penalty by its kind: "penalty, low".
func PenaltyName(kind string) string { return "penalty, " + kind }

// LessPenalty names a penalty beneath the sum that it is taken from.
func LessPenalty(kind string) string { return "less " + PenaltyName(kind) }
