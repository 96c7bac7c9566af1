package commands

import (
	"testing"

	"github.com/stretchr/testify/require"
)

const namedBook = `pilot lbrandt
  name  "Lena Brandt"
pilot ab
  name  "Anna Berg"
pilot cb
  name  "Anna Berg"
coach paul
  name  "Paul Meier"
sequence two
  1  K 10  "loop"
  2  K 10  "roll"
flight 2026-04-18 lbrandt known
  sequence  two
  panel     A
  1         7.0
  2         7.5
`

// A pilot or coach is who has the full name, typed as people write it; a name that
// two have is nobody's.
func TestAFullNameIsItsPilots(t *testing.T) {
	dir, path := ledgerIn(t, namedBook)
	code, said := typed(t, dir, "season", "lena brandt", "-f", path)
	require.Zero(t, code, said)
	require.Contains(t, said, "Lena Brandt")
	code, said = typed(t, dir, "season", "--pilot", "Lena  Brandt", "-f", path)
	require.Zero(t, code, said)
	code, said = typed(t, dir, "log", "drill", "--date", "2026-04-20", "--pilot", "Lena Brandt", "--target", "radius", "--text", "loops", "--by", "Paul Meier", "-f", path)
	require.Zero(t, code, said)
	require.Contains(t, textOf(t, path), "drill 2026-04-20 lbrandt radius \"loops\"")
	code, said = typed(t, dir, "season", "Anna Berg", "-f", path)
	require.Equal(t, exitUsage, code, said)
	require.Contains(t, said, `no pilot is called "Anna Berg"`)
	code, _ = typed(t, dir, "log", "drill", "--date", "2026-04-20", "--pilot", "Anna Berg", "--target", "radius", "--text", "loops", "-f", path)
	require.NotZero(t, code)
}
