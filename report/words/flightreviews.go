package words

import (
	"cmp"

	"boxbook/report/answers"
)

// nobodySaid stands for who went through the video where nobody said it.
const nobodySaid = "reviewed"

// ReviewNotes are the notes of a flight's reviews, each with whose it is; who
// noted nothing at all is named once.
func ReviewNotes(d answers.Flight) []string {
	var said, silent []string
	noted := map[string]bool{}
	for _, r := range d.Reviews {
		who := cmp.Or(r.Name, nobodySaid)
		for _, note := range r.Notes {
			noted[who], said = true, append(said, who+": "+note)
		}
		silent = Once(silent, who)
	}
	for _, who := range silent {
		if !noted[who] {
			said = append(said, who+", without a note")
		}
	}
	return said
}

// VideoOf names a review's own video.
func VideoOf(r answers.Review) string {
	if r.Name == "" {
		return FactVideo
	}
	return FactVideo + ", " + r.Name
}
