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
		"families: none differs: 12 flights, 2 a contest, contest share 30 %, one known, figures 0.4, judges 0.5",
		"drills: nothing worked: on the worst of four, 1 named, 10 before, 8 after, all fall to 0.5",
	}
	shortCells = []string{
		"present: 6 flights, 1 a contest, steady",
		"present: 12 flights, 2 a contest, contest share 30 %, steady",
		"present: 20 flights, 3 a contest, contest share 50 %, steady",
		"present: 12 flights, 1 a contest, rises by 20",
		"present: 20 flights, 2 a contest, contest share 30 %, falls by 10",
		"present: 15 flights, 3 a contest, contest share 30 %, a step of 10 down",
		"present: 12 flights, 1 a contest, random walk",
		"present: 20 flights, 2 a contest, contest share 50 %, form that comes and goes",
		"present: 8 flights, 1 a contest, steady, heavy tails",
		"trend: 12 flights, 1 a contest, steady",
		"trend: 20 flights, 3 a contest, contest share 50 %, steady",
		"forecast: 8 flights, 1 a contest, known, free and unknowns, rises by 20, families 0.3, figures 0.4, judges 0.5",
		"forecast: 12 flights, 2 a contest, contest share 50 %, one known, steady, families 0.0, figures 0.4, judges 1.0",

		"families: none differs: 12 flights, 2 a contest, contest share 30 %, one known, figures 0.8, judges 0.5",
		"families: none differs: 12 flights, 2 a contest, contest share 30 %, known, free and unknowns, figures 0.4, judges 1.0",
		"families: one a grade lower, 4 figures, figures 0.0",
		"families' trend: 12 flights, 2 a contest, contest share 30 %, two sequences, a contest adds 0.3",
		"drills: nothing worked: scheduled, 0 named, 16 before, 12 after, all fall to 0.3",
		"drills: nothing worked: on the worst of four, 1 named, 10 before, 8 after, all fall to 0.5",
		"drills: nothing worked: on the worst of all, 4 named, 16 before, 12 after, 2 a contest, all fall to 0.3",
		"drills: nothing worked: scheduled, 1 named, 10 before, 8 after, some figures in 0.4 of flights later",
		"drills: nothing worked: scheduled, 0 named, 16 before, 12 after, on spin-stop, some figures never flown later, from 0.6 to 0.6",
		"drills: nothing worked: scheduled, 0 named, 20 before, 20 after, on axis, 0.3 practice before and 0.9 after, a fault of contests, from 0.9 to 0.9",
		"drills: worked: scheduled, 0 named, 20 before, 20 after, 12 kinds, on radius, from 0.6 to 0.15",
		"family drills: nothing worked: 2 a contest, known, free and unknowns, a contest adds 0.3, on the worst of four true",
		"plan: 12 flights, 1 a contest, one known, steady, families 0.6, figures 0.0",
		"plan: 20 flights, 2 a contest, contest share 30 %, known, free and unknowns, rises by 10, families 0.3, figures 0.4",
	}
)
