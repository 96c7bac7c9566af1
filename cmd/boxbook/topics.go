package main

import (
	"boxbook/data"

	"github.com/spf13/cobra"
)

// newTopic is a page of help that is no command: `boxbook help marks`.
func newTopic(name, short, text string) *cobra.Command {
	return &cobra.Command{Use: name, Short: short, Long: text}
}

const marksTopic = `The marks of a score sheet:

  0 ... 10  a grade, in half points: 8, 7.5, 7,5
  0         a grade like any other: the right figure with ten or more points
            of faults
  HZ        hard zero: the wrong figure, the wrong direction, 90 degrees out.
            Under panel-mean more than half of the judges who gave a mark make
            the figure 0 from every judge; a minority is filled like AV;
            exactly half leaves the figure undecided until a line
            "resolve FIGURE zero" or "resolve FIGURE fill" records the chief
            judge's ruling
  CHZ       hard zero confirmed by the chief judge: one in a row makes the
            figure 0 from every judge
  PZ        perception zero: a criterion of a flick, spin or tailslide was not
            seen to be met; an ordinary 0 in the mean
  AV        the judge did not see the figure (A is read too); filled with the
            mean of the other marks of the row
  -         the sheet is there, the mark is not; filled, and said so

Letters may be small or capital. The rules in force decide what a judge may
give; boxbook only counts what was given.`

func languageTopic() string {
	return "A ledger by example, as `boxbook start` writes it:\n\n" + data.Template
}
