package entry

import (
	"fmt"
	"regexp"
	"strings"
	"sync"

	"boxbook/season"
	"boxbook/season/ledger"
)

// Kinds are the kinds of entry: those of every week, then those of a few times
// a year.
func Kinds() []Kind {
	kinds := []Kind{
		flightKind(), practiceKind(), officialKind(), penaltyKind(), noteKind(), videoKind(), resultKind(),
		faultKind(), reviewKind(), drillKind(), endedKind(), closedKind(),
		costKind(), incomeKind(), settleKind(), dutyKind(),
	}
	for _, k := range []Kind{
		pilotKind(), coachKind(), personKind(), expiryKind(), notFlownKind(),
		contestKind(), entryDayKind(), sequenceKind(), signoffKind(),
		owedKind(), rateKind(), inHandKind(), budgetKind(), agreedKind(),
	} {
		k.Yearly = true
		kinds = append(kinds, k)
	}
	return kinds
}

// Fields that several kinds have.

func dateField() Field {
	return Field{Name: "date", Asks: "the date", Example: "2026-04-18", Meant: ledger.DateMeant, Slip: dateSlip, Default: func(s Scene) string { return s.Ledger.AsOf.String() }}
}

// dateSlip says what is wrong with a text that is not written as a date is.
func dateSlip(s Scene, text string) string { return ledger.DateSlip(text, s.Ledger.AsOf) }

func pilotField() Field {
	return Field{Name: "pilot", Asks: "the pilot", Example: "ines", Propose: Pilots, Only: onlyPilot}
}

// onlyPilot is a ledger's only pilot, "" where there are several.
func onlyPilot(l *season.Ledger) string {
	if len(l.Pilots) == 1 {
		return l.Pilots[0].Handle
	}
	return ""
}

// onlyFlyer is a ledger's only pilot with flights, else its only one.
func onlyFlyer(l *season.Ledger) string {
	if p := l.OnlyFlyer(); p != nil {
		return p.Handle
	}
	return ""
}

func remarkField(example string) Field {
	return Field{Name: "remark", Asks: "a remark", Example: example, Shape: Text, Optional: true}
}

// coachField asks for a coach. There is no more to ask of a new one than a name, so
// that a slip would pass for one: whether to add it is asked.
func coachField() Field {
	return Field{Name: "by", Asks: "the coach", Example: "marek", Optional: true, Propose: Coaches, Adds: "coach", Sure: true}
}

func amountField() Field {
	return Field{
		Name: "amount", Asks: "the amount with its currency", Example: "95.00 EUR", Shape: Words, Count: 2,
		Others: []string{"95.00 CHF", "95.00 USD", "95.00 GBP"},
		Full:   withCurrency, Rest: currencyAsked,
	}
}

// withCurrency adds the currency to an amount that lacks it, where only one can be meant,
// and writes another one as a ledger does.
func withCurrency(s Scene, text string) (string, error) {
	text = ledger.AmountMeant(text)
	if codes := currenciesOf(s); lacksCurrency(text) && len(codes) == 1 {
		return joined(text, codes[0]), nil
	}
	return text, nil
}

// currencyAsked asks for the currency of an amount that lacks it, where several can be
// meant.
func currencyAsked(s Scene, text string) string {
	codes := currenciesOf(s)
	if !lacksCurrency(text) || len(codes) == 1 {
		return ""
	}
	if len(codes) == 0 {
		return "its currency, such as EUR"
	}
	return "its currency (" + strings.Join(codes, ", ") + ")"
}

// dayTyped is a day as it may be typed where an amount is meant: 18.4. or 18.4.2026.
var dayTyped = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`^[0-9]{1,2}\.[0-9]{1,2}\.([0-9]{2}|[0-9]{4})?$`) })

// lacksCurrency reports whether a text is a number alone, and no day.
func lacksCurrency(text string) bool {
	text = strings.TrimPrefix(text, "-")
	return text != "" && strings.Trim(text, "0123456789.,") == "" && text[0] >= '0' && text[0] <= '9' && !dayTyped().MatchString(text)
}

// currenciesOf are those that an amount can be in: of its kind, where the ledger has some,
// else of the ledger.
func currenciesOf(s Scene) []string {
	var ofKind []string
	for _, c := range s.Ledger.Costs {
		if c.Kind == s.One("kind") {
			ofKind = append(ofKind, c.Money.Currency.Code)
		}
	}
	if ofKind = latestOnce(ofKind); len(ofKind) == 1 {
		return ofKind
	}
	l := s.Ledger
	codes := namesOf(l.InHand, func(h *season.InHand) string { return h.Money.Currency.Code })
	codes = append(codes, namesOf(l.Budgets, func(b *season.Budget) string { return b.Money.Currency.Code })...)
	return latestOnce(append(codes, Currencies(l)...))
}

func receiptField() Field {
	return Field{Name: "receipt", Asks: "the receipt's number", Example: "17", Optional: true}
}

func yearField() Field {
	return Field{
		Name: "year", Asks: "the year", Example: "2026", Help: "the club's financial year, named by the calendar year in which it begins",
		Default: func(s Scene) string { return fmt.Sprint(s.Ledger.YearOf(s.Ledger.AsOf)) },
	}
}

// moneyKindField asks for a word for what money was for, out of those that the
// ledger has or a new one.
func moneyKindField(asks, example string, known func(*season.Ledger) []string) Field {
	return Field{Name: "kind", Asks: asks, Example: example, Propose: known, Open: true}
}

func videoField() Field {
	return Field{
		Name: "video", Asks: "a video's path", Example: "videos/2026-04-18-known.mp4", Shape: Text, Optional: true, Repeat: true,
		Help: "the places of faults are in the first", Read: pathOf, Doubt: notAVideo,
	}
}

// pathOf refuses a path of nothing but quotes and spaces.
func pathOf(text string) (path, problem string) {
	if strings.Trim(text, "\"' ") == "" {
		return "", fmt.Sprintf("%q is not the path of a file", text)
	}
	return text, ""
}

// yesField asks a question of yes or no.
func yesField(name, asks, help string) Field {
	return Field{
		Name: name, Asks: asks, Example: "yes", Optional: true, Read: yesOrNo, Help: help,
		Propose: func(*season.Ledger) []string { return []string{"yes", "no"} },
	}
}

// ifYes is a word of the language where a question was answered by yes, else "".
func (v Answers) ifYes(name, word string) string {
	if v.One(name) == "yes" {
		return word
	}
	return ""
}

func flightField() Field {
	return Field{
		Name: "flight", Asks: "the flight", Example: "2026-04-18/ines/known", Propose: Flights,
		Help: "a flight's name, the beginning of one, or last", Full: fullFlight,
	}
}

// targetFlight is the flight that lines go into.
func targetFlight() Field {
	f := flightField()
	f.Target = true
	return f
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
