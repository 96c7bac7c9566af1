package pages

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"boxbook/report"
	"boxbook/report/answers"
)

const reviewedFlight = `flight 2026-04-18 ines known
  sequence known-26
  video "videos/known.mp4"
  video "videos/wing.mp4"
  note "12 kt"
  fault 2 line-angle 10deg seen at 1:12 "drawn at eighty"
  reviewed by marek
review 2026-04-18/ines/known by marek
  video "videos/ground.mp4"
  fault 3 spin-stop 20deg seen at 1:02:03 "late rudder"
  note "spins late"
  note "loops round"
review 2026-04-18/ines/known
  fault 1 radius seen
`

// Videos, places and remarks of faults, and every review's notes stand on the
// page with whose they are; in JSON under the names of the contract.
func TestFlightReviews(t *testing.T) {
	d := answers.FlightOf(faultBook(t, kestrelBook+reviewedFlight).Flights[0])
	doc := report.Document{Sections: append(faultSections(d), reviewSections(d)...)}
	text := textOf(t, doc)
	assert.Contains(t, text, `
fig  fault       amount  on  costs  noted  by          at
─────────────────────────────────────────────────────────
  2  line-angle   10deg       2.00  seen             1:12
  3  spin-stop    20deg       4.00  seen   marek  1:02:03
  1  radius                   1.00  seen
`)
	assert.Contains(t, text, "- figure 3, spin-stop: at 1:02:03 of videos/ground.mp4, late rudder\n", "in a video of its own")
	assert.Contains(t, text, "- figure 2, line-angle: drawn at eighty\n")
	assert.Contains(t, text, `
Videos and reviews

video               videos/known.mp4
video               videos/wing.mp4
video, Marek Oduya  videos/ground.mp4

- Marek Oduya: spins late
- Marek Oduya: loops round
- reviewed`)
	encoded, err := json.Marshal(map[string]any{"faults": d.Faults[:2], "videos": d.Videos, "reviews": d.Reviews, "notes": d.Notes})
	require.NoError(t, err)
	assert.JSONEq(t, `{
		"videos": ["videos/known.mp4", "videos/wing.mp4"], "notes": ["12 kt"],
		"reviews": [{"by": "marek", "name": "Marek Oduya", "notes": []},
			{"by": "marek", "name": "Marek Oduya", "notes": ["spins late", "loops round"], "videos": ["videos/ground.mp4"]}, {"notes": []}],
		"faults": [
			{"figure": 2, "label": "stall turn, quarter roll up", "kind": "line-angle", "says": "line at the wrong angle", "amount": "10deg", "deduction": 2, "points": 46, "seen": true, "at": "1:12", "atSeconds": 72, "video": "videos/known.mp4",
				"remark": "drawn at eighty", "counted": true, "graded": true},
			{"figure": 3, "label": "one and a quarter spin", "kind": "spin-stop", "says": "spin under- or over-rotated", "amount": "20deg", "deduction": 4, "points": 56, "seen": true, "at": "1:02:03", "atSeconds": 3723, "video": "videos/ground.mp4",
				"by": "marek", "remark": "late rudder", "counted": true, "graded": true}]}`, string(encoded))
}

// A debrief says where the videos are, whose places stand beside its faults.
func TestDebriefNamesTheVideos(t *testing.T) {
	l := faultBook(t, kestrelBook+reviewedFlight)
	text := textOf(t, Debrief(answers.DebriefOf(l, l.Flights[0])))
	assert.Contains(t, text, "- video: videos/known.mp4\n- video: videos/wing.mp4\n- video, Marek Oduya: videos/ground.mp4\n")
}

// A flight without a video or a review has no such section.
func TestFlightWithoutReviews(t *testing.T) {
	d := answers.FlightOf(faultBook(t, kestrelBook+"flight 2026-04-18 ines known\n  sequence known-26\n  fault 1 radius seen\n").Flights[0])
	assert.Empty(t, reviewSections(d))
	assert.NotContains(t, textOf(t, report.Document{Sections: faultSections(d)}), " at\n")
}
