package words

import (
	"fmt"
	"strings"

	"boxbook/report/answers"
)

// inQuestion says which of a party's payments may have been in another currency, so that
// what it is asked for may be paid, in sentences after a space; "" where none may.
func inQuestion(s answers.Statement) string {
	var said strings.Builder
	for _, p := range s.InQuestion {
		var owed []string
		for _, sum := range p.Owed {
			owed = append(owed, sum.Currency)
		}
		with, ask := "", "the club looks into it"
		other := p.ToName
		if p.To == s.Party {
			other = p.FromName
			with = " from " + PartyName(other)
		}
		if other != "" {
			ask = "ask before paying"
			if p.From == s.Party {
				with = " to " + other
			}
		}
		fmt.Fprintf(&said, " A payment of %s%s on %s may have been in %s; %s.", SumSaid(answers.Sum{Currency: p.Currency, Amount: p.Amount}), with, p.Date, AnyInWords(owed), ask)
	}
	return said.String()
}
