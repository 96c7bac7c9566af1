package commands

import (
	"fmt"
	"strings"

	"boxbook/data"
	"boxbook/data/sources"
	"boxbook/report/answers"
	"boxbook/report/words"
	"boxbook/season"

	"github.com/spf13/cobra"
)

// newTopic is a page of help that is no command: `boxbook help marks`.
// Its text is made when it is asked for.
func newTopic(a *app, name, short string, text func() string) *cobra.Command {
	cmd := &cobra.Command{Use: name, Short: short}
	cmd.SetHelpFunc(func(*cobra.Command, []string) {
		a.unsaid = a.showHelp([]byte(strings.TrimRight(text(), "\n") + "\n")) // a help function gives no error
	})
	return cmd
}

// page is a help text that stands as it is.
func page(text string) func() string { return func() string { return text } }

// methodsTopic is how things are worked out, with the thresholds in force.
func methodsTopic() string {
	text, err := words.MethodsPage(data.Methods, answers.MethodsOf())
	if err != nil {
		return err.Error()
	}
	return text
}

// sourcesTopic is what the shipped numbers rest on, and where it was read.
func sourcesTopic() string {
	text, err := sourcesPage()
	if err != nil {
		return err.Error()
	}
	return text
}

func sourcesPage() (string, error) {
	list, err := sources.List()
	if err != nil {
		return "", err
	}
	values, err := sources.Values(data.Builtin())
	if err != nil {
		return "", err
	}
	return words.SourcesPage(data.Sources, list, values)
}

const marksTopic = `The marks of a score sheet:

  0 ... 10  a grade, in half points: 8, 7.5, 7,5
            [published: baea-rules-1, grade]
  0         a grade like any other: the right figure with ten or more points
            of faults [published: baea-major, 0.0; iac-2018, 0.0]
  HZ        hard zero: the wrong figure, the wrong direction, 90 degrees out
            [published: iac-2018, 7.3.1], a flick of the wrong sign, a tailslide
            shorter than half a fuselage [published: baea-flick, start;
            baea-tailslide, slide]. Under panel-mean, where more than half of
            the judges who gave a mark give HZ, the figure is 0 from every
            judge; a minority is filled like AV; exactly half leaves the figure
            undecided until a line "resolve FIGURE zero" or "resolve FIGURE
            fill" records the chief judge's ruling [memory]
  CHZ       hard zero confirmed by the chief judge: one on any judge's sheet
            makes the figure 0 from every judge [memory]
  PZ        perception zero: a criterion of a flick, spin or tailslide was not
            seen to be met (a slide shorter than half a fuselage: see HZ), for
            gliders also a stall in a loop or turn; an ordinary 0 in the mean
            [published: baea-major, PZ; civa-seminar, part 3, PZ]. Some rules
            have HZ there [published: iac-2018, starts]
  AV        the judge was distracted and did not see the figure [published:
            civa-seminar, part 3, AV]; A is read too [published:
            baea-arithmetic, not seen]; filled with the mean of the other marks
            of the row
  -         the sheet is there, the mark is not; filled, with a note

Letters may be small or capital. The rules in force decide what a judge may
give; boxbook only counts what was given. The sources: boxbook help sources.`

// kindsTopic lists the shipped kinds of fault with what they are measured in.
func kindsTopic() string {
	var b strings.Builder
	b.WriteString("The kinds of fault, with an amount as a fault line writes it; none\nwhere the cost is fixed or nothing:\n\n")
	l, err := (&app{streams: &streams{}, asof: "2000-01-01"}).emptyLedger()
	if err != nil {
		return err.Error()
	}
	for _, kind := range l.FaultKinds {
		fmt.Fprintf(&b, "  %-14s %-7s %s\n", kind.Name, amountExample(kind), kindSays(kind))
	}
	b.WriteString("\nAny kind takes points (1.5pt) and a number of times (3x). What was felt costs\n" +
		"nothing: it is a cause. A ledger may define more: boxbook help language. What\n" +
		"each costs, and where that is from: boxbook help sources.\n\n" +
		"A flick or spin that does not show autorotation (flick-start, spin-start) is PZ\n" +
		"in one source [published: baea-flick, start; baea-spin, start] and HZ in another\n" +
		"[published: iac-2018, starts]: it is what the rules in force have it. Either way\n" +
		"nothing is left of the grade.")
	return b.String()
}

// amountExample is an amount of a kind, "" where it costs what it costs.
func amountExample(kind *season.FaultKind) string {
	if kind.Unit == season.Points && kind.Plain != nil {
		return ""
	}
	return words.AmountExamples[kind.Unit]
}

func kindSays(kind *season.FaultKind) string {
	text := kind.Says
	switch {
	case kind.Safety:
		text += " (safety: stays open)"
	case kind.Felt:
		text += " (felt)"
	}
	return text
}
