package ledger

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"boxbook/report/display"

	"boxbook/scoring"
	"boxbook/season"
)

// amountUnits are the endings of a fault's amount.
var amountUnits = []struct {
	suffix string
	unit   season.Unit
}{{"deg", season.Degrees}, {"span", season.Span}, {"pt", season.Points}}

// parseAmount reads 10deg, 2:1, 1.5span, 1.5pt and 3x.
func parseAmount(text string) (season.Amount, bool) {
	if first, second, ok := strings.Cut(text, ":"); ok {
		a, ok1 := scoring.ParseDecimal(first)
		b, ok2 := scoring.ParseDecimal(second)
		return season.Amount{Unit: season.Ratio, Value: a, Second: b, Times: 1, Text: text}, ok1 && ok2 && (a.Positive() || b.Positive())
	}
	for _, u := range amountUnits {
		if number, ok := strings.CutSuffix(text, u.suffix); ok {
			value, ok := scoring.ParseDecimal(number)
			return season.Amount{Unit: u.unit, Value: value, Times: 1, Text: text}, ok
		}
	}
	if number, ok := strings.CutSuffix(text, "x"); ok && isNumber(number) {
		times, err := strconv.Atoi(number)
		return season.Amount{Times: times, Text: text}, err == nil && times >= 1 && times <= 100
	}
	return season.Amount{}, false
}

// startsAmount reports whether a word looks like an amount, right or wrong.
func startsAmount(word string) bool {
	return word != "" && word[0] >= '0' && word[0] <= '9'
}

// faultOn says what a fault line is read against: the flight, and whether its
// sequence is known.
type faultOn struct {
	sequence *season.Sequence
	lost     bool
}

// fault reads `fault FIG|- KIND [AMOUNT] [on CODE] [seen|felt] [at M:SS] [by
// COACH]`.
func (l bodyLine) fault(on faultOn) (season.Fault, bool) {
	fault := season.Fault{Amount: season.Amount{Times: 1}}
	if !l.faultFigure(&fault, on) {
		return fault, false
	}
	var kind token
	ok := true
	if fault.Kind, kind, ok = find(l.words, l.r.names.kinds, "a fault kind"); !ok {
		return fault, false
	}
	fault.Felt, fault.Safety = fault.Kind.Felt, fault.Kind.Safety
	if startsAmount(l.peek()) && !l.faultAmount(&fault) {
		return fault, false
	}
	if startsAmount(l.peek()) && !l.faultAmount(&fault) {
		return fault, false
	}
	if l.peek() == "on" && !l.faultCode(&fault, on) {
		return fault, false
	}
	if l.accept("felt") {
		fault.Felt = true
	} else if l.accept("seen") {
		fault.Felt = fault.Kind.Felt
	}
	if l.accept("at") {
		fault.At = l.moment()
	}
	if l.accept("by") {
		fault.By, _, _ = find(l.words, l.r.names.coaches, "a coach")
	}
	l.faultRest()
	if fault.Remark = l.end(); l.failed {
		return fault, false
	}
	l.faultFits(fault, kind, on)
	return fault, true
}

// faultFits warns of a kind that no element of the figure can show, as where a
// tired person typed another figure's number.
func (l bodyLine) faultFits(fault season.Fault, kind token, on faultOn) {
	if on.sequence == nil || on.lost || l.r.broken[fault.Kind] || fits(&fault, on.sequence) {
		return
	}
	var others []string
	for i := range on.sequence.Figures {
		if fault.Kind.CanBeOn(&on.sequence.Figures[i]) {
			others = append(others, strconv.Itoa(i+1))
		}
	}
	d := l.r.at(l.f, kind, faultElsewhere, fault.Figure, fault.Kind.Name)
	switch last := len(others) - 1; last {
	case -1:
		d.hinted("no figure of sequence %q could: is it another kind?", on.sequence.Handle)
	case 0:
		d.hinted("figure %s could: is it another figure, or another kind?", others[0])
	default:
		d.hinted("figures %s and %s could: is it another figure, or another kind?", strings.Join(others[:last], ", "), others[last])
	}
}

// fits reports whether a fault can be on its figure, as far as is known; one of the
// flight as a whole is on none.
func fits(fault *season.Fault, s *season.Sequence) bool {
	return fault.Figure == 0 || fault.Kind.CanBeOn(&s.Figures[fault.Figure-1])
}

// faultRest reports a part of a fault line that stands too late.
func (l bodyLine) faultRest() {
	word := l.peek()
	if word == "on" || word == "seen" || word == "felt" || word == "at" || word == "by" || startsAmount(word) {
		tok := l.next()
		l.fail(tok, tooLate, word, "amount, on CODE, seen or felt, at M:SS, by COACH")
	}
}

// moment takes a place in a video, M:SS or H:MM:SS; nil where it is none.
func (l bodyLine) moment() *season.Moment {
	tok, ok := l.word("a place in the video (1:12)")
	if !ok {
		return nil
	}
	text := l.text(tok)
	moment, ok := parseMoment(text)
	if !ok {
		l.fail(tok, badMoment, text).advise(momentAdvice(text))
		return nil
	}
	return &moment
}

// longestMoment is how many digits the first number of a place may have.
const longestMoment = 4

func parseMoment(text string) (season.Moment, bool) {
	parts := strings.Split(text, ":")
	if len(parts) < 2 || len(parts) > 3 || len(parts[0]) > longestMoment {
		return 0, false
	}
	sum := 0
	for i, part := range parts {
		n := 0
		if !isNumber(part) || i > 0 && len(part) != 2 {
			return 0, false
		}
		if n = rowNumber(part); i > 0 && n > 59 {
			return 0, false
		}
		sum = 60*sum + n
	}
	return season.Moment(sum), true
}

// momentAdvice names the slip: 1.12, 1'12, 1m12s, 72 or 72s. A bare number may
// be minutes as well.
func momentAdvice(text string) advice {
	if digits := strings.NewReplacer("O", "0", "o", "0", "l", "1", "I", "1").Replace(text); digits != text {
		if moment, ok := parseMoment(digits); ok {
			return instead("a letter for a digit? %s", moment.String())
		}
	}
	parts := strings.FieldsFunc(text, func(c rune) bool { return strings.ContainsRune(".,:'’\"ms", c) })
	if len(parts) == 1 && isNumber(parts[0]) && len(parts[0]) <= longestMoment {
		return instead("write %s", season.Moment(rowNumber(parts[0])).String()).unless(!strings.HasSuffix(text, "s"))
	}
	for i := 1; i < len(parts); i++ {
		if len(parts[i]) == 1 {
			parts[i] = "0" + parts[i]
		}
	}
	if moment, ok := parseMoment(strings.Join(parts, ":")); ok {
		return instead("write %s", moment.String())
	}
	return advice{}
}

// faultFigure reads the figure's number, or - for the flight as a whole.
func (l bodyLine) faultFigure(fault *season.Fault, on faultOn) bool {
	tok, ok := l.word("a figure's number, or - for the whole flight")
	if !ok {
		return false
	}
	text := l.text(tok)
	if text == "-" {
		return true
	}
	if !isNumber(text) {
		d := l.fail(tok, badNumber, text, "a figure's number, or - for the whole flight")
		advice := numberAdvice(text)
		if d.advise(advice.unless(!isNumber(advice.text))); text == "–" || text == "—" || text == "−" {
			d.advise(instead("type a plain %s", "-"))
		}
		return false
	}
	fault.Figure = rowNumber(text)
	switch {
	case on.sequence == nil && fault.Figure >= 1 && fault.Figure <= maxFigures:
		return true
	case on.sequence == nil:
		l.fail(tok, outOfRange, text, "1", strconv.Itoa(maxFigures))
		return false
	case !on.lost && (fault.Figure < 1 || fault.Figure > len(on.sequence.Figures)):
		l.fail(tok, noSuchFigure, l.text(tok), "sequence "+strconv.Quote(on.sequence.Handle), display.Counted(len(on.sequence.Figures), "figure", "figures"))
		return false
	}
	return true
}

// unitNames say a unit in words.
var unitNames = map[season.Unit]string{
	season.Degrees: "degrees (10deg)", season.Ratio: "a ratio (2:1)", season.Span: "wingspans (1.5span)",
	season.Count: "a count (3x)", season.Points: "points (1.5pt)", season.NoUnit: "points (1.5pt)",
}

// faultAmount reads one amount; a second one multiplies: `5deg 3x`.
func (l bodyLine) faultAmount(fault *season.Fault) bool {
	tok := l.next()
	text := l.text(tok)
	amount, ok := parseAmount(text)
	if !ok {
		l.fail(tok, badAmount, text).advise(amountAdvice(text, fault.Kind))
		return false
	}
	switch slip := addAmount(fault, amount, l.r.broken[fault.Kind]); slip {
	case "":
		if beyondHalfTurn(amount) {
			l.r.at(l.f, tok, amountLarge, text).advise(largeAdvice(text))
		}
		return true
	case faultUnit:
		l.fail(tok, slip, text, fault.Kind.Name, unitNames[fault.Kind.Unit])
	case ratioOrder:
		l.fail(tok, slip, text).advise(instead("write %s", fmt.Sprintf("%s:%s", amount.Second, amount.Value)))
	default:
		l.fail(tok, slip, text)
	}
	return false
}

// beyondHalfTurn reports an angle that no figure can be off by.
func beyondHalfTurn(amount season.Amount) bool {
	return amount.Unit == season.Degrees && amount.Value.Cmp(halfTurn) > 0
}

var halfTurn = scoring.Decimal{Units: 180}

// largeAdvice takes a zero too many off an angle.
func largeAdvice(text string) advice {
	number := strings.TrimSuffix(text, "deg")
	if short, found := strings.CutSuffix(number, "0"); found && isNumber(short) && len(short) < len("180") {
		return hint("did you mean " + short + "deg?")
	}
	return hint("the amount is how far it was off, not where it ended")
}

// addAmount adds an amount to those of a fault, a number of times to one of a unit;
// a code says why it cannot be added. anyUnit says that the kind's unit is not known.
func addAmount(fault *season.Fault, amount season.Amount, anyUnit bool) Code {
	sum := &fault.Amount
	switch {
	case amount.Unit == season.NoUnit && strings.HasSuffix(sum.Text, "x"), amount.Unit != season.NoUnit && sum.Unit != season.NoUnit:
		return extraWord
	case amount.Unit == season.NoUnit:
	case amount.Unit != season.Points && amount.Unit != fault.Kind.Unit && !anyUnit:
		return faultUnit
	case amount.Unit == season.Ratio && amount.Value.Cmp(amount.Second) < 0:
		return ratioOrder
	}
	if sum.Text != "" {
		amount.Text = sum.Text + " " + amount.Text
	}
	if amount.Unit == season.NoUnit {
		sum.Times, sum.Text = amount.Times, amount.Text
		return ""
	}
	amount.Times = sum.Times
	*sum = amount
	return ""
}

// amountAdvice guesses the unit that was left out or glued on wrongly. Where it
// was left out the amount may be points as well.
func amountAdvice(text string, kind *season.FaultKind) advice {
	if small := strings.ToLower(text); small != text {
		if _, ok := parseAmount(small); ok {
			return instead("write %s", small)
		}
	}
	number := strings.TrimRight(text, "°degrs")
	if _, ok := scoring.ParseDecimal(number); !ok {
		return advice{}
	}
	switch kind.Unit {
	case season.Degrees:
		return instead("write %s", number+"deg").unless(number == text)
	case season.Span:
		return hint("write " + number + "span")
	case season.Points:
		return instead("write %s", number+"pt").unless(number != text)
	case season.Count:
		if isNumber(number) {
			return hint("write " + number + "x")
		}
	}
	return hint("for points write " + number + "pt")
}

// faultCode reads the code after `on`, as typed in the figure's row.
func (l bodyLine) faultCode(fault *season.Fault, on faultOn) bool {
	if at := l.next(); fault.Figure == 0 {
		l.fail(at, faultWhole)
		return false
	}
	tok, ok := l.word("a code of the figure")
	if !ok {
		return false
	}
	code := l.text(tok)
	fault.On = code
	if on.sequence == nil || on.lost {
		return true
	}
	figure := on.sequence.Figures[fault.Figure-1]
	if hasCode(figure, code) {
		return true
	}
	var codes []string
	for _, element := range figure.Elements {
		codes = append(codes, element.Code)
	}
	d := l.fail(tok, faultCode, fault.Figure, code)
	if len(codes) > 0 {
		d.hinted("figure %d has %s", fault.Figure, strings.Join(codes, ", "))
	}
	return false
}

// hasCode reports whether a figure has an element of this code.
func hasCode(f season.Figure, code string) bool {
	return slices.ContainsFunc(f.Elements, func(el season.Element) bool { return el.Code == code })
}
