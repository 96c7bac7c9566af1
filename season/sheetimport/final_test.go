package sheetimport_test

import (
	"strings"
	"testing"

	"boxbook/season/sheetimport"

	"github.com/stretchr/testify/assert"
)

// printed is a sheet as an office prints it: figure 3 is zeroed by the majority, and
// one mark of positioning is an average. By the rules it comes to 105 + 161 + 0 + 155.
const printed = "Tarn Open|||||\nfig|K|A|B|C|Mean|Points\n1|14|8|7.5|7|7.50|105,00\n2|23|6.5|7|7.5|7.00|161,00\n3|9|HZ|HZ|6|0|0\npos|20|8|7.5|AV|7.75|155,00\n"

// A total of all judges beneath their points is compared with the marks, and so is the
// sum of K; each is said when it agrees, and is an error where it differs.
func TestThePrintedTotal(t *testing.T) {
	const total = "note: the total 421,00 agrees with the marks; --official-from G7 takes it as the official one"
	for _, c := range []struct{ name, last, official, said, agreed string }{
		{"agrees", "Total|66|||||421,00", "", "G7 " + total, "its K total 66, its total 421.00"},
		{"agrees, and is taken", "Total|66|||||421,00", "G7", "G7 note: the total 421,00 agrees with the marks", "its K total 66, its total 421.00"},
		{"of the figures alone, in German", "Summe|46|||||421", "", "G7 " + strings.Replace(total, "421,00", "421", 1), "its K total 46, its total 421"},
		{"as typed, what the majority zeroed counted as a grade", "Total|||||||\nGesamt||||||439", "", "G8 note: the total 439 agrees with the marks; --official-from G8 takes it as the official one", "its total 439"},
		{"without a column of points, the only number", "Total|66|||421", "", "E7 " + strings.Replace(strings.Replace(total, "421,00", "421", 1), "G7", "E7", 1), "its K total 66, its total 421"},
		{
			"differs", "Total|66|||||451,00", "",
			"G7 error: the total printed is 451,00, the marks come to 439 as typed, 421 as counted\nhint: one mark or the total is mistyped; --official-from G7 takes it as the official total, --columns leave=G7 leaves it unread",
			"its K total 66",
		},
		{
			"differs, and penalties would lower it", "Total|66|||||391,00", "",
			"hint: one mark or the total is mistyped, or penalties are in it; --official-from G7", "its K total 66",
		},
		{"is more than the marks, and is taken", "Total|66|||||451,00", "G7", "G7 note: the final total is 451,00, the marks come to 439 as typed, 421 as counted: more than the marks, which no penalty makes", "its K total 66"},
		{"differs, and is taken", "Total|66|||||391,00", "G7", "G7 note: the final total is 391,00, the marks come to 439 as typed, 421 as counted: penalties may be in it", "its K total 66"},
		{
			"a K total that differs", "Total|67|||||421,00", "",
			"B7 error: the K total printed is 67, the K of known-26 come to 66, without the weighted lines to 46\nhint: one of them is mistyped, or another sequence is meant; --columns leave=B7 leaves it unread",
			"its total 421.00",
		},
		{"less the penalties of the sheet", "Penalties||||||-30\nTotal||||||391", "", "G8 note: the total 391 agrees with the marks, after the penalties; --official-from G8 takes it as the official one\nG7 note: \"Penalties\", -30, is taken as penalty other 30, its kind not one of low, interruption, out and time\nnote: not read: titles, and what stands outside the table: A1 \"Tarn Open\"", "its total 391 after the penalties"},
		{"the points beneath the K, where the columns are aligned by spaces", "Total|421.00|63.8%", "", "B7 note: the total 421.00 agrees with the marks; --official-from B7 takes it as the official one", "its total 421.00"},
		{"a maximum and a percentage", "Maximum|66|||||660\n%||||||63,8", "", "G8 note: the percentage 63,8 agrees with the marks", "its percentage 63.8"},
		{"a whole percentage, called one", "Percent of the maximum||||||64%", "", "G7 note: the percentage 64 agrees with the marks", "its percentage 64"},
		{"a percentage that differs", "Percent||||||62.9", "", "G7 note: the percentage is 62.9, the marks come to 63.8%", ""},
		{"a percentage after the penalties", "Penalties||||||-30\nResult||||||59,2", "", "G8 note: the percentage 59,2 agrees with the marks", "its percentage 59.2"},
		{"a percentage called a score", "Score||||||63.8", "", "G7 note: the percentage 63.8 agrees with the marks", "its percentage 63.8"},
		{"a total called a score", "Score||||||421", "", "G7 note: the total 421 agrees with the marks", "its total 421"},
		{
			"a total called raw, that differs", "Raw score||||||391,00", "",
			"G7 note: \"Raw score\" is 391,00, the marks come to 439 as typed, 421 as counted: penalties may be in it", "",
		},
		{"a rank is no total", "Rank||||||3", "", "note: not read: titles, and what stands outside the table: A1 \"Tarn Open\", A7 \"Rank\", G7 \"3\"", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			o := expected("A", "B", "C")
			o.Official = c.official
			r := sheetimport.Recognise(gridOf(printed+c.last), o)
			assert.Equal(t, c.agreed, strings.Join(r.Agreed, ", "))
			said := saidOf(r)
			assert.Contains(t, said, "note: compared with the marks: columns F \"Mean\", G \"Points\"")
			assert.NotContains(t, said, "\"421,00\"", "what was compared was read")
			if c.said != "" {
				assert.Contains(t, said, c.said)
			}
		})
	}
}

// A judge's total may be of the marks as typed, zeros as 0 and what is missing as
// nothing, or as they count: filled, or zeroed by the panel. Where neither fits both
// are said.
func TestAJudgesTotalInEitherReading(t *testing.T) {
	const agrees = "agrees with the marks: the total, of 3 of 3 judges"
	for _, c := range []struct{ name, totals, said string }{
		{"as typed", "421,5|416|324,5", agrees},
		{"as counted", "421,5|416|425,5", agrees},
		{"neither", "421,5|416|361,5", "E7 error: the total printed for C is 361,5, the marks come to 324.5 as typed, 425.5 as counted"},
		{"one reading alone", "412,5|416|425,5", "C7 error: the total printed for A is 412,5, the marks come to 421.5\n"},
	} {
		t.Run(c.name, func(t *testing.T) {
			o := expected("A", "B", "C")
			// of C: 14 x 7 + 23 x 7.5 = 270.5, + 9 x 6 as typed 324.5, zeroed 270.5 + 155
			r := sheetimport.Recognise(gridOf(printed+"Total|66|"+c.totals), o)
			assert.Contains(t, saidOf(r), c.said)
		})
	}
}

// A penalty that a total has deducted goes into the flight, its kind by the label; one
// that no total shows is named with what adds it. Neither is called unread.
func TestPenaltiesOfTheSheet(t *testing.T) {
	for _, c := range []struct{ name, last, said, taken string }{
		{"low, between two totals", "Summe|66|||||421\n|Strafe low|||||-20,00\nTotal||||||401", `G8 note: "Strafe low", -20,00, is taken as penalty low 20`, "low 20"},
		{"two", "Penalty (interruption)||||||35\nPenalty, time||||||5,5\nTotal||||||380,5", `G8 note: "Penalty, time", 5,5, is taken as penalty time 5.5`, "interruption 35, time 5.5"},
		{"no total after it", "Total|66|||||421\nPenalty low||||||20", `to add it when the flight is written: boxbook log penalty --flight 2026-04-18/ines/known --penalty "low 20"`, ""},
		{"none", "Penalty low||||||0\nTotal||||||421", `not read: titles`, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := sheetimport.Recognise(gridOf(printed+c.last), expected("A", "B", "C"))
			assert.Empty(t, r.Problems)
			assert.Equal(t, c.taken, strings.Join(r.Penalties, ", "))
			said := saidOf(r)
			assert.Contains(t, said, c.said)
			if c.name != "none" {
				_, outside, _ := strings.Cut(said, "not read: titles")
				assert.NotContains(t, outside, "enalty")
				assert.NotContains(t, outside, "Strafe")
			}
			if strings.Contains(c.last, "421\n") {
				assert.Contains(t, said, "note: the total 421 agrees with the marks, before the penalties\n")
			}
		})
	}
}

// A penalty that the ledger has of the flight is said to be there, be it of a kind that one
// of the two does not name; another one is not.
func TestPenaltiesThatAreThere(t *testing.T) {
	for _, c := range []struct{ name, had, said string }{
		{"the same", "low 20", `G8 note: "Strafe low", 20, is in the ledger already, as penalty low 20`},
		{"of no kind", "other 20", `G8 note: "Strafe low", 20, is in the ledger already, as penalty other 20`},
		{"other points", "low 30", `is left out of the block`},
		{"another kind", "out 20", `is left out of the block`},
	} {
		t.Run(c.name, func(t *testing.T) {
			o := expected("A", "B", "C")
			o.Penalties = []string{c.had}
			assert.Contains(t, saidOf(sheetimport.Recognise(gridOf(printed+"Total|66|||||421\nStrafe low||||||20"), o)), c.said)
		})
	}
}

// A total with something behind it is read where the number is plain, else it is named: it
// is never passed over.
func TestATotalWithTextInIt(t *testing.T) {
	for total, said := range map[string]string{
		"421 pts":     "G7 note: the total 421 agrees with the marks",
		"421,0 / 660": "G7 note: the total 421,0 agrees with the marks",
		"390*":        "G7 error: the total printed is 390, the marks come to 439 as typed, 421 as counted",
		"390 points":  "G7 error: the total printed is 390, the marks come to 439 as typed, 421 as counted",
		"(390)":       `not read: titles, and what stands outside the table: A1 "Tarn Open", G7 "(390)"`,
		"see below":   `not read: titles, and what stands outside the table: A1 "Tarn Open", G7 "see below"`,
	} {
		t.Run(total, func(t *testing.T) {
			assert.Contains(t, saidOf(sheetimport.Recognise(gridOf(printed+"Total|66|||||"+total), expected("A", "B", "C"))), said)
		})
	}
}

// Rows of a label and a value beside it, in whatever column of the table the value comes to
// stand: K, a judge's, a label's. The penalty that the net has deducted is taken.
func TestTotalsBesideTheirLabels(t *testing.T) {
	const (
		labelled = "Tarn Open\nfig|label|K|A|B|C|Points\n1|loop|14|8|7.5|7|105,00\n2|roll|23|6.5|7|7.5|161,00\n3|spin|9|HZ|HZ|6|0\npos||20|8|7.5|AV|155,00\n"
		bare     = "Tarn Open\nfig|A|B|C\n1|8|7.5|7\n2|6.5|7|7.5\n3|HZ|HZ|6\npos|8|7.5|AV\n"
		net      = "its total 421.00 before the penalties, its total 401.00 after the penalties"
	)
	for _, c := range []struct{ name, foot, agreed, taken, said string }{
		{"a score", "Score|421,00", "its total 421.00", "", "B7 note: the total 421,00 agrees with the marks; --official-from B7 takes it"},
		{"a score, penalties and the net", "Score|421,00\nPenalties|20\nNet|401,00", net, "other 20", `B8 note: "Penalties", 20, is taken as penalty other 20`},
		{"a total, a penalty and the net", "Total:|421,00\nPenalty low:|-20\nNet:|401,00", net, "low 20", `B8 note: "Penalty low:", -20, is taken as penalty low 20`},
		{"no total before it", "Penalties|20\nNet|401", "its total 401 after the penalties", "other 20", "B8 note: the total 401 agrees with the marks, after the penalties; --official-from B8"},
		{"a net that differs", "Total|421,00\nPenalties|20\nNet|391,00", "its total 421.00 before the penalties", "", `B9 note: "Net" is 391,00, the marks come to 439 as typed, 421 as counted: penalties may be in it`},
	} {
		for _, table := range []string{printed, labelled, bare} {
			r := sheetimport.Recognise(gridOf(table+c.foot), expected("A", "B", "C"))
			assert.Empty(t, r.Problems, c.name)
			assert.Equal(t, c.agreed, strings.Join(r.Agreed, ", "), c.name)
			assert.Equal(t, c.taken, strings.Join(r.Penalties, ", "), c.name)
			said := saidOf(r)
			assert.Contains(t, said, c.said, c.name)
			if c.taken != "" {
				assert.NotContains(t, said, "not read: row", c.name)
				assert.NotContains(t, said, `"Net"`, c.name)
			}
		}
	}

	// Beneath the K a whole number alone is a sum of K, unless only points come to it.
	r := sheetimport.Recognise(gridOf(printed+"Total|421"), expected("A", "B", "C"))
	assert.Equal(t, []string{"its total 421"}, r.Agreed)
	r = sheetimport.Recognise(gridOf(printed+"Total|67"), expected("A", "B", "C"))
	assert.Contains(t, saidOf(r), "B7 error: the K total printed is 67, the K of known-26 come to 66")
}
