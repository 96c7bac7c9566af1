package pages

import (
	"flag"
	"os"
	"testing"
)

// TestMain has 30 random ledgers for each property, where nobody asks for another
// number: each makes every page.
func TestMain(m *testing.M) {
	if err := flag.Set("rapid.checks", "30"); err != nil {
		panic(err)
	}
	os.Exit(m.Run())
}
