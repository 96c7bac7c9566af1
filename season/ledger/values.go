package ledger

import (
	"cmp"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"

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
		w.fail(tok, badHandle, text).advise(handleAdvice(text))
		return tok, "", false
	}
	return tok, text, true
}

// handleAdvice names the slip in what is no name. Where a number with a point
// stands, the name before it was forgotten.
func handleAdvice(text string) advice {
	if _, number := scoring.ParseDecimal(text); number && !isNumber(text) {
		return hint(wordBefore)
	}
	switch last := text[len(text)-1]; {
	case (last == ',' || last == ';') && season.IsHandle(text[:len(text)-1]):
		return hint("put only white space between names")
	case last == ':' && season.IsHandle(text[:len(text)-1]):
		return instead("write %s", text[:len(text)-1])
	case text[0] >= '0' && text[0] <= '9':
		return hint("begin with a letter")
	default:
		return advice{}
	}
}

// wordBefore is the hint where a word seems to have been left out.
const wordBefore = "is a word missing before it?"

// date takes a day.
func (w *words) date() (season.Date, token, bool) {
	tok, ok := w.word("a date (YYYY-MM-DD)")
	if !ok {
		return 0, tok, false
	}
	date, ok := w.dateText(tok, tok)
	return date, tok, ok
}

// dateText reads a part of a token, or all of it, as a day.
func (w *words) dateText(tok, part token) (season.Date, bool) {
	text := w.text(part)
	if date, ok := season.ParseDate(text); ok {
		return date, true
	}
	if isDateForm(text) {
		w.fail(tok, noSuchDay, text)
		return 0, false
	}
	next := w.peek()
	d := w.fail(tok, badDate, text)
	switch before := w.f.tokens[w.i-2]; {
	case startsLikeDate(next) && season.IsHandle(text) && before == w.nth(0):
		d.hinted("the date comes first")
	case startsLikeDate(next) && season.IsHandle(text):
		d.hinted("no space inside a name: %s", w.text(before)+"-"+text)
	case part != tok && isNumber(text):
		d.hinted("both days are written in full: %s", isoDate+".."+isoDate[:len(isoDate)-1]+"7")
	default:
		d.adviseFor(span{w.f, tok.line, part.start, part.end}, dateAdviceOn(text, w.r.opts.AsOf))
	}
	return 0, false
}

// notAhead warns of a day that is later than the one that counts as today.
func (r *reader) notAhead(f *file, tok token, day season.Date) {
	if r.opts.AsOf != 0 && day > r.opts.AsOf {
		r.later(f, tok, day)
	}
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
		w.fail(tok, badNumber, text, want).advise(numberAdvice(text))
	}
	return d, ok
}

// thousands is a number in groups of three.
var thousands = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`^\d{1,3}([.,']\d{3})+([.,]\d+)?$`) })

// ordinal is a place as it is read out.
var ordinal = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`^\d+(st|nd|rd|th|\.)$`) })

// numberAdvice names the slip in a number that cannot be read.
func numberAdvice(text string) advice {
	text = strings.NewReplacer("’", "'", "‘", "'").Replace(text)
	unsigned := strings.TrimLeft(text, "+-−–")
	zeros := digits(unsigned)
	switch {
	case isNumber(strings.NewReplacer(".", "", ",", "").Replace(unsigned)) && unsigned != text:
		return hint("numbers have no sign here")
	case strings.ContainsAny(unsigned, "0123456789") && zeros != unsigned && isNumber(strings.NewReplacer(".", "", ",", "").Replace(zeros)):
		_, reads := scoring.ParseDecimal(zeros)
		return instead("a letter for a digit? %s", zeros).unless(!reads || unsigned != text)
	case thousands().MatchString(text):
		return thousandsAdvice(text)
	case strings.TrimRight(text, ",;") != text && isNumber(strings.NewReplacer(".", "", ",", "", ";", "").Replace(text)):
		return hint("put only white space between numbers")
	case ordinal().MatchString(text):
		return instead("write %s", strings.TrimRight(text, "stndrh."))
	case strings.HasSuffix(text, "%") && isNumber(strings.NewReplacer(".", "", ",", "", "%", "").Replace(text)):
		return instead("write %s", strings.TrimSuffix(text, "%"))
	case strings.ContainsAny(text, "eE") && isNumber(strings.NewReplacer("e", "", "E", "", "+", "", ".", "").Replace(text)):
		return hint("numbers have no exponent")
	default:
		return advice{}
	}
}

// thousandsAdvice gives a number in groups of three without what sets them off, where
// one sign does that and another one stands before the decimals.
func thousandsAdvice(text string) advice {
	const signs = ".,'"
	sign := text[strings.IndexAny(text, signs)]
	groups := strings.Split(text, string(sign))
	last := len(groups) - 1
	whole, decimals := groups[last], ""
	if at := strings.IndexAny(whole, signs); at >= 0 {
		whole, decimals = whole[:at], "."+whole[at+1:]
	}
	single := strings.Join(groups[:last], "") + whole + decimals
	if _, reads := scoring.ParseDecimal(single); !reads || len(whole) != 3 || len(decimals) == len(".000") {
		return hint("write no thousands separator")
	}
	return instead("write no thousands separator: %s", single).unless(true)
}

// integer takes a whole number from low to high.
func (w *words) integer(want string, low, high int) (int, token, bool) {
	tok, ok := w.word(want)
	if !ok {
		return 0, tok, false
	}
	text := w.text(tok)
	if !isNumber(text) {
		advice := numberAdvice(text)
		if want == kFactor {
			advice = advice.or(wholeAdvice(text))
		}
		w.fail(tok, badNumber, text, want).advise(advice.unless(!isNumber(advice.text)))
		return 0, tok, false
	}
	n, err := strconv.Atoi(text)
	if err != nil || n < low || n > high {
		w.fail(tok, outOfRange, text, strconv.Itoa(low), strconv.Itoa(high))
		return 0, tok, false
	}
	return n, tok, true
}

// wholeAdvice says that a K factor with decimals is to be a whole number: 17,0 is 17.
func wholeAdvice(text string) advice {
	whole, decimals, found := strings.Cut(strings.ReplaceAll(text, ",", "."), ".")
	switch {
	case !found || !isNumber(whole+decimals) || whole == "":
		return advice{}
	case strings.Trim(decimals, "0") == "":
		return instead("a whole number: %s", whole)
	default:
		return hint("a whole number is meant")
	}
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
	next := w.peek()
	d := w.fail(tok, unknownChoice, text, want, strings.Join(known, ", "))
	d.didYouMean(text, known)
	switch {
	case isNumber(text) && slices.Contains(known, next):
		d.hinted("the word comes first: %s", next+" "+text)
	case isNumber(text) && len(known) > 1:
		d.hinted(wordBefore)
	}
	return "", tok, false
}

// kindLines are the lines of money in which a kind stands before the amount.
var kindLines = []string{"cost", "income", "budget", "in-hand"}

// sign is what may stand before an amount.
type sign int

const (
	noSign     sign = iota
	refundSign      // a hyphen
	belowZero       // a hyphen, or the minus that pages print and spreadsheets paste
)

// printedMinus is the minus that pages print.
const printedMinus = "−"

// belowZeroLines are the lines whose amount may be below zero as pages print it.
var belowZeroLines = []string{"in-hand", "agreed"}

// minuses are what people write for a minus.
var minuses = []string{"-", printedMinus, "–"}

// taken reports whether a minus may stand before an amount.
func (s sign) taken(minus string) bool {
	return s != noSign && minus == "-" || s == belowZero && minus == printedMinus
}

// minusCut takes what is written for a minus off a word.
func minusCut(word string) (minus, digits string) {
	for _, minus := range minuses {
		if digits, found := strings.CutPrefix(word, minus); found {
			return minus, digits
		}
	}
	return "", word
}

// money takes an amount and its currency; signed says which minus may stand before it.
func (w *words) money(signed sign) (season.Money, bool) {
	tok, ok := w.word("an amount (95.00)")
	if !ok {
		return season.Money{}, false
	}
	negative := signed != noSign
	text := w.text(tok)
	typed, digits := minusCut(text)
	minus := ""
	if typed != "" {
		minus = "-"
	}
	amount, ok := scoring.ParseDecimal(digits)
	if negative && typed != "" && !signed.taken(typed) {
		w.fail(tok, badNumber, text, "an amount (95.00)").advise(instead("type a plain minus: %s", "-"+digits).unless(!ok))
		return season.Money{}, false
	}
	if !ok {
		next := w.peek()
		d := w.fail(tok, badNumber, text, "an amount (95.00)")
		nextMinus, nextDigits := minusCut(next)
		if _, number := scoring.ParseDecimal(nextDigits); number && isCurrency(text) && (nextMinus == "" || signed.taken(nextMinus)) {
			d.adviseFor(span{w.f, tok.line, tok.start, w.f.tokens[w.i].end}, instead("the amount comes first: %s", strings.Replace(next, printedMinus, "-", 1)+" "+text))
			return season.Money{}, false
		}
		if _, number := scoring.ParseDecimal(next); number && season.IsHandle(text) && !slices.Contains(particles, text) && slices.Contains(kindLines, w.text(w.nth(0))) {
			d.hinted("no space inside a kind: %s", w.text(w.f.tokens[w.i-2])+"-"+text)
			return season.Money{}, false
		}
		if _, number := scoring.ParseDecimal(next); number && digits == "" && negative {
			d.adviseFor(span{w.f, tok.line, tok.start, w.f.tokens[w.i].end}, instead("no space behind the minus: %s", "-"+next))
			return season.Money{}, false
		}
		if minus != "" && negative {
			d.advise(refundAdvice(digits).or(gluedCurrency(digits).unless(isCurrency(next))).below(minus))
			return season.Money{}, false
		}
		d.advise(numberAdvice(text).or(gluedCurrency(text).unless(isCurrency(next))))
		return season.Money{}, false
	}
	if minus != "" && !negative {
		w.fail(tok, moneySign, text).advise(w.otherWay(digits))
		return season.Money{}, false
	}
	next, before := w.peek(), len(w.r.list)
	unit, ok := w.currency()
	if !ok {
		if groupOfThree().MatchString(next) && len(w.r.list) > before {
			w.r.list[before].hinted("write no thousands separator: %s", text+next)
		}
		return season.Money{}, false
	}
	money, ok := w.inMinor(tok, amount, minus, unit, negative)
	switch {
	case !ok && amount.Places <= unit.Decimals || !oneGroup().MatchString(digits):
	case doubtfulComma(digits, unit.Code):
		w.r.at(w.f, tok, commaRead, minus+digits, unit.Code, money.Text()).hinted("which is meant: %s, or %s?", minus+wholeOf(digits), minus+strings.Replace(digits, ",", ".", 1))
	case !ok:
		w.r.list[len(w.r.list)-1].hinted("which is meant: %s, or %s?", minus+wholeOf(digits), minus+cutOff(digits, unit))
	}
	return money, ok
}

// otherWay says how a line has it that money goes the other way.
func (w *words) otherWay(digits string) advice {
	switch first := w.f.tokens[w.f.lines[w.line].first]; w.text(first) {
	case "income":
		return hint("what the club pays back is a cost: cost DATE KIND " + digits + " CUR for club by club")
	case "settle", "owed":
		return hint("swap the two names")
	case "budget":
		return hint("what is to come in has income behind it: budget YEAR KIND " + digits + " CUR income")
	default:
		return advice{}
	}
}

var (
	// groupOfThree is what stands behind a space that sets off thousands.
	groupOfThree = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`^\d{3}([.,]\d+)?$`) })
	// oneGroup may be thousands set off, or a number with three decimals.
	oneGroup = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`^[1-9]\d{0,2}[.,]\d{3}$`) })
)

// doubtfulComma reports whether the comma of an amount may set off thousands as
// well as be the point: before three digits, in a currency of as many decimals.
func doubtfulComma(digits, code string) bool {
	unit, err := currency.ParseISO(code)
	if err != nil || !strings.Contains(digits, ",") || !oneGroup().MatchString(digits) {
		return false
	}
	decimals, _ := currency.Standard.Rounding(unit)
	return decimals >= 3
}

// refundAdvice names the slip in what stands behind the minus of a refund.
func refundAdvice(digits string) advice {
	if digits == "" || strings.ContainsAny(digits[:1], "+-") {
		return advice{}
	}
	return numberAdvice(digits)
}

// wholeOf is a number of one group without what sets it off.
func wholeOf(digits string) string { return strings.NewReplacer(",", "", ".", "").Replace(digits) }

// cutOff is a number of one group with as many decimals as the currency has.
func cutOff(digits string, unit season.Currency) string {
	whole, rest, _ := strings.Cut(strings.Replace(digits, ",", ".", 1), ".")
	if unit.Decimals == 0 {
		return whole
	}
	return whole + "." + rest[:min(unit.Decimals, len(rest))]
}

// gluedCurrency takes 95EUR and EUR95 apart.
func gluedCurrency(text string) advice {
	number := strings.Trim(text, "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz€$£")
	unit := strings.Trim(text, "0123456789.,-")
	if _, ok := scoring.ParseDecimal(number); !ok || unit == "" || len(number)+len(unit) != len(text) {
		return advice{}
	}
	code := cmp.Or(currencyMeant(unit), strings.ToUpper(unit))
	return instead("write %s", number+" "+code).unless(!isCurrency(code) || unit == dollar)
}

// AmountMeant gives an amount whose currency is written otherwise as it can only be
// meant: `95 eur`, `95EUR` and `95€` as 95 EUR; any other text stands.
func AmountMeant(text string) string {
	words := strings.Fields(text)
	switch len(words) {
	case 1:
		if glued := gluedCurrency(words[0]); glued.certain {
			return glued.text
		}
	case 2:
		code := currencyMeant(words[1])
		if code != "" && code != words[1] && words[1] != dollar && strings.Trim(words[0], "-0123456789.,") == "" {
			return words[0] + " " + code
		}
	}
	return text
}

// inMinor turns a typed amount into the currency's smallest unit; minus is "-" for
// one below zero, negative says that one may be.
func (w *words) inMinor(tok token, amount scoring.Decimal, minus string, unit season.Currency, negative bool) (season.Money, bool) {
	typed, least := minus+amount.String(), "0"
	if negative {
		least = "-" + largestAmount(unit)
	}
	if amount.Places > unit.Decimals {
		w.fail(tok, moneyDecimals, typed, unit.Code, unit.Decimals)
		return season.Money{}, false
	}
	minor := amount.Units
	for range unit.Decimals - amount.Places {
		if minor > maxMinor/10 {
			w.fail(tok, outOfRange, typed, least, largestAmount(unit))
			return season.Money{}, false
		}
		minor *= 10
	}
	if minor > maxMinor {
		w.fail(tok, outOfRange, typed, least, largestAmount(unit))
		return season.Money{}, false
	}
	if minus != "" {
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

// currencySigns are what people write for a currency's code. A dollar may be
// another country's.
var currencySigns = map[string]string{"€": "EUR", "£": "GBP", dollar: "USD"}

const dollar = "$"

// isCurrency reports an ISO 4217 code as it must be written.
func isCurrency(word string) bool {
	unit, err := currency.ParseISO(word)
	return err == nil && unit.String() == word
}

// currencyMeant is the code of a currency that a word stands for: the code itself in any
// letters, a sign, or the euro's name; "" for no currency.
func currencyMeant(word string) string {
	upper := strings.ToUpper(word)
	switch {
	case isCurrency(upper):
		return upper
	case upper == "EURO" || upper == "EUROS":
		return "EUR"
	default:
		return currencySigns[word]
	}
}

// currency takes an ISO 4217 code.
func (w *words) currency() (season.Currency, bool) {
	const want = "a currency (EUR)"
	if slices.Contains(particles, w.peek()) {
		w.missing(want)
		return season.Currency{}, false
	}
	tok, ok := w.word(want)
	if !ok {
		return season.Currency{}, false
	}
	text := w.text(tok)
	unit, err := currency.ParseISO(text)
	if err != nil || unit.String() != text {
		d := w.fail(tok, badCurrency, text)
		if code := currencyMeant(text); code != "" {
			d.advise(instead("write %s", code).unless(text == dollar))
		}
		return season.Currency{}, false
	}
	decimals, _ := currency.Standard.Rounding(unit)
	return season.Currency{Code: text, Decimals: decimals}, true
}
