package calibration

import (
	"fmt"
	"math/rand/v2"
)

// firstDay is the day of a record's first contest, in days since 1970.
const firstDay = 19800

// A record's contests lie about fourWeeks apart, closer where there are many, so
// that the whole record lies within the two years that count.
const (
	fourWeeks  = 28.0
	twoWeeks   = 14
	recordDays = 640.0
)

// Structure is how many flights a record has, and how many a contest.
type Structure struct {
	Flights, PerContest int
	// ContestShare is the part of a flight's variance that its contest has.
	ContestShare float64
	// Late says that the contest ahead, where the truth is, is as far from the last
	// as contests are from each other; else it is two weeks away.
	Late bool
}

// Contests is how many contests the flights are spread over.
func (s Structure) Contests() int { return (s.Flights + s.PerContest - 1) / s.PerContest }

func (s Structure) String() string {
	text := fmt.Sprintf("%d flights, %d a contest", s.Flights, s.PerContest)
	if s.Late {
		text += ", the next one late"
	}
	if s.ContestShare > 0 {
		text += fmt.Sprintf(", contest share %.0f %%", 100*s.ContestShare)
	}
	return text
}

// Slot is one flight's place in the record: its contest and its day.
type Slot struct{ Contest, Day int }

// Calendar is when a record's contests are; the last of Days is that of the
// contest ahead, and At are the days as moments of the record.
type Calendar struct {
	Slots []Slot
	Days  []int
	At    []float64
}

// Calendar draws days for the contests, the next one included. Two flights of a
// contest are on its first day, the third on its second.
func (s Structure) Calendar(r *rand.Rand) Calendar {
	n := s.Contests()
	gap := min(fourWeeks, recordDays/float64(n+1))
	days := make([]int, n+1)
	days[0] = firstDay
	for i := 1; i <= n; i++ {
		days[i] = days[i-1] + 3 + int((gap-3)*(0.5+r.Float64())+0.5)
	}
	if !s.Late {
		days[n] = days[n-1] + twoWeeks
	}
	at := make([]float64, n+1)
	for i, d := range days {
		at[i] = float64(d-days[0]) / float64(days[n]-days[0])
	}
	slots := make([]Slot, s.Flights)
	for i := range slots {
		c := i / s.PerContest
		slots[i] = Slot{c, days[c] + i%s.PerContest/2}
	}
	return Calendar{slots, days, at}
}

// Ahead is the day of the contest ahead.
func (c Calendar) Ahead() int { return c.Days[len(c.Days)-1] }
