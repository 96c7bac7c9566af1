package words

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"boxbook/report/answers"
)

// LostColumns are the words over a table of losses.
type LostColumns struct{ Title, Key, Name string }

// The tables of losses.
var (
	LostByFigure  = LostColumns{"by figure", ColumnFig, ColumnFigure}
	LostByElement = LostColumns{"by element", "code", "where"}
	LostByFamily  = LostColumns{"by family", "key", "family"}
)

// LostRow is a row of a table of losses.
type LostRow struct {
	Key, Name string
	Part      answers.LostPart
}

// weighted are the rows of positioning and harmony, which stand in every table.
func weighted(d *answers.Lost) []LostRow {
	var rows []LostRow
	if d.Positioning != nil {
		rows = append(rows, LostRow{"", PositioningName, *d.Positioning})
	}
	if d.Harmony != nil {
		rows = append(rows, LostRow{"", HarmonyName, *d.Harmony})
	}
	return rows
}

// FigureRows are the losses by figure, the greatest first.
func FigureRows(d *answers.Lost) []LostRow {
	var rows []LostRow
	for _, f := range d.Figures {
		rows = append(rows, LostRow{fmt.Sprint(f.Number), cmp.Or(f.Label, codesOn(d, f.Number)), f.LostPart})
	}
	return mostFirst(append(rows, weighted(d)...))
}

// codesOn are the codes of a figure, which name one without a label; where only its
// families are known, those.
func codesOn(d *answers.Lost, figure int) string {
	var codes, families []string
	for _, e := range d.Elements {
		switch family := GroupName(e.Code); {
		case e.Code == "" || !slices.Contains(e.Figures, figure):
		case family != "":
			families = append(families, family)
		default:
			codes = append(codes, e.Code)
		}
	}
	return cmp.Or(strings.Join(codes, " "), ListInWords(families))
}

// ElementRows are the losses by element code, the greatest first.
func ElementRows(d *answers.Lost) []LostRow {
	var rows []LostRow
	for _, e := range d.Elements {
		where := numberedFigures(e.Figures)
		if e.Code == "" {
			where += ", no codes"
		}
		rows = append(rows, LostRow{e.Code, where, e.LostPart})
	}
	return mostFirst(append(rows, weighted(d)...))
}

// GroupRows are the losses by family, the greatest first.
func GroupRows(d *answers.Lost) []LostRow {
	var rows []LostRow
	for _, g := range d.Groups {
		if name := GroupName(g.Group); name != "" {
			rows = append(rows, LostRow{g.Group, name, g.LostPart})
		} else {
			rows = append(rows, LostRow{"", g.Group, g.LostPart})
		}
	}
	return mostFirst(append(rows, weighted(d)...))
}

// numberedFigures writes "figure 3" or "figures 3, 5".
func numberedFigures(numbers []int) string {
	words := make([]string, len(numbers))
	for i, n := range numbers {
		words[i] = fmt.Sprint(n)
	}
	return PluralWord(len(numbers), "figure ", "figures ") + strings.Join(words, ", ")
}

// mostFirst puts the greatest losses first, equal ones as they came.
func mostFirst(rows []LostRow) []LostRow {
	slices.SortStableFunc(rows, func(a, b LostRow) int { return b.Part.Lost.Rat().Cmp(a.Part.Lost.Rat()) })
	return rows
}

// AnyLost reports whether any points were lost, so that there is something to
// share out.
func AnyLost(d *answers.Lost) bool { return d.Total.Rat().Sign() > 0 }

// LostSentence says in words what cost most.
func LostSentence(d *answers.Lost) string {
	switch {
	case len(FigureRows(d)) == 0:
		return "nothing to share out"
	case !AnyLost(d):
		return "no points were lost"
	}
	text := fmt.Sprintf("%s points lost, penalties not included", d.Total.Text(PointDecimals))
	if len(d.Figures) > 0 {
		text += "; most on " + FigureRows(d)[0].words("figure")
	}
	for i, family := range GroupRows(d) {
		switch {
		case GroupName(family.Key) == "":
		case i == 0:
			return text + "; by family, most on " + family.words("")
		default:
			return text + "; of the families, most on " + family.words("")
		}
	}
	return text
}

// words say a row: "figure 9, square loop: 42.00", with what of it is a zero, and what
// that of a figure is held against: other pages hold it against the other figures.
func (r LostRow) words(before string) string {
	text := fmt.Sprintf("%s: %s", r.named(before), r.Part.Lost.Text(PointDecimals))
	switch zeros := r.Zeros(); zeros {
	case "":
		return text
	case aZero:
		return text + " (" + aZero + ", against full marks)"
	default:
		return text + " (" + zeros + ")"
	}
}

// aZero is what a figure's own row says of its zero.
const aZero = "a zero"

// Zeros says what of a row's loss is a zero, by figure; "" where nothing is. A figure's
// own row goes without the number.
func (r LostRow) Zeros() string {
	zeros := r.Part.Zeros
	switch {
	case len(zeros) == 0:
		return ""
	case len(zeros) == 1 && r.Key == fmt.Sprint(zeros[0].Figure):
		return aZero
	case len(zeros) == 1 && zeros[0].Lost.Rat().Cmp(r.Part.Lost.Rat()) == 0:
		return fmt.Sprintf("all of it a zero in figure %d", zeros[0].Figure)
	}
	said := make([]string, len(zeros))
	for i, z := range zeros {
		of := ""
		if i == 0 {
			of = " of it"
		}
		said[i] = fmt.Sprintf("%s%s a zero in figure %d", z.Lost.Text(PointDecimals), of, z.Figure)
	}
	return ListInWords(said)
}

// ZerosAmong names the figures whose zeros are in rows shown as one; "" where none is.
func ZerosAmong(rows []LostRow) string {
	var figures []int
	for _, row := range rows {
		for _, z := range row.Part.Zeros {
			figures = append(figures, z.Figure)
		}
	}
	if len(figures) == 0 {
		return ""
	}
	slices.Sort(figures)
	figures = slices.Compact(figures)
	return "some of it " + PluralWord(len(figures), "a zero in ", "zeros in ") + numberedFigures(figures)
}

// named is the row's name: "figure 9, square loop".
func (r LostRow) named(before string) string {
	switch {
	case before != "" && r.Key != "" && r.Name != "":
		return fmt.Sprintf("%s %s, %s", before, r.Key, r.Name)
	case before != "" && r.Key != "":
		return before + " " + r.Key
	default:
		return r.Name
	}
}

// LostNotes say how the loss was shared out.
func LostNotes(d *answers.Lost) []string {
	var notes []string
	if d.Undecided > 0 {
		notes = append(notes, Counted(d.Undecided, "line is", "lines are")+" undecided and left out: the shares are of the decided ones")
	}
	switch {
	case !AnyLost(d):
		return notes
	case d.Charged:
		return append(notes, "a fault noted on an element is charged to it first; the rest of a figure's loss is shared in proportion to K")
	default:
		return append(notes, "a figure's loss is shared among its elements in proportion to K")
	}
}

// ShareDecimals are the decimals of a share in percent.
const ShareDecimals = 1

// MoreRows names the rows that are summed up in one.
func MoreRows(n int) string { return fmt.Sprintf("%d more", n) }

// TopLosses is how many rows a table of losses shows before it sums the rest up.
const TopLosses = 5
