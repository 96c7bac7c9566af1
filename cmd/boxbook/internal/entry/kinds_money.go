package entry

import "boxbook/season"

func costKind() Kind {
	contest := contestField("the contest it belongs to")
	contest.Optional = true
	return Kind{
		Name: "cost", Short: "add money spent",
		Fields: []Field{
			contest,
			{
				Name: "date", Asks: "the date", Example: "2026-04-18", Optional: true,
				Help:     "the contest's first day where it is left out",
				NeededIf: func(s Scene) bool { return !s.Has("contest") },
				Default:  dateWithoutContest,
			},
			{Name: "kind", Asks: "what it was for", Example: "fuel", Help: "entry, fuel, lodging, membership, or any word"},
			amountField(),
			{
				Name: "for", Asks: "who it was for, pilots or club", Example: "ines", Shape: Words, Not: []string{"by", "to"},
				Propose: Parties,
			},
			{Name: "paid-by", Asks: "who paid", Example: "club", Optional: true, Propose: Parties},
			{
				Name: "to-club", Asks: "whether the club received it", Example: "yes", Optional: true, Read: yesOrNo,
				Help: "what the club received is its income", Propose: func(*season.Ledger) []string { return []string{"yes", "no"} },
			},
			remarkField(),
		},
		Write: writeCost,
	}
}

// dateWithoutContest is the day that counts as today, where no contest has one.
func dateWithoutContest(s Scene) string {
	if s.Has("contest") {
		return ""
	}
	return s.Ledger.AsOf.String()
}

func writeCost(s Scene) (Addition, error) {
	toClub := ""
	if s.One("to-club") == "yes" {
		toClub = "to club"
	}
	line := joined("cost", s.One("date"), s.One("kind"), s.One("amount"), s.Behind("for", "for"), s.Behind("by", "paid-by"), toClub, quoted(s.One("remark")))
	switch {
	case s.Has("contest"):
		return s.inContest("a cost of ", line)
	case !s.Has("date"):
		return Addition{}, &Refusal{Text: "a cost needs a date, or a contest to belong to: --date or --contest"}
	default:
		return Addition{Block: line + "\n", Said: "a cost"}, nil
	}
}

func incomeKind() Kind {
	return Kind{
		Name: "income", Short: "add money received",
		Fields: []Field{
			dateField(),
			{Name: "kind", Asks: "what it was", Example: "sponsorship"},
			amountField(),
			{Name: "for", Asks: "the pilot who received it, where it was not the club", Example: "ines", Optional: true, Propose: Pilots},
			remarkField(),
		},
		Write: func(s Scene) (Addition, error) {
			line := joined("income", s.One("date"), s.One("kind"), s.One("amount"), s.Behind("for", "for"), quoted(s.One("remark")))
			return Addition{Block: line + "\n", Said: "an income"}, nil
		},
	}
}

// transferKind is what one party pays or owes another.
func transferKind(kind, short, from, to string) Kind {
	return Kind{
		Name: kind, Short: short,
		Fields: []Field{
			dateField(),
			{Name: "from", Asks: from, Example: "ines", Propose: Parties},
			{Name: "to", Asks: to, Example: "club", Propose: Parties},
			amountField(), remarkField(),
		},
		Write: func(s Scene) (Addition, error) {
			line := joined(kind, s.One("date"), s.One("from"), s.One("to"), s.One("amount"), quoted(s.One("remark")))
			return Addition{Block: line + "\n", Said: "the " + kind + " line"}, nil
		},
	}
}
