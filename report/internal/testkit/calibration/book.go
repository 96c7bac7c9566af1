package calibration

import (
	"fmt"
	"math"
	"sync"

	"boxbook/data"
	"boxbook/scoring"
	"boxbook/season"
	"boxbook/season/ledger"
)

// Category is the one that simulated pilots fly; the next of its ladder is Above.
const (
	Category = "intermediate"
	Above    = "advanced"
)

// shipped is the ledger of nothing but what the program ships.
var shipped = sync.OnceValue(func() season.Ledger {
	result, err := ledger.Load(ledger.Options{
		Files: ledger.Memory{"none.boxbook": ""}, Main: "none.boxbook", Builtin: data.Builtin(), AsOf: firstDay,
	})
	if err != nil || result.Diagnostics.Errors() > 0 {
		panic(fmt.Sprint("what the program ships cannot be read: ", err, result.Diagnostics))
	}
	return *result.Ledger
})

// book is a ledger of one pilot while it is made.
type book struct {
	*season.Ledger
	pilot    *season.Pilot
	ladder   *season.Ladder
	style    *season.RuleStyle
	contests map[int]*season.Contest
}

func newBook(asOf int) *book {
	l := shipped()
	l.AsOf = season.Date(asOf)
	pilot := &season.Pilot{Handle: "ines", Name: "ines"}
	l.Pilots = []*season.Pilot{pilot}
	b := &book{Ledger: &l, pilot: pilot, contests: map[int]*season.Contest{}}
	for _, ladder := range l.Ladders {
		if _, ok := ladder.Category(Category); ok && b.ladder == nil {
			b.ladder = ladder
		}
	}
	for _, style := range l.Styles {
		if style.Name == season.DefaultStyle {
			b.style = style
		}
	}
	return b
}

// contest gives the contest of a number, made where it is asked for first. It
// lasts two days.
func (b *book) contest(number, day int, panel []string) *season.Contest {
	c := b.contests[number]
	if c == nil {
		handle := fmt.Sprintf("contest-%d", number+1)
		c = &season.Contest{Handle: handle, Name: handle, First: season.Date(day), Last: season.Date(day + 1), Panel: panel}
		b.contests[number] = c
		b.Contests = append(b.Contests, c)
	}
	return c
}

// flight adds a flight of a programme; a second one of the programme and day has
// the label 2.
func (b *book) flight(day int, programme season.Programme) *season.Flight {
	label := 1
	for _, f := range b.Flights {
		if f.Date == season.Date(day) && f.Programme == programme {
			label++
		}
	}
	name := fmt.Sprintf("%s/%s/%s", season.Date(day), b.pilot.Handle, programme)
	if label > 1 {
		name += fmt.Sprintf("/%d", label)
	}
	f := &season.Flight{
		Name: name, Date: season.Date(day), Pilot: b.pilot, Programme: programme, Label: label, Category: Category,
		Ladder: b.ladder, Style: b.style, StyleDefault: true,
	}
	b.Flights = append(b.Flights, f)
	return f
}

// Book is the record as a ledger, as of the day before the contest ahead: totals
// of 1000 with two decimals.
func (r Record) Book() *season.Ledger {
	b := newBook(r.Ahead() - 1)
	for i, slot := range r.Slots {
		f := b.flight(slot.Day, season.Known)
		f.Contest = b.contest(slot.Contest, r.Days[slot.Contest], nil)
		f.Official = &season.Official{
			Points:  scoring.Decimal{Units: int64(math.Round(1000 * r.Percents[i])), Places: 2},
			Maximum: &scoring.Decimal{Units: 1000},
			Typed:   true,
		}
	}
	return b.Ledger
}

// withThreshold is the house's policy with another threshold, in thousandths of a
// percent.
func withThreshold(l *season.Ledger, mark float64) *season.Policy {
	house := *l.PolicyNamed(season.HousePolicy)
	house.Keys = append([]season.PolicyKey(nil), house.Keys...)
	for i, key := range house.Keys {
		if key.Key == "threshold" {
			house.Keys[i].Values = []scoring.Decimal{{Units: int64(math.Round(1000 * mark)), Places: 3}}
			house.Keys[i].House = false
		}
	}
	return &house
}
