package words

import (
	"cmp"

	"boxbook/report/answers"
)

// ReviewNotes are the notes of a flight's reviews, each with whose it is; who
// noted nothing at all is named once.
func ReviewNotes(d answers.Flight) []string {
	said := reviewsNoted(d)
	var all []string
	noted := map[string]bool{}
	for _, r := range d.Reviews {
		noted[r.Name] = noted[r.Name] || len(r.Notes) > 0
		all = Once(all, r.Name)
	}
	for _, who := range all {
		switch {
		case noted[who]:
		case who == "":
			said = append(said, "reviewed")
		default:
			said = append(said, "reviewed by "+who)
		}
	}
	return said
}

// reviewsNoted are the notes of the reviews alone.
func reviewsNoted(d answers.Flight) []string {
	var said []string
	for _, r := range d.Reviews {
		for _, note := range r.Notes {
			said = append(said, cmp.Or(r.Name, "reviewed")+": "+note)
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
