package words

// Every page that advises ends with what its numbers cannot know and who
// decides. The end is one; the beginning fits the page. They are what a document
// says in its Caution, which no writer leaves out.
const (
	FaultsCaution   = "A count of faults says " + cautionEnd
	DrillsCaution   = "Whether a drill moved a fault says " + cautionEnd
	PlanCaution     = "Where points could be gained says " + cautionEnd
	ForecastCaution = "A forecast of scores says " + cautionEnd
	DebriefCaution  = "Grades and the faults noted on a flight say " + cautionEnd
	ReadyCaution    = "Scores and fault counts say " + cautionEnd

	// PracticeCaution is for a sheet that has the faults and the drills on them.
	PracticeCaution = "Counts of faults and what became of drills say " + cautionEnd
	// SeasonCaution is for a page that sums up a season, its plan and readiness.
	SeasonCaution = "Scores, fault counts, a plan and a verdict on a record say " + cautionEnd

	cautionEnd = "nothing about height, g tolerance, the aircraft's limits or the day. New or changed figures are flown first " +
		"with a qualified instructor and plenty of height; the coach, the instructor, the rules in force and the aircraft's manual decide."
)
