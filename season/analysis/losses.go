package analysis

import (
	"math/big"
	"slices"

	"boxbook/scoring"
	"boxbook/season"
)

// Losses say where a flight's points went: maximum less raw points, penalties
// apart. Undecided lines are left out, so that the parts always sum to Total,
// exactly: by figure, by element and by group, each with the weighted lines.
type Losses struct {
	// Total is the loss of the decided lines, 0 where there are no marks.
	Total *big.Rat
	// Figures are the decided figures in order.
	Figures []FigureLoss
	// Positioning and Harmony are nil where there is no such line, or it is
	// undecided.
	Positioning *big.Rat
	Harmony     *big.Rat
	// Elements are summed by code, in the order of the sequence; figures
	// without elements are the row with no code.
	Elements []CodeLoss
	// Groups are in the order of season.Groups, what belongs to none last.
	Groups []GroupLoss
	// Undecided counts the lines left out.
	Undecided int
}

// FigureLoss is the loss of one figure, K x (10 - mean), and of its elements. Zeroed says
// that it counts 0 as a matter of fact.
type FigureLoss struct {
	Number   int
	Lost     *big.Rat
	Zeroed   bool
	Elements []ElementLoss // none where only the figure's K is known
}

// ElementLoss is an element's part of its figure's loss. Charged is what faults
// noted on the element took of it.
type ElementLoss struct {
	Element season.Element
	Charged *big.Rat
	Lost    *big.Rat
}

// CodeLoss is the loss of all elements of one code. Zeros are the parts of it that were
// lost in figures which count 0 as a matter of fact.
type CodeLoss struct {
	Code    string
	Figures []int // the figures it was flown in
	Lost    *big.Rat
	Zeros   []ZeroedFigure
}

// GroupLoss is the loss of all elements of one trend group; Group is "" for what
// belongs to none: figures without codes or hints, and codes of no group.
type GroupLoss struct {
	Group string
	Lost  *big.Rat
	Zeros []ZeroedFigure // as those of a code
}

// Share is a part of the whole loss, from 0 to 1; nil where nothing was lost.
func (l Losses) Share(part *big.Rat) *big.Rat {
	if l.Total == nil || l.Total.Sign() == 0 || part == nil {
		return nil
	}
	return new(big.Rat).Quo(part, l.Total)
}

// LossesOf shares out the flight's loss. A figure's loss is shared in proportion
// to K among its elements, except that seen faults noted on a code are charged
// to it first: deduction x the figure's K, scaled down to the figure's loss
// where the charges exceed it (derived: parts sum to the loss). It is worked out
// once; nobody may change what it gives.
func LossesOf(f *season.Flight) Losses {
	return lossesQuestion.Of(f, func() Losses { return shareLosses(f) })
}

var lossesQuestion = season.NewQuestion[Losses]("losses")

func shareLosses(f *season.Flight) Losses {
	out := Losses{Total: new(big.Rat)}
	if !f.HasMarks() {
		return out
	}
	score, flown, charges := f.Score(), f.Flown(), f.Charges()
	for i, line := range f.Sheet().Lines {
		lost := score.Lines[i].Lost
		if lost == nil {
			out.Undecided++
			continue
		}
		out.Total.Add(out.Total, lost)
		switch line.Kind {
		case scoring.Positioning:
			out.Positioning = lost
		case scoring.Harmony:
			out.Harmony = lost
		default:
			figure, number := f.Sequence.Figures[flown[i]], flown[i]+1
			noted := NotedOnElements(figure, number, charges)
			out.Figures = append(out.Figures, FigureLoss{number, lost, season.Zeroed(f.Rows.Marks(flown[i]), score.Lines[i]), elementLosses(figure, lost, noted)})
		}
	}
	out.sumElements()
	return out
}

// elementLosses shares a figure's loss among its elements.
func elementLosses(figure season.Figure, lost *big.Rat, noted []*big.Rat) []ElementLoss {
	parts := make([]ElementLoss, len(figure.Elements))
	rest, all := lost, weightOf(figure, anyCode)
	if noted != nil {
		rest = new(big.Rat).Sub(lost, charge(parts, noted, big.NewRat(int64(figure.K), 1), lost))
	}
	for i, element := range figure.Elements {
		parts[i].Element, parts[i].Lost = element, portion(rest, element, all)
		if noted == nil {
			parts[i].Charged = new(big.Rat)
		} else {
			parts[i].Lost.Add(parts[i].Lost, parts[i].Charged)
		}
	}
	return parts
}

// charge charges to each element what was noted on it, times the figure's K, and gives
// the sum, which is at most what the figure lost.
func charge(parts []ElementLoss, noted []*big.Rat, k, lost *big.Rat) *big.Rat {
	sum := new(big.Rat)
	for i := range parts {
		parts[i].Charged = new(big.Rat).Mul(noted[i], k)
		sum.Add(sum, parts[i].Charged)
	}
	if sum.Cmp(lost) <= 0 {
		return sum
	}
	scale := new(big.Rat).Quo(lost, sum)
	for i := range parts {
		parts[i].Charged.Mul(parts[i].Charged, scale)
	}
	return lost
}

// NotedOnElements gives what the faults noted on each of a figure's elements
// take, in grades; number is the figure's. It is nil where none is noted on any. A
// code typed twice in the figure means both, and they share in proportion to K. What
// is carried over from the figure before names none of these elements.
func NotedOnElements(figure season.Figure, number int, charges []season.Charge) []*big.Rat {
	var noted []*big.Rat
	for _, c := range charges {
		if c.Figure != number || c.Carried || c.Fault.On == "" {
			continue
		}
		if noted == nil {
			noted = make([]*big.Rat, len(figure.Elements))
			for i := range noted {
				noted[i] = new(big.Rat)
			}
		}
		weight := weightOf(figure, c.Fault.On)
		for i, element := range figure.Elements {
			if element.Code == c.Fault.On {
				noted[i].Add(noted[i], portion(c.Deduction, element, weight))
			}
		}
	}
	return noted
}

// anyCode stands for every code of a figure.
const anyCode = ""

// weight is what a sum is shared by: K, or the number of elements where their
// K is 0 together.
type weight struct {
	k     kSum
	count int
}

func weightOf(figure season.Figure, code string) weight {
	var w weight
	for _, element := range figure.Elements {
		if code == anyCode || element.Code == code {
			w.k.add(element)
			w.count++
		}
	}
	return w
}

// portion is an element's part of a sum.
func portion(sum *big.Rat, element season.Element, all weight) *big.Rat {
	part := new(big.Rat)
	switch {
	case all.count == 1:
		return part.Set(sum)
	case all.k.isZero():
		return part.Mul(sum, big.NewRat(1, int64(all.count)))
	case all.k.parts == nil:
		return part.Mul(sum, big.NewRat(int64(element.K), all.k.whole))
	default:
		return part.Mul(sum, part.Quo(element.ShareK(), all.k.rat()))
	}
}

// sumElements adds the parts of all figures up by code and by group.
func (l *Losses) sumElements() {
	groups := map[string]*GroupLoss{}
	for _, figure := range l.Figures {
		if len(figure.Elements) == 0 {
			l.addCode("", figure, figure.Lost)
			addTo(groups, "", figure, figure.Lost)
		}
		for _, part := range figure.Elements {
			l.addCode(part.Element.Code, figure, part.Lost)
			addTo(groups, part.Element.Group, figure, part.Lost)
		}
	}
	for _, group := range append(slices.Clone(season.Groups), "") {
		if loss := groups[group]; loss != nil {
			l.Groups = append(l.Groups, *loss)
		}
	}
}

func (l *Losses) addCode(code string, figure FigureLoss, lost *big.Rat) {
	at := slices.IndexFunc(l.Elements, func(c CodeLoss) bool { return c.Code == code })
	if at < 0 {
		at = len(l.Elements)
		l.Elements = append(l.Elements, CodeLoss{Code: code, Lost: new(big.Rat)})
	}
	row := &l.Elements[at]
	row.Lost.Add(row.Lost, lost)
	row.Zeros = addZero(row.Zeros, figure, lost)
	if !slices.Contains(row.Figures, figure.Number) {
		row.Figures = append(row.Figures, figure.Number)
	}
}

func addTo(groups map[string]*GroupLoss, key string, figure FigureLoss, part *big.Rat) {
	if groups[key] == nil {
		groups[key] = &GroupLoss{Group: key, Lost: new(big.Rat)}
	}
	row := groups[key]
	row.Lost.Add(row.Lost, part)
	row.Zeros = addZero(row.Zeros, figure, part)
}

// addZero adds a part of a figure's loss to what zeros cost, where the figure is one;
// figures come in order.
func addZero(zeros []ZeroedFigure, figure FigureLoss, part *big.Rat) []ZeroedFigure {
	if !figure.Zeroed || part.Sign() == 0 {
		return zeros
	}
	if last := len(zeros) - 1; last >= 0 && zeros[last].Figure == figure.Number {
		zeros[last].Lost.Add(zeros[last].Lost, part)
		return zeros
	}
	return append(zeros, ZeroedFigure{figure.Number, new(big.Rat).Set(part)})
}
