package entry

// Kinds are the kinds of entry, in the order of the help page.
func Kinds() []Kind {
	return []Kind{
		pilotKind(), coachKind(), contestKind(), sequenceKind(),
		faultKind(), reviewKind(), drillKind(), dutyKind(),
		costKind(), incomeKind(),
		transferKind("settle", "add a payment between people, or with the club", "who paid", "who was paid"),
		transferKind("owed", "add a debt older than the ledger", "who owes", "who is owed"),
		signoffKind(), flightKind(), practiceKind(),
	}
}

// Fields that several kinds have.

func dateField() Field {
	return Field{Name: "date", Asks: "the date", Example: "2026-04-18", Default: func(s Scene) string { return s.Ledger.AsOf.String() }}
}

func pilotField() Field {
	return Field{Name: "pilot", Asks: "the pilot", Example: "ines", Propose: Pilots}
}

func remarkField() Field {
	return Field{Name: "remark", Asks: "a remark", Example: "paid with the block entry", Shape: Text, Optional: true}
}

func coachField() Field {
	return Field{Name: "by", Asks: "the coach", Example: "marek", Optional: true, Propose: Coaches}
}

func amountField() Field {
	return Field{Name: "amount", Asks: "the amount with its currency", Example: "95.00 EUR", Shape: Words, Count: 2}
}

func flightField() Field {
	return Field{
		Name: "flight", Asks: "the flight", Example: "2026-04-18/ines/known", Propose: Flights,
		Help: "a flight's name, the beginning of one, or last", Full: fullFlight,
	}
}

func fullFlight(s Scene, text string) (string, error) {
	f, err := s.Flight(text)
	if err != nil {
		return "", err
	}
	return f.Name, nil
}

func contestField(asks string) Field {
	return Field{Name: "contest", Asks: asks, Example: "tarn-open", Propose: latest(Contests)}
}

// handleField names something new.
func handleField(example string) Field {
	return Field{
		Name: "handle", Asks: "a short name for the ledger", Example: example, New: true, Brief: true,
		Help: "a letter, then letters, digits, - or _: everything else in the ledger calls it so",
	}
}

// yesOrNo reads an answer to a question of yes or no: one reading for flags and
// answers.
func yesOrNo(text string) (answer, problem string) {
	yes, ok := yesNo(text)
	switch {
	case !ok:
		return "", neitherYesNorNo(text)
	case yes:
		return "yes", ""
	default:
		return "no", ""
	}
}
