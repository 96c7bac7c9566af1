package words

// Every page that advises ends with what its numbers cannot know and who
// decides. The end is one; the beginning fits the page. They are what a document
// says in its Caution, which no writer leaves out.
const (
	FaultsCaution   = "A count of faults says " + cautionEnd
	DrillsCaution   = "The outcome of a drill says " + cautionEnd
	PlanCaution     = "A list of what to practise says " + cautionEnd
	ForecastCaution = "A forecast of scores says " + cautionEnd
	DebriefCaution  = "Grades and noted faults say " + cautionEnd
	ReadyCaution    = "Scores and fault counts say " + cautionEnd
	PilotsCaution   = "Trends, fault counts and gates say " + cautionEnd
	HomeCaution     = "A ledger of scores and faults says " + cautionEnd

	// PracticeCaution is for a sheet that has the faults and the drills on them.
	PracticeCaution = "Fault counts and the outcome of drills say " + cautionEnd
	// SeasonCaution is for a page that sums up a season, its plan and readiness.
	SeasonCaution = "Scores, fault counts, plans and verdicts say " + cautionEnd

	// whoDecides is the caution of a page with a verdict and too few lines for all of
	// it, which stands in its JSON.
	whoDecides = "rules, manual and coach decide"

	cautionEnd = "nothing about height, g tolerance, the aircraft's limits or the day. Fly new or changed figures first with a " +
		"licensed instructor and plenty of height. The rules in force, the aircraft's manual and licensed instruction come before anything here."
)
