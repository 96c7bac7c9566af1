package ledger

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"boxbook/scoring"
	"boxbook/season"

	"golang.org/x/text/currency"
)

// handle takes a name: a letter, then letters, digits, - or _.
func (w *words) handle(want string) (token, string, bool) {
	tok, ok := w.word(want)
	if !ok {
		return tok, "", false
	}
	text := w.text(tok)
	if !season.IsHandle(text) {
		d := w.fail(tok, badHandle, text)
		if text[0] >= '0' && text[0] <= '9' {
			d.hinted("begin with a letter")
		}
		return tok, "", false
	}
	return tok, text, true
}

// date takes a day.
func (w *words) date() (season.Date, token, bool) {
	tok, ok := w.word("a date (YYYY-MM-DD)")
	if !ok {
		return 0, tok, false
	}
	date, ok := w.dateText(tok, w.text(tok))
	return date, tok, ok
}

func (w *words) dateText(tok token, text string) (season.Date, bool) {
	if date, ok := season.ParseDate(text); ok {
		return date, true
	}
	if len(text) == 10 && isNumber(text[:4]+text[5:7]+text[8:]) && text[4] == '-' && text[7] == '-' {
		w.fail(tok, noSuchDay, text)
		return 0, false
	}
	d := w.fail(tok, badDate, text)
	if better := otherDate(text); better != "" {
		d.hinted("write %s", better)
	}
	return 0, false
}

// otherDate rewrites the other ways people write a date: 18.04.2026, 18/4/2026,
// 2026/4/18, 20260418.
func otherDate(text string) string {
	text = strings.NewReplacer("O", "0", "o", "0", "l", "1").Replace(text)
	parts := strings.FieldsFunc(text, func(r rune) bool { return r == '.' || r == '/' || r == '-' })
	if len(parts) == 1 && len(text) == 8 && isNumber(text) {
		parts = []string{text[:4], text[4:6], text[6:]}
	}
	if len(parts) != 3 || !isNumber(strings.Join(parts, "")) {
		return ""
	}
	if len(parts[2]) == 4 {
		parts[0], parts[2] = parts[2], parts[0]
	}
	year, _ := strconv.Atoi(parts[0])
	month, _ := strconv.Atoi(parts[1])
	day, _ := strconv.Atoi(parts[2])
	date, ok := season.DateOf(year, month, day)
	if !ok || year < 1900 {
		return ""
	}
	return date.String()
}

// decimal takes a number that may have a point or a comma; want says what it is.
func (w *words) decimal(want string) (scoring.Decimal, token, bool) {
	tok, ok := w.word(want)
	if !ok {
		return scoring.Decimal{}, tok, false
	}
	d, ok := w.decimalText(tok, w.text(tok), want)
	return d, tok, ok
}

func (w *words) decimalText(tok token, text, want string) (scoring.Decimal, bool) {
	d, ok := scoring.ParseDecimal(text)
	if !ok {
		w.fail(tok, badNumber, text, want).Hint = numberHint(text)
	}
	return d, ok
}

// thousands is a number in groups of three.
var thousands = regexp.MustCompile(`^\d{1,3}([.,']\d{3})+([.,]\d+)?$`)

// numberHint names the slip in a number that cannot be read.
func numberHint(text string) string {
	unsigned := strings.TrimLeft(text, "+-−–")
	zeros := strings.NewReplacer("O", "0", "o", "0", "l", "1", "I", "1").Replace(unsigned)
	switch {
	case isNumber(strings.NewReplacer(".", "", ",", "").Replace(unsigned)) && unsigned != text:
		return "numbers have no sign here"
	case strings.ContainsAny(unsigned, "0123456789") && zeros != unsigned && isNumber(strings.NewReplacer(".", "", ",", "").Replace(zeros)):
		return fmt.Sprintf("a letter for a digit? %s", zeros)
	case thousands.MatchString(text):
		return "write no thousands separator"
	case strings.HasSuffix(text, "%") && isNumber(strings.NewReplacer(".", "", ",", "", "%", "").Replace(text)):
		return fmt.Sprintf("write %s", strings.TrimSuffix(text, "%"))
	case strings.ContainsAny(text, "eE") && isNumber(strings.NewReplacer("e", "", "E", "", "+", "", ".", "").Replace(text)):
		return "numbers have no exponent"
	default:
		return ""
	}
}

// integer takes a whole number from low to high.
func (w *words) integer(want string, low, high int) (int, token, bool) {
	tok, ok := w.word(want)
	if !ok {
		return 0, tok, false
	}
	text := w.text(tok)
	if !isNumber(text) {
		w.fail(tok, badNumber, text, want).Hint = numberHint(text)
		return 0, tok, false
	}
	n, err := strconv.Atoi(text)
	if err != nil || n < low || n > high {
		w.fail(tok, outOfRange, text, strconv.Itoa(low), strconv.Itoa(high))
		return 0, tok, false
	}
	return n, tok, true
}

// choice takes one of a few words.
func (w *words) choice(want string, known []string) (string, token, bool) {
	tok, ok := w.word(want)
	if !ok {
		return "", tok, false
	}
	text := w.text(tok)
	for _, k := range known {
		if text == k {
			return text, tok, true
		}
	}
	w.fail(tok, unknownChoice, text, want, strings.Join(known, ", ")).didYouMean(text, known)
	return "", tok, false
}

// money takes an amount and its currency; negative says that a minus may stand
// before it.
func (w *words) money(negative bool) (season.Money, bool) {
	tok, ok := w.word("an amount (95.00)")
	if !ok {
		return season.Money{}, false
	}
	text := w.text(tok)
	digits, minus := text, false
	for _, sign := range []string{"-", "−"} {
		if rest, found := strings.CutPrefix(text, sign); found {
			digits, minus = rest, true
		}
	}
	if digits != text && !strings.HasPrefix(text, "-") {
		w.fail(tok, badNumber, text, "an amount (95.00)").hinted("type a plain minus: -%s", digits)
		return season.Money{}, false
	}
	amount, ok := scoring.ParseDecimal(digits)
	if !ok {
		d := w.fail(tok, badNumber, text, "an amount (95.00)")
		if d.Hint = numberHint(text); d.Hint == "" {
			d.Hint = gluedCurrency(text)
		}
		return season.Money{}, false
	}
	if minus && !negative {
		w.fail(tok, moneySign, text)
		return season.Money{}, false
	}
	unit, ok := w.currency()
	if !ok {
		return season.Money{}, false
	}
	return w.inMinor(tok, amount, minus, unit)
}

// gluedCurrency is the hint for 95EUR and EUR95.
func gluedCurrency(text string) string {
	number := strings.Trim(text, "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz€$£")
	unit := strings.Trim(text, "0123456789.,-")
	if _, ok := scoring.ParseDecimal(number); !ok || unit == "" || len(number)+len(unit) != len(text) {
		return ""
	}
	switch unit {
	case "€":
		unit = "EUR"
	case "£":
		unit = "GBP"
	case "$":
		unit = "USD"
	}
	return fmt.Sprintf("write %s %s", number, strings.ToUpper(unit))
}

// inMinor turns a typed amount into the currency's smallest unit.
func (w *words) inMinor(tok token, amount scoring.Decimal, minus bool, unit season.Currency) (season.Money, bool) {
	if amount.Places > unit.Decimals {
		w.fail(tok, moneyDecimals, amount, unit.Code, unit.Decimals)
		return season.Money{}, false
	}
	minor := amount.Units
	for range unit.Decimals - amount.Places {
		if minor > maxMinor/10 {
			w.fail(tok, outOfRange, amount, "0", largestAmount(unit))
			return season.Money{}, false
		}
		minor *= 10
	}
	if minor > maxMinor {
		w.fail(tok, outOfRange, amount, "0", largestAmount(unit))
		return season.Money{}, false
	}
	if minus {
		minor = -minor
	}
	return season.Money{Minor: minor, Currency: unit}, true
}

// largestAmount is maxMinor as an amount of the currency.
func largestAmount(unit season.Currency) string {
	return season.Money{Minor: maxMinor, Currency: unit}.Text()
}

// maxMinor keeps sums of very many amounts far from overflow.
const maxMinor = 1_000_000_000_000

// currency takes an ISO 4217 code.
func (w *words) currency() (season.Currency, bool) {
	tok, ok := w.word("a currency (EUR)")
	if !ok {
		return season.Currency{}, false
	}
	text := w.text(tok)
	unit, err := currency.ParseISO(text)
	if err != nil || unit.String() != text {
		d := w.fail(tok, badCurrency, text)
		if err == nil {
			d.hinted("write %s", unit)
		} else if code := map[string]string{"€": "EUR", "£": "GBP", "$": "USD"}[text]; code != "" {
			d.hinted("write %s", code)
		}
		return season.Currency{}, false
	}
	decimals, _ := currency.Standard.Rounding(unit)
	return season.Currency{Code: text, Decimals: decimals}, true
}
