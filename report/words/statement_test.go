package words_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"

	"boxbook/report/answers"
	"boxbook/report/words"
)

// Whose statements have a line in question is said by the reason, so many by name.
func TestLookFirst(t *testing.T) {
	page := func(name string, why answers.LineDoubt, receipt string) answers.WarnedPage {
		return answers.WarnedPage{Party: name, Name: name, Why: why, Receipt: receipt}
	}
	assert.Empty(t, words.LookFirst(nil))
	assert.Equal(t, "look first at the pages of cleo and finn (a payment of which nothing was owed); ines (a line typed twice? and receipt 17 on two lines); tobias (a line with a warning)",
		words.LookFirst([]answers.WarnedPage{
			page("cleo", answers.DoubtNotOwed, ""), page("ines", answers.DoubtTwice, ""), page("finn", answers.DoubtNotOwed, ""),
			page("ines", answers.DoubtReceipt, "17"), page("tobias", answers.DoubtOther, ""),
		}))
	var many []answers.WarnedPage
	for i := range 10 {
		many = append(many, page(fmt.Sprintf("m%d", i), answers.DoubtOther, ""))
	}
	many = append(many, page("m9", answers.DoubtNotOwed, ""), page("m0", answers.DoubtTwice, ""))
	assert.Equal(t, "look first at the pages of m9 (a payment of which nothing was owed and a line with a warning); m0 (a line typed twice? and a line with a warning); m1, m2, m3, m4, m5 and m6 (a line with a warning); 2 more pages",
		words.LookFirst(many), "each once, and money before a warning that all have")
	many = append(many[:10], page("m9", answers.DoubtNotOwed, ""), page("m0", answers.DoubtWay, ""))
	assert.Contains(t, words.LookFirst(many), "pages of m0 (a payment the wrong way round? and a line with a warning); m9 (a payment of which")
	many = many[:10]
	assert.Equal(t, "look first at the pages of m0, m1, m2, m3, m4, m5, m6 and m7 (a line with a warning); 2 more pages", words.LookFirst(many))
}
