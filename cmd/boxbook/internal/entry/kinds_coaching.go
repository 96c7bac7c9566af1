package entry

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"boxbook/report/display"
	"boxbook/season"
	"boxbook/season/ledger"
)

// faultLong is the help of a fault.
const faultLong = `Add a fault to a flight. The line goes into the flight's own block, so that
--into takes only the file that has the flight. A coach who keeps a file of
their own notes faults there with boxbook log review.`

func faultKind() Kind {
	return Kind{
		Name: "fault", Short: "add a fault to a flight", Long: faultLong,
		Fields: []Field{
			targetFlight(),
			{
				Name: "figure", Asks: "the figure's number (- for the whole flight)", Example: "1", Others: []string{none}, Under: sequenceOfFlight,
				Shape: Words, Quotes: true, Full: figureMeant, Doubt: Scene.withoutRow, Help: "or its label, where only one has it",
			},
			{Name: "kind", Asks: "the kind of fault", Example: "line-angle", Propose: FaultKinds, Coded: true, Help: "boxbook help kinds lists them"},
			{Name: "amount", Asks: "how much", Example: "10deg", Shape: Words, Optional: true, Help: "10deg, 2:1, 1.5span, 1.5pt or 3x", Meant: amountMeant, Doubt: notedAlready},
			{
				Name: "on", Asks: "the code it was on", Example: "8.5.2.1", Optional: true,
				When: func(s Scene) bool { return s.One("figure") != none },
			},
			{
				Name: "as", Asks: "seen by a judge's eye, or felt", Example: "seen", Optional: true,
				Propose: func(*season.Ledger) []string { return []string{"seen", "felt"} }, Slip: neitherSeenNorFelt,
			},
			{Name: "at", Asks: "where it is in the video", Example: "1:12", Optional: true, Help: "minutes and seconds of the flight's first video"},
			coachField(), remarkField("waits, then snatches"),
		},
		Write: writeFault,
	}
}

// amountMeant takes a fault's amount with a space before its unit, or with the sign of
// degrees: 10 deg, 10°.
func amountMeant(text string) string {
	text = strings.Replace(text, "°", "deg", 1)
	number, unit, found := strings.Cut(text, " ")
	if unit = strings.TrimSpace(unit); found && slices.Contains([]string{"deg", "span", "pt", "x"}, unit) {
		return number + unit
	}
	return text
}

// notedAlready doubts a fault that the flight has by the same amount; "" where it has none.
func notedAlready(s Scene, amount string) string {
	f, err := s.Flight(s.One("flight"))
	figure, notFigure := strconv.Atoi(s.One("figure"))
	if err != nil || notFigure != nil || f.Times(figure) > 1 {
		return ""
	}
	for _, fault := range f.Faults {
		if fault.Figure == figure && fault.Kind.Name == s.One("kind") && fault.Amount.Text == amount {
			return fmt.Sprintf("%s of %s on figure %d is already there: typed again, it may cost twice", joined(fault.Kind.Name, amount), f.Name, figure)
		}
	}
	return ""
}

// neitherSeenNorFelt says what may be answered, where it is neither; "" where it is.
func neitherSeenNorFelt(_ Scene, text string) string {
	if text == "seen" || text == "felt" {
		return ""
	}
	return fmt.Sprintf("%q is neither: seen or felt, or Enter for none", text)
}

// writeFault is `fault FIG KIND [AMOUNT] [on CODE] [seen|felt] [at M:SS] [by
// COACH]`.
func writeFault(s Scene) (Addition, error) {
	figure, err := figureMeant(s, s.One("figure"))
	if err != nil {
		return Addition{}, err
	}
	add, err := s.intoFlight("a fault of ", joined(
		"fault", figure, s.One("kind"), s.One("amount"), s.Behind("on", "on"), s.One("as"),
		s.Behind("at", "at"), s.Behind("by", "by"), quoted(s.One("remark"))))
	add.Remark, add.Means = s.withoutRow(figure), s.figureLabel(figure)
	return add, err
}

// figureLabel says which figure of the named flight a number is, "" where that has no label.
func (s Scene) figureLabel(figure string) string {
	f, err := s.Flight(s.One("flight"))
	n, notNumber := strconv.Atoi(figure)
	if err != nil || notNumber != nil || f.Sequence == nil || n < 1 || n > len(f.Sequence.Figures) {
		return ""
	}
	label := f.Sequence.Figures[n-1].Label
	if label == "" {
		return ""
	}
	return fmt.Sprintf("figure %d: %s", n, display.OneLine(label))
}

// figureMeant is the number of the figure that a person names by its label, in capitals
// or not; what is no label of one stays as it is, one word for the reader to judge.
func figureMeant(s Scene, text string) (string, error) {
	label := strings.Trim(strings.TrimSpace(text), `"`)
	f, err := s.Flight(s.One("flight"))
	if err != nil || f.Sequence == nil || isNumber(label) || label == none {
		return text, err
	}
	var found, labels []string
	for i, figure := range f.Sequence.Figures {
		number := strconv.Itoa(i + 1)
		if figure.Label != "" {
			labels = append(labels, number+" "+figure.Label)
		}
		if strings.EqualFold(figure.Label, label) {
			found = append(found, number)
		}
	}
	switch {
	case len(found) == 1:
		return found[0], nil
	case len(found) > 1:
		return "", &Refusal{Text: fmt.Sprintf("figures %s are called %q: which number is meant?", strings.Join(found, " and "), label)}
	case len(strings.Fields(text)) > 1:
		return "", &Refusal{fmt.Sprintf("no figure of %s is called %q", f.Name, label), "figures: " + strings.Join(labels, ", ")}
	default:
		return text, nil
	}
}

// sequenceOfFlight is the sequence that the named flight's figures are of.
func sequenceOfFlight(s Scene) string {
	f, err := s.Flight(s.One("flight"))
	if err != nil {
		return ""
	}
	return sequenceText(f.Sequence)
}

// withoutRow says of a fault that its figure has no row in the named flight: in practice,
// that is, where a coach may grade some figures and note faults on others. "" where it has.
func (s Scene) withoutRow(fault string) string {
	f, err := s.Flight(s.One("flight"))
	if err != nil {
		return ""
	}
	figure, _, _ := strings.Cut(strings.TrimSpace(fault), " ")
	n, err := strconv.Atoi(figure)
	if err != nil || f.Sequence == nil || n < 1 || n > len(f.Sequence.Figures) || f.Flew(n) {
		return "" // else the reader says what is wrong
	}
	return fmt.Sprintf("figure %d has no row in %s", n, f.Name)
}

const reviewLong = `Add a coach's review of the video, apart from the flight: it can stand in a file
of the coach's own. A fault is written as in a flight,

  FIGURE KIND [AMOUNT] [on CODE] [seen|felt] [at M:SS] ["remark"]

where at is the place in the review's own first video, else in the flight's. A
review says that the flight was reviewed: a fault that it does not name counts
as not seen there. A pilot's note on a flight is boxbook log note.`

func reviewKind() Kind {
	flight := flightField()
	flight.Propose = flightsToReview
	return Kind{
		Name: "review", Short: "add a coach's review of a video", Long: reviewLong,
		Fields: []Field{
			flight, coachField(),
			{
				Name: "fault", Asks: "a fault", Example: "1 timing felt at 1:12", Shape: Words, Optional: true, Repeat: true, Quotes: true, Under: sequenceOfFlight, Doubt: Scene.withoutRow,
				Help: "FIGURE KIND [AMOUNT] [on CODE] [seen|felt] [at M:SS] [\"remark\"]; at is the place in the video",
			},
			videoField(),
			{Name: "note", Asks: "a note", Example: "wings level late", Shape: Text, Optional: true, Repeat: true},
		},
		Write: func(s Scene) (Addition, error) {
			f, err := s.Flight(s.One("flight"))
			if err != nil {
				return Addition{}, err
			}
			var without []string
			for _, fault := range s.Answers["fault"] {
				if said := s.withoutRow(fault); said != "" && !slices.Contains(without, said) {
					without = append(without, said)
				}
			}
			var t blockText
			t.line("review", f.Name, s.Behind("by", "by")).each("fault", s.Answers["fault"])
			t.each("video", allQuoted(s.Answers["video"])).each("note", allQuoted(s.Answers["note"]))
			return Addition{Block: t.tidied(), Said: "a review of " + f.Name, Remark: strings.Join(without, "\n")}, nil
		},
	}
}

func drillKind() Kind {
	pilot := pilotField()
	pilot.Only = onlyFlyer
	return Kind{
		Name: "drill", Short: "add a drill that was set",
		Fields: []Field{
			dateField(), pilot,
			{
				Name: "target", Asks: "a kind of fault, or a family", Example: "line-angle",
				Propose: Targets, Coded: true,
			},
			{Name: "text", Asks: "what is to be practised", Example: "against the horizon", Shape: Text, Optional: true},
			{
				Name: "prompted-by", Asks: "a flight that prompted it", Example: "2026-04-18/ines/known", Optional: true, Repeat: true,
				Propose: Flights, Full: fullFlight,
			},
			coachField(),
		},
		Write: writeDrill,
	}
}

func writeDrill(s Scene) (Addition, error) {
	var t blockText
	t.line("drill", s.One("date"), s.One("pilot"), s.One("target"), quoted(s.One("text")))
	for _, selector := range s.Answers["prompted-by"] {
		f, err := s.Flight(selector)
		if err != nil {
			return Addition{}, err
		}
		t.body("prompted-by", f.Name)
	}
	t.body("by", s.One("by"))
	return Addition{Block: t.tidied(), Said: "a drill for " + s.One("pilot")}, nil
}

func signoffKind() Kind {
	coach := coachField()
	coach.Optional = false
	return Kind{
		Name: "signoff", Short: "add a coach's sign-off for a category",
		Fields: []Field{
			dateField(), pilotField(),
			{Name: "category", Asks: "the category", Example: "advanced", Propose: Categories},
			coach, remarkField("spins and inverted recoveries flown dual"),
		},
		Write: func(s Scene) (Addition, error) {
			if known := Categories(s.Ledger); !slices.Contains(known, s.One("category")) && ledger.Nearest(s.One("category"), known) != "" {
				return Addition{}, s.host.Unknown("category", s.One("category"), known) // a slip: a sign-off counts for a step of a ladder
			}
			var t blockText
			t.line("signoff", s.One("date"), s.One("pilot"), s.One("category"), "by", s.One("by"), quoted(s.One("remark")))
			return Addition{Block: t.tidied(), Said: "the sign-off of " + s.One("pilot")}, nil
		},
	}
}
