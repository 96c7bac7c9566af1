package ledger

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// tidyPairs are texts as typed and as laid out.
var tidyPairs = []struct{ name, typed, laid string }{
	{
		"nothing", "", "",
	},
	{
		"keys in one column, whatever keys there are",
		"pilot ines\n name \"Ines Halloran\"\n\tclub   \"Kestrel Aero Club\"\ncoach\tmarek\n    name \"Marek Oduya\"\n",
		"pilot ines\n  name      \"Ines Halloran\"\n  club      \"Kestrel Aero Club\"\ncoach marek\n  name      \"Marek Oduya\"\n",
	},
	{
		"rows of marks in columns, letters as capitals, commas as points",
		`flight 2026-04-18   ines known
 contest tarn-open
 1 8,0 7.5 8 hz
 2 chz - 6.5 a
 10 av pz 10 8,5 "E was   looking away"
 positioning 8 7,5 8 -
 judge-totals 596,0 568.17
`,
		`flight 2026-04-18 ines known
  contest      tarn-open
  1            8.0  7.5  8    HZ
  2            CHZ  -    6.5  A
  10           AV   PZ   10   8.5   "E was   looking away"
  positioning  8    7.5  8    -
  judge-totals 596.0 568.17
`,
	},
	{
		"sheets in columns, a judge named like a mark left alone",
		"flight 2026-04-19 ines unknown\n sheet av 8 7 6,5 hz\n sheet B 7.5 7 6 8 \"late\"\n",
		"flight 2026-04-19 ines unknown\n  sheet av     8    7    6.5  HZ\n  sheet B      7.5  7    6    8     \"late\"\n",
	},
	{
		"a long judge's name moves the whole flight's column",
		"flight 2026-04-19 ines unknown\n contest tarn-open\n sheet oduya-halloran 8 7\n sheet B 7 7\n",
		"flight 2026-04-19 ines unknown\n  contest               tarn-open\n  sheet oduya-halloran  8    7\n  sheet B               7    7\n",
	},
	{
		"elements and labels of a sequence",
		`sequence known-26
 category intermediate
 1 8.5.2.1:10 9.1.4.2:4 "half Cuban" # a
 2 1.2.6.3:8 9.11.1.4:5
 3 K 14   2-rolling "rolling turn"
 positioning K 20
 total   K   60
`,
		`sequence known-26
  category     intermediate
  1            8.5.2.1:10 9.1.4.2:4    "half Cuban"  # a
  2            1.2.6.3:8  9.11.1.4:5
  3            K 14 2-rolling          "rolling turn"
  positioning  K 20
  total        K 60
`,
	},
	{
		"labels have a column of their own, however short the rows",
		"sequence silver\n 1 K 7\n 2 K 10 \"loop\"\n",
		"sequence silver\n  1            K 7\n  2            K 10                   \"loop\"\n",
	},
	{
		"a ladder's floors",
		"ladder lakes\n category sportsman floor 1500ft\n category advanced floor 800ft unknowns new 9.10 6\n category middle floor 1000ft unknowns\n category top unknowns\n",
		"ladder lakes\n  category sportsman     floor 1500ft\n  category advanced      floor 800ft  unknowns new 9.10 6\n  category middle        floor 1000ft unknowns\n  category top           unknowns\n",
	},
	{
		"decimal commas of every kind, and none in text or comments",
		`contest tarn-open 2026-04-18
 result ines 1105,35 of 1600,0 place 4 of 9 "8,5"
 cost entry 95,00 EUR for ines # 1,5
rules ours
 fill-rounding 0,1
policy move-up
 share 0,5
 new-families 2 at 6,5
fault-kind drift
 unit span
 free 1,5span
 per 0,5span 1,5
flight 2026-04-18 ines known
 penalty low 20,5
 fault 2 line-length 2,5:1,5 "2,5:1"
 fault 1 other 1,5pt
 fault 1 line-angle 7,5deg
 field 612,25 577,00
cost 2026-04-18 entry -15,00 EUR for ines
rate 2026 CHF 1,04 EUR
`,
		`contest tarn-open 2026-04-18
  result    ines 1105.35 of 1600.0 place 4 of 9 "8,5"
  cost      entry 95.00 EUR for ines  # 1,5
rules ours
  fill-rounding  0.1
policy move-up
  share          0.5
  new-families   2 at 6.5
fault-kind drift
  unit     span
  free     1.5span
  per      0.5span 1.5
flight 2026-04-18 ines known
  penalty      low 20.5
  fault        2 line-length 2.5:1.5 "2,5:1"
  fault        1 other 1.5pt
  fault        1 line-angle 7.5deg
  field        612.25 577.00
cost 2026-04-18 entry -15.00 EUR for ines
rate 2026 CHF 1.04 EUR
`,
	},
	{
		"what is no number keeps its comma",
		"sequence odd\n 1 8,5,2,1:10\nflight 2026-04-18 ines known\n fault 1 radius 1,5,5pt\n 1 7,5,5 ,5 5,\n",
		"sequence odd\n  1            8,5,2,1:10\nflight 2026-04-18 ines known\n  fault        1 radius 1,5,5pt\n  1            7,5,5  ,5   5,\n",
	},
	{
		"money that stands together is aligned, money that stands alone is not",
		"cost  2026-01-10 fuel 1 EUR for ines\nincome 2026-03-01 prize 3 EUR\n\ncost   2026-01-10 fuel 1 EUR for ines\n# a comment parts\nsettle 2026-12-01 ines club 9 EUR\nsignoff 2026-09-12 ines advanced by marek\n",
		"cost   2026-01-10 fuel 1 EUR for ines\nincome 2026-03-01 prize 3 EUR\n\ncost 2026-01-10 fuel 1 EUR for ines\n# a comment parts\nsettle 2026-12-01 ines club 9 EUR\nsignoff 2026-09-12 ines advanced by marek\n",
	},
	{
		"a long keyword about money sticks out, and a slip's number is as it is",
		"cost 2026-06-01 fuel 1,5 EUR for ines 2 yuki 1 receipt 17,5\nin-hand 2026-06-30 bank 3,50 EUR\nsettle 2026-07-01 ines club 2,5 EUR for 1,5 CHF receipt 3,4\n",
		"cost   2026-06-01 fuel 1.5 EUR for ines 2 yuki 1 receipt 17,5\nin-hand 2026-06-30 bank 3.50 EUR\nsettle 2026-07-01 ines club 2.5 EUR for 1.5 CHF receipt 3,4\n",
	},
	{
		"a comment keeps its column and its bytes",
		"pilot ines             # who   we\tare  \n name \"Ines\"   # first,\n               #   second line\n club \"K\" # near\n",
		"pilot ines             # who   we\tare  \n  name      \"Ines\"  # first,\n                    #   second line\n  club      \"K\"  # near\n",
	},
	{
		"comments of one column move together",
		"pilot ines\n name \"Ines\"    # a\n club \"Kestrel\" # b\n note \"x\"       # c\n",
		"pilot ines\n  name      \"Ines\"     # a\n  club      \"Kestrel\"  # b\n  note      \"x\"        # c\n",
	},
	{
		"lines of comment move with the block's lines, or stay",
		"# top\npilot ines\n    # the person\n    name \"Ines\"\n# at the edge\n      # further in\n    note \"x\"\n    # the end\n\n  # loose\n",
		"# top\npilot ines\n  # the person\n  name      \"Ines\"\n# at the edge\n      # further in\n  note      \"x\"\n  # the end\n\n  # loose\n",
	},
	{
		"blank lines stay, trailing white space goes",
		"\n  \npilot ines  \t\n\t\n\n  name \"Ines\"  \n   ",
		"\n\npilot ines\n\n\n  name      \"Ines\"\n",
	},
	{
		"line endings and a missing last one stay",
		"\ufeffpilot ines\r\n name \"Ines\" \r\n\r\ncoach marek\n name   \"Marek\"",
		"\ufeffpilot ines\r\n  name      \"Ines\"\r\n\r\ncoach marek\n  name      \"Marek\"",
	},
	{
		"columns are those of a terminal",
		"contest 山 2026-04-18\n name \"山田\"   # a\n site \"ab\"     # b\nflight 2026-04-18 山 known\n sheet 山田 8 7\n sheet Bo 8 7\n",
		"contest 山 2026-04-18\n  name      \"山田\"  # a\n  site      \"ab\"    # b\nflight 2026-04-18 山 known\n  sheet 山田   8    7\n  sheet Bo     8    7\n",
	},
	{
		"includes and keys without a value",
		"include    \"a.boxbook\"  # a\ninclude \"long.boxbook\" # b\nfault-kind loose\n safety  \n felt\n",
		"include \"a.boxbook\"     # a\ninclude \"long.boxbook\"  # b\nfault-kind loose\n  safety\n  felt\n",
	},
}

// TestTidyPairs holds each text to its layout, and the layout to itself.
func TestTidyPairs(t *testing.T) {
	for _, pair := range tidyPairs {
		t.Run(pair.name, func(t *testing.T) {
			laid, err := Tidy("test.boxbook", pair.typed)
			require.NoError(t, err)
			require.Equal(t, pair.laid, laid)
			again, err := Tidy("test.boxbook", laid)
			require.NoError(t, err)
			require.Equal(t, laid, again)
		})
	}
}
