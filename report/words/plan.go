package words

import (
	"fmt"

	"boxbook/report/answers"
	"boxbook/season"
)

func PlanSentence(d answers.Plan) string {
	if len(d.Items) == 0 {
		return "Cannot tell where the next points are: " + d.Why + "."
	}
	first := d.Items[0]
	text := fmt.Sprintf("The next points are in %s: about %s percent points on %s, if it is flown as its best quarter was.",
		season.GroupTitle(first.Group), first.Gain.Text(1), d.Sequence)
	if len(d.Items) > 1 && !first.Apart {
		text += " The first and the second are not told apart."
	}
	return text
}

// DrillWords says a drill with its date and text.
func DrillWords(i answers.PlanItem) string {
	text := fmt.Sprintf("%s, since %s", season.GroupTitle(i.Drill), i.Since)
	if i.Text != "" {
		text += ": " + i.Text
	}
	return text
}
