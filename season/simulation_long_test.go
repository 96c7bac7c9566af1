package season_test

import (
	"fmt"
	"math"
	"testing"

	"boxbook/season"
	"boxbook/season/simulate"
	"boxbook/season/stats"
)

func proposal(groups [][]season.TrendPoint) []bool {
	out := make([]bool, len(groups))
	var ps []float64
	trends, _ := season.GroupTrends(groups)
	for g := range groups {
		ps = append(ps, max(trends[g].P, season.FlightTrend(groups[g]).Contests.P))
	}
	q, _ := stats.BenjaminiHochberg(ps)
	for g := range groups {
		ct := season.FlightTrend(groups[g]).Contests
		out[g] = ps[g] <= .10 && q[g] <= .10 && ct.S*trends[g].S > 0 && math.Abs(trends[g].Season) > 3
	}
	return out
}

func TestSimulationFamiliesMore(t *testing.T) {
	cell := 800
	for _, rise := range []float64{0, 3} {
		for _, flights := range []int{12, 20} {
			for _, perContest := range []int{1, 2, 3} {
				for _, contestSD := range []float64{0, 3} {
					for _, two := range []bool{false, true} {
						cell++
						r, called, agree := randomness(cell), rate{}, rate{}
						for range 2000 {
							made := simulate.Families{Figures: familyFigures, Flights: flights, PerContest: perContest, FigureSD: 10, ContestSD: contestSD, SequenceSD: 7, TwoSequences: two}.Make(r)
							groups := make([][]season.TrendPoint, len(made))
							for g := range made {
								groups[g] = points(made[g])
								if rise > 0 && g == 0 {
									for i := range groups[g] {
										groups[g][i].Value += rise * 5.6 * groups[g][i].Day / 160
									}
								}
							}
							trends, _ := season.GroupTrends(groups)
							pr := proposal(groups)
							any, ag := false, false
							for g, tr := range trends {
								if rise > 0 && g > 0 {
									continue
								}
								any = any || firm(tr.Word)
								ag = ag || pr[g]
							}
							called.add(any)
							agree.add(ag)
						}
						fmt.Printf("rise %v %d flights %d a contest, contest %.1f, two %v: now %s  proposal %s\n", rise, flights, perContest, contestSD/10, two, called, agree)
					}
				}
			}
		}
	}
}
