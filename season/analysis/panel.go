package analysis

import (
	"math"

	"boxbook/scoring"
	"boxbook/season"
	"boxbook/season/stats"
)

// The limits of the panel check: with fewer figures that have a grade, or fewer
// judges, it is silent. Flags need one judge more.
const (
	PanelFigures = 4
	PanelJudges  = 2
)

const (
	FlagChance        = 0.05 // Bonferroni over all grades of the flight
	FlagGap           = 2.0  // grades away from what the rest of the panel says
	flagMADs          = 3.5  // scaled median absolute deviations, the second look
	flagMADFloor      = 0.5  // grades come in halves, so the deviation is often 0
	scatterConfidence = 0.90
)

// PanelCheck is what one flight's marks say of its panel. One pilot's sheets
// cannot tell a lenient judge from one who likes this pilot's flying, so every
// figure is relative to this panel.
type PanelCheck struct {
	Judges []JudgeCheck
	Flags  []MarkFlag
	// Scatter is the standard deviation of a grade about figure and judge, in
	// grades; Between that of the judges' levels, 0 where none was found.
	Scatter, Between float64
	// Noise is the standard deviation that the panel alone gives the flight's
	// percent.
	Noise float64
	// Refit says that flagged grades were set aside for judges and scatter.
	Refit bool
}

// JudgeCheck is one judge of a panel: how far above the panel's mean this judge
// grades (Leniency, in grades, with its standard error by the judge's own scatter), and how unevenly about
// the others (Scatter, the standard deviation over N figures).
type JudgeCheck struct {
	Name     string
	Leniency float64
	SE       float64
	Scatter  float64
	N        int
}

// MarkFlag is a lone grade that stands apart. Fitted is what the rest of the
// panel and the judge's own habit say; T and P are of the deleted residual, P
// corrected for the number of grades, both 0 where only the second look saw it.
type MarkFlag struct {
	Flight *season.Flight
	Line   scoring.LineKind
	Figure int
	Judge  string
	Mark   scoring.Mark
	Fitted float64
	T, P   float64
}

// gradeCell is one grade of a panel table and where it came from.
type gradeCell struct {
	line   scoring.LineKind
	figure int
	judge  int
	mark   scoring.Mark
}

// CheckPanel looks at the grades of the flight's figures by judge: hard zeros,
// perception zeros and marks that are not there are left out, since a zero for
// a wrong figure is on no common scale with the grades. It reports false where
// there are too few judges or figures to say anything.
//
// Model: grade = mean + figure + judge + error, by least squares, unweighted
// by K (a judge's severity is in grades; K only turns it into points). It is
// worked out once; nobody may change what it gives.
func CheckPanel(f *season.Flight) (PanelCheck, bool) {
	check := panelQuestion.Of(f, func() *PanelCheck {
		if check, ok := checkPanel(f); ok {
			return &check
		}
		return nil
	})
	if check == nil {
		return PanelCheck{}, false
	}
	return *check, true
}

// CheckPanels checks the panels of flights side by side, so that each is known when
// it is asked for.
func CheckPanels(flights []*season.Flight) {
	season.SideBySide(len(flights), func(i int) { CheckPanel(flights[i]) })
}

var panelQuestion = season.NewQuestion[*PanelCheck]("panel")

func checkPanel(f *season.Flight) (PanelCheck, bool) {
	table, cells := gradeTable(f)
	if table.Columns < PanelJudges || table.Rows < PanelFigures {
		return PanelCheck{}, false
	}
	fit, err := stats.FitTwoWay(table)
	if err != nil {
		return PanelCheck{}, false
	}
	check := PanelCheck{Flags: flagsOf(f, table, cells, fit)}
	if len(check.Flags) > 0 {
		if without, refit, ok := setAside(table, cells, check.Flags); ok {
			table, fit, check.Refit = without, refit, true
		}
	}
	components, err := stats.VarianceComponents(table, fit)
	if err != nil {
		return PanelCheck{}, false
	}
	check.Scatter, check.Between = fit.Sigma, math.Sqrt(components.Column)
	check.Noise = panelNoise(f, check.Scatter, check.Between)
	check.Judges = judgeChecks(gradedJudges(f), table, fit)
	return check, true
}

// gradeTable is the figures' grades; figures that nobody graded and judges who
// graded nothing are left out.
func gradeTable(f *season.Flight) (stats.Table, []gradeCell) {
	column := gradedColumns(f)
	table := stats.Table{}
	for _, c := range column {
		table.Columns = max(table.Columns, c+1)
	}
	var cells []gradeCell
	for i, row := range f.Rows.All() {
		graded := false
		for j, mark := range row.Marks {
			if mark.Kind != scoring.Grade {
				continue
			}
			graded = true
			table.Cells = append(table.Cells, stats.Cell{Row: table.Rows, Column: column[j], Value: float64(mark.Half) / 2})
			cells = append(cells, gradeCell{scoring.Figure, i + 1, j, mark})
		}
		if graded {
			table.Rows++
		}
	}
	return table, cells
}

// gradedColumns gives each judge of the panel a column, -1 where no grade was
// given.
func gradedColumns(f *season.Flight) []int {
	graded := make([]bool, len(f.Panel))
	for _, row := range f.Rows.All() {
		for j, mark := range row.Marks {
			graded[j] = graded[j] || mark.Kind == scoring.Grade
		}
	}
	columns, next := make([]int, len(f.Panel)), 0
	for j := range columns {
		columns[j] = -1
		if graded[j] {
			columns[j] = next
			next++
		}
	}
	return columns
}

// gradedJudges are the judges who gave a grade, in the order of their columns.
func gradedJudges(f *season.Flight) []string {
	var names []string
	for j, c := range gradedColumns(f) {
		if c >= 0 {
			names = append(names, f.Panel[j])
		}
	}
	return names
}

// flagsOf lists the lone grades: by the deleted residual, and by a second look
// for two wild grades that hide each other.
func flagsOf(f *season.Flight, table stats.Table, cells []gradeCell, fit stats.TwoWay) []MarkFlag {
	var flags []MarkFlag
	seen := map[int]bool{}
	outliers, err := fit.Outliers(table, FlagChance, FlagGap)
	if err == nil {
		for _, o := range outliers {
			seen[o.Cell] = true
			flags = append(flags, flagOf(f, cells[o.Cell], o.Without, o.T, o.Bonferroni))
		}
	}
	polish, err := stats.MedianPolish(table)
	if err != nil {
		return flags
	}
	for _, i := range polish.WildCells(FlagGap, flagMADs, flagMADFloor) {
		if !seen[i] {
			flags = append(flags, flagOf(f, cells[i], table.Cells[i].Value-polish.Residuals[i], 0, 0))
		}
	}
	return flags
}

func flagOf(f *season.Flight, c gradeCell, fitted, t, p float64) MarkFlag {
	return MarkFlag{Flight: f, Line: c.line, Figure: c.figure, Judge: f.Panel[c.judge], Mark: c.mark, Fitted: fitted, T: t, P: p}
}

// setAside fits the table again without the flagged grades: a wild grade left
// in would bias its judge's leniency.
func setAside(table stats.Table, cells []gradeCell, flags []MarkFlag) (stats.Table, stats.TwoWay, bool) {
	without := stats.Table{Rows: table.Rows, Columns: table.Columns}
	for i, cell := range table.Cells {
		flagged := false
		for _, flag := range flags {
			flagged = flagged || (flag.Figure == cells[i].figure && flag.Flight.Panel[cells[i].judge] == flag.Judge)
		}
		if !flagged {
			without.Cells = append(without.Cells, cell)
		}
	}
	fit, err := stats.FitTwoWay(without)
	return without, fit, err == nil
}

// judgeChecks are the judges' leniency and scatter by a fit.
func judgeChecks(names []string, table stats.Table, fit stats.TwoWay) []JudgeCheck {
	checks := make([]JudgeCheck, len(names))
	scatter, err := stats.ColumnScatter(table, scatterConfidence)
	for j, name := range names {
		checks[j] = JudgeCheck{Name: name, Leniency: fit.Columns[j], SE: ownError(fit, j)}
		if err == nil {
			checks[j].Scatter, checks[j].N = scatter[j].SD, scatter[j].N
		}
	}
	return checks
}

// panelNoise is 10 sqrt( scatter^2 sum K^2/(J (sum K)^2) + between^2/J ), in
// percent: what another panel of this size would change by chance.
func panelNoise(f *season.Flight, scatter, between float64) float64 {
	var weights []float64
	for _, line := range f.Sheet().Lines {
		weights = append(weights, float64(line.K))
	}
	noise, ok := stats.WeightedMeanNoise(weights, len(f.Panel), scatter, between)
	if !ok {
		return 0
	}
	const percentPerGrade = 10
	return percentPerGrade * noise
}
