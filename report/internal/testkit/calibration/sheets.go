package calibration

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"

	"boxbook/scoring"
	"boxbook/season"
)

// Programmes is what is flown in a record.
type Programmes int

// One known all season; a known, a free and unknowns by turns; two knowns, the
// second from the middle on.
const (
	OneKnown Programmes = iota
	Mixed
	TwoKnowns
)

func (p Programmes) String() string {
	return [...]string{"one known", "known, free and unknowns", "two sequences"}[p]
}

// Grades says how the grades of a pilot's figures come about. Standard deviations
// are in grades.
type Grades struct {
	Families float64 // between families
	Figures  float64 // between figures, about their families
	Scatter  float64 // of a figure from flight to flight, as it is flown
	Judge    float64 // of a judge about the panel
	Judges   int
	// ContestFamily is what a contest adds to each family.
	ContestFamily float64
}

// zeroOfFigure is the chance of a hard zero of a figure where a record has zeros.
const zeroOfFigure = 0.012

// Sheets makes records of judges' marks.
type Sheets struct {
	Totals
	Grades
	Programmes Programmes
	// Own are the families that are flown; nil: those of a club's aeroplane.
	Own []string
	// PerSequence is how many figures a sequence has, 0: ten.
	PerSequence int
}

// Pilot is a pilot's true strengths in grades about the level: by family, and by
// figure of a sequence, drawn when a sequence is met first.
type Pilot struct {
	Family  map[string]float64
	figures map[*season.Sequence][]float64
}

// Flown is one flight: its place, its sequence, the marks in half points by figure
// and judge (nil: a hard zero from all).
type Flown struct {
	Slot
	Programme season.Programme
	Sequence  *season.Sequence
	Marks     [][]int
}

// Sheaf is a record of sheets and the truth about it.
type Sheaf struct {
	Calendar
	Pilot     *Pilot
	Flights   []Flown
	Sequences []*season.Sequence
	made      Sheets
	level     []float64 // in grades, by contest, the one ahead last
	contest   []float64
	families  []map[string]float64 // what a contest adds to each
}

func (s Sheets) own() []string {
	if s.Own == nil {
		return clubFamilies
	}
	return s.Own
}

func (s Sheets) perSequence() int {
	if s.PerSequence == 0 {
		return 10
	}
	return s.PerSequence
}

// NewPilot draws a pilot.
func (s Sheets) NewPilot(r *rand.Rand) *Pilot {
	p := &Pilot{Family: map[string]float64{}, figures: map[*season.Sequence][]float64{}}
	for _, family := range season.Groups {
		p.Family[family] = s.Families * r.NormFloat64()
	}
	return p
}

// Draw makes a sequence of the families that are flown.
func (s Sheets) Draw(r *rand.Rand, handle string, programme season.Programme) *season.Sequence {
	must := slices.Clone(s.own())
	r.Shuffle(len(must), func(i, j int) { must[i], must[j] = must[j], must[i] })
	n := s.perSequence()
	return draw(r, handle, programme, n, must[:min(len(must), n)], s.own())
}

// Make draws a pilot and flies the record.
func (s Sheets) Make(r *rand.Rand) *Sheaf { return s.Fly(r, s.NewPilot(r), nil, nil) }

// Fly lets a pilot fly the record: on the given first sequence (nil: one drawn),
// and with what each flight adds to families, given the record so far (nil: nothing).
func (s Sheets) Fly(r *rand.Rand, p *Pilot, first *season.Sequence, lift func(so *Sheaf, flight int) map[string]float64) *Sheaf {
	out := &Sheaf{Calendar: s.Calendar(r), Pilot: p, made: s}
	for _, level := range s.Path.Make(r, out.At) {
		out.level = append(out.level, (baseLevel+level)/10)
		out.contest = append(out.contest, FlightSD/10*math.Sqrt(s.ContestShare)*r.NormFloat64())
		family := map[string]float64{}
		for _, g := range season.Groups {
			family[g] = s.ContestFamily * r.NormFloat64()
		}
		out.families = append(out.families, family)
	}
	if first == nil {
		first = s.Draw(r, "known-1", season.Known)
	}
	out.Sequences = []*season.Sequence{first}
	for i, slot := range out.Slots {
		f := Flown{Slot: slot, Sequence: s.sequence(r, out, i)}
		f.Programme = f.Sequence.Programme
		var add map[string]float64
		if lift != nil {
			add = lift(out, i)
		}
		f.Marks = out.marks(r, f.Sequence, slot.Contest, add, s.Shape == Zeros)
		out.Flights = append(out.Flights, f)
	}
	return out
}

// sequence says what the flight is on; a sequence not met before is drawn.
func (s Sheets) sequence(r *rand.Rand, out *Sheaf, flight int) *season.Sequence {
	meet := func(handle string, programme season.Programme) *season.Sequence {
		for _, q := range out.Sequences {
			if q.Handle == handle {
				return q
			}
		}
		q := s.Draw(r, handle, programme)
		out.Sequences = append(out.Sequences, q)
		return q
	}
	switch {
	case s.Programmes == TwoKnowns && flight >= s.Flights/2:
		return meet("known-2", season.Known)
	case s.Programmes == Mixed && flight%3 == 1:
		return meet("free-1", season.Free)
	case s.Programmes == Mixed && flight%3 == 2:
		return meet(fmt.Sprintf("unknown-%d", flight/3+1), season.Unknown)
	}
	return out.Sequences[0]
}

// Figure is a figure's true strength in grades about the pilot's level.
func (s *Sheaf) Figure(r *rand.Rand, q *season.Sequence, i int) float64 {
	own, ok := s.Pilot.figures[q]
	if !ok {
		own = make([]float64, len(q.Figures))
		for j := range own {
			own[j] = s.made.Figures * r.NormFloat64()
		}
		s.Pilot.figures[q] = own
	}
	return s.strength(q.Figures[i], s.Pilot.Family) + own[i]
}

// strength is the mean of the families' by shares, in the families' order, so that
// sums of floats come out the same each time.
func (s *Sheaf) strength(f season.Figure, family map[string]float64) float64 {
	sum := 0.0
	for _, e := range f.Elements {
		sum += family[e.Group] * float64(e.K) / float64(f.K)
	}
	return sum
}

// marks flies a sequence once at a contest and has it judged.
func (s *Sheaf) marks(r *rand.Rand, q *season.Sequence, contest int, add map[string]float64, zeros bool) [][]int {
	shape := s.made.Shape
	if shape == Zeros {
		shape = Normal
	}
	day := s.level[contest] + s.contest[contest] + shape.draw(r, FlightSD/10*math.Sqrt(1-s.made.ContestShare))
	rows := make([][]int, len(q.Figures))
	for i, f := range q.Figures {
		flown := day + s.Figure(r, q, i) + s.strength(f, s.families[contest]) + s.strength(f, add) + s.made.Scatter*r.NormFloat64()
		row := make([]int, s.made.Judges)
		for j := range row {
			row[j] = int(math.Round(2 * min(10, max(0, flown+s.made.Judge*r.NormFloat64()))))
		}
		if zeros && r.Float64() < zeroOfFigure {
			row = nil
		}
		rows[i] = row
	}
	return rows
}

// Next flies a sequence at the contest ahead, nothing zeroed, and gives the marks.
func (s *Sheaf) Next(r *rand.Rand, q *season.Sequence) [][]int {
	return s.marks(r, q, len(s.level)-1, nil, false)
}

// percentOf is the K-weighted mean of the figures in percent; zeroed ones count 0.
func percentOf(q *season.Sequence, marks [][]int) float64 {
	sum, k := 0.0, 0
	for i, f := range q.Figures {
		k += f.K
		for _, half := range marks[i] {
			sum += float64(f.K) * float64(half) * 5 / float64(len(marks[i]))
		}
	}
	return sum / float64(k)
}

// Book is the record as a ledger, as of the day before the contest ahead, with
// further sequences that nobody flew yet.
func (s *Sheaf) Book(further ...*season.Sequence) *season.Ledger {
	b := newBook(s.Ahead() - 1)
	b.Sequences = append(slices.Clone(s.Sequences), further...)
	var panel []string
	for j := range s.made.Judges {
		panel = append(panel, string(rune('A'+j)))
	}
	for _, flown := range s.Flights {
		f := b.flight(flown.Day, flown.Programme)
		f.Contest = b.contest(flown.Contest, s.Days[flown.Contest], panel)
		f.Sequence, f.Panel = flown.Sequence, panel
		var rows []season.Row
		for _, marks := range flown.Marks {
			rows = append(rows, rowOf(marks, len(panel)))
		}
		f.Rows = season.RowsOf(rows...)
	}
	return b.Ledger
}

func rowOf(halves []int, judges int) season.Row {
	row := season.Row{Marks: make([]scoring.Mark, judges)}
	for j := range row.Marks {
		row.Marks[j] = scoring.Mark{Kind: scoring.HardZero}
		if halves != nil {
			row.Marks[j] = scoring.GradeOf(halves[j])
		}
	}
	return row
}
