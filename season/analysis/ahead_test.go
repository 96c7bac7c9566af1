package analysis_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"boxbook/season/analysis"
	"boxbook/season/internal/testkit"
)

const aheadBook = `
pilot ines
  expires medical 2027-01-24
  expires licence 2027-01-25
  expires parachute 2026-11-20
  expires insurance 2026-11-25
pilot yuki
sequence known-26
  category sportsman
  programme known
  1 7.4.1.1:10
sequence known-27
  category sportsman
  programme known
  1 7.4.1.1:10
sequence free-27
  category sportsman
  programme free
  1 7.4.1.1:10
contest over 2026-04-18
contest today 2026-11-25
contest spring 2027-04-17..2027-04-18
  enter-by 2027-04-01
contest winter 2026-12-05
  enter-by 2026-11-20
flight 2026-04-18 ines known
  contest over
  sequence known-26
  official 60
`

// Contests that have not begun, by date, with their entry's last day and the
// sequence that is typed for them; what expires within 60 days, or did.
func TestAhead(t *testing.T) {
	ahead := func(book, pilot string) (contests, expires []string, category string) {
		l := testkit.BookOf(t, book)
		a := analysis.AheadOf(l, l.PilotNamed(pilot))
		for _, c := range a.Contests {
			line := fmt.Sprint(c.Contest.Handle, " ", c.Days)
			if c.Contest.EnterBy != 0 {
				line += fmt.Sprint(" ", c.EntryDays)
			}
			if c.Sequence != nil {
				line += " " + c.Sequence.Handle
			}
			contests = append(contests, line)
		}
		for _, e := range a.Expires {
			expires = append(expires, fmt.Sprint(e.What, " ", e.Days))
		}
		return contests, expires, a.Category
	}
	contests, expires, category := ahead(aheadBook, "ines")
	assert.Equal(t, []string{"winter 10 -5 known-27", "spring 143 127 known-27"}, contests)
	assert.Equal(t, []string{"parachute -5", "insurance 0", "medical 60"}, expires)
	assert.Equal(t, "sportsman", category)

	contests, expires, category = ahead(aheadBook, "yuki")
	assert.Equal(t, []string{"winter 10 -5", "spring 143 127"}, contests, "no category, no sequence")
	assert.Empty(t, expires)
	assert.Empty(t, category)

	// Only this season's known is typed: it serves this season's contests alone.
	const last = "sequence known-27\n  category sportsman\n"
	contests, _, _ = ahead(strings.Replace(aheadBook, last, "sequence known-27\n  category primary\n", 1), "ines")
	assert.Equal(t, []string{"winter 10 -5 known-26", "spring 143 127"}, contests)

	// One that does not say what it is comes behind one that does, and not at all where
	// it was flown in practice alone.
	bits := "sequence bits\n  category sportsman\n  1 7.4.1.1:10\n"
	contests, _, _ = ahead(aheadBook+bits, "ines")
	assert.Equal(t, []string{"winter 10 -5 known-27", "spring 143 127 known-27"}, contests)
	bare := strings.Replace(aheadBook, last, "sequence known-27\n  category primary\n", 1) + bits
	contests, _, _ = ahead(bare, "ines")
	assert.Equal(t, []string{"winter 10 -5 known-26", "spring 143 127 bits"}, contests, "nothing says that it is none")
	contests, _, _ = ahead(bare+"flight 2026-10-01 ines practice\n  sequence bits\n  fault 1 radius\n", "ines")
	assert.Equal(t, []string{"winter 10 -5 known-26", "spring 143 127"}, contests)

	// On the day asked about nobody knew a sequence that was first flown later.
	contests, _, _ = ahead(aheadBook+"contest june 2027-06-05\nflight 2027-06-05 ines known\n  contest june\n  sequence known-27\n  official 60\n", "ines")
	assert.Equal(t, []string{"winter 10 -5 known-26", "spring 143 127", "june 192 known-27"}, contests)
}
