package tables

import (
	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/words"
)

// VideoFacts are the videos of a flight, then those of its reviews.
func VideoFacts(d answers.Flight) *report.Facts {
	facts := &report.Facts{}
	for _, video := range d.Videos {
		AddFact(facts, words.FactVideo, report.Text(video))
	}
	for _, r := range d.Reviews {
		for _, video := range r.Videos {
			AddFact(facts, words.VideoOf(r), report.Text(video))
		}
	}
	return facts
}

// ReviewNotes are what was noted at the video, and by whom.
func ReviewNotes(d answers.Flight) *report.Notes { return Notes(words.ReviewNotes(d)) }
