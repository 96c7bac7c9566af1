package calibration

const (
	shortSeasons = 400
	quickSeasons = 100
)

// eachRun are the cells of every test run; shortCells those of the short form.
// They were chosen by what they hold, before they were run.
var (
	eachRun = []string{
		"present: 12 flights, 2 a contest, contest share 30 %, rises by 10",
		"drills: nothing worked: on the worst of four, 1 named, 10 before, 8 after, all fall to 0.5",
	}
	shortCells = []string{}
)
