package ledger

import (
	"math/big"
	"slices"
	"strings"

	"boxbook/scoring"
	"boxbook/season"
)

// policyShape is how one key of a policy is written: numbers with words
// between them, or yes and no.
type policyShape struct {
	key   string
	form  string // for messages
	parts []policyNumber
	word  string // between two numbers
	yesNo bool
	off   offRule
}

// offRule is what `off` does to a key.
type offRule uint8

const (
	dropsGate offRule = iota
	neverOff          // the gate stands, with a warning
	noGate            // the key is a setting of another gate: the house value stands, with a warning
	onlyOff           // the key takes nothing else
)

// policyNumber is one number of a key's setting.
type policyNumber struct {
	high  int64
	whole bool
}

var (
	anyCount = policyNumber{high: 100_000, whole: true}
	percents = policyNumber{high: 100}
	aShare   = policyNumber{high: 1}
	aGrade   = policyNumber{high: 10}
)

// policyShapes are the keys of a policy, in the order of a readiness page.
var policyShapes = []policyShape{
	{key: "flights", form: "flights 6", parts: []policyNumber{anyCount}},
	{key: "steps", form: "steps off", off: onlyOff},
	{key: "window", form: "window 730", parts: []policyNumber{anyCount}},
	{key: "threshold", form: "threshold 60", parts: []policyNumber{percents}},
	{key: "share", form: "share 0.5", parts: []policyNumber{aShare}, off: noGate},
	{key: "figure-floor", form: "figure-floor 5.0", parts: []policyNumber{aGrade}},
	{key: "floor-share", form: "floor-share 0.95", parts: []policyNumber{aShare}, off: noGate},
	{key: "floor-flights", form: "floor-flights 4", parts: []policyNumber{anyCount}, off: noGate},
	{key: "zeros", form: "zeros 0 in 4", parts: []policyNumber{anyCount, anyCount}, word: "in"},
	{key: "lows", form: "lows 0 in 6", parts: []policyNumber{anyCount, anyCount}, word: "in", off: neverOff},
	{key: "unknowns", form: "unknowns 2", parts: []policyNumber{anyCount}},
	{key: "new-families", form: "new-families 2 at 6.0", parts: []policyNumber{anyCount, aGrade}, word: "at"},
	{key: "forecast", form: "forecast 50", parts: []policyNumber{percents}},
	{key: "signoff", form: "signoff yes", yesNo: true, off: neverOff},
	{key: "safety", form: "safety 0", parts: []policyNumber{anyCount}, off: neverOff},
	{key: "current", form: "current 60", parts: []policyNumber{anyCount}},
}

func policyKeys() []string {
	keys := make([]string, len(policyShapes))
	for i, s := range policyShapes {
		keys[i] = s.key
	}
	return append(keys, openMatters)
}

// openMatters is another name for the key safety.
const openMatters = "open-matters"

// sameKey is a key by the name that it counts under.
func sameKey(word string) string {
	if word == openMatters {
		return "safety"
	}
	return word
}

// policy reads `policy NAME`; keys left out keep the house value.
func (r *reader) policy(b *block) {
	w := r.header(b)
	tok, handle, ok := w.handle("a policy's name")
	w.end()
	typed := map[string]season.PolicyKey{}
	for _, line := range r.body(b) {
		if line.name() == "note" {
			line.free()
			continue
		}
		if key, ok := line.policyKey(); ok {
			key.House = b.f.shipped
			typed[key.Key] = key
		}
	}
	if !ok {
		excuse(r, r.names.policies, b)
		return
	}
	policy := r.overHouse(handle, typed)
	if b.f.shipped && handle == season.HousePolicy {
		r.house = policy
	}
	define(r, r.names.policies, b.f, tok, handle, policy)
}

// overHouse lays typed keys over the shipped policy. A key that is off keeps the
// shipped values: other gates may go by its number.
func (r *reader) overHouse(handle string, typed map[string]season.PolicyKey) *season.Policy {
	p := &season.Policy{Name: handle}
	house := r.house
	if house == nil {
		house = &season.Policy{}
	}
	for _, shape := range policyShapes {
		shipped, isHouse := house.Key(shape.key)
		key, isTyped := typed[shape.key]
		switch {
		case isTyped && key.Off:
			key.Values = shipped.Values
			p.Keys = append(p.Keys, key)
		case isTyped:
			p.Keys = append(p.Keys, key)
		case isHouse:
			p.Keys = append(p.Keys, shipped)
		}
	}
	return p
}

// policyKey reads one line by the shape of its key.
func (l bodyLine) policyKey() (season.PolicyKey, bool) {
	key := season.PolicyKey{Key: sameKey(l.name())}
	i := slices.IndexFunc(policyShapes, func(s policyShape) bool { return s.key == key.Key })
	shape := policyShapes[i]
	switch {
	case l.peek() == "off", shape.yesNo && shape.off == neverOff && l.peek() == "no":
		return l.policyOff(shape, key)
	case shape.off == onlyOff:
		l.choice("a setting of "+shape.key, []string{"off"})
	default:
		l.policyValue(shape, &key)
	}
	l.end()
	return key, !l.failed
}

// policyOff reads `KEY off`, which leaves a key that cannot be off as the house
// has it.
func (l bodyLine) policyOff(shape policyShape, key season.PolicyKey) (season.PolicyKey, bool) {
	tok := l.next()
	key.Off = true
	l.end()
	switch {
	case l.failed:
	case shape.off == neverOff:
		l.r.at(l.f, tok, policyNeverOff, l.name())
		return key, false
	case shape.off == noGate:
		l.r.at(l.f, tok, policyNoGate, l.name(), l.r.houseText(shape))
		return key, false
	}
	return key, !l.failed
}

// houseText is the house value of a key as a policy writes it.
func (r *reader) houseText(shape policyShape) string {
	if r.house == nil {
		return "-"
	}
	key, _ := r.house.Key(shape.key)
	words := make([]string, len(key.Values))
	for i, v := range key.Values {
		words[i] = v.String()
	}
	return strings.Join(words, " "+shape.word+" ")
}

func (l bodyLine) policyValue(shape policyShape, key *season.PolicyKey) {
	if shape.yesNo {
		word, _, _ := l.choice("an answer", []string{"yes", "no"})
		key.Yes = word == "yes"
		return
	}
	for i, part := range shape.parts {
		if i > 0 && !l.accept(shape.word) {
			l.wrongShape(shape)
			return
		}
		number, tok, ok := l.decimal("a number")
		if !ok {
			return
		}
		if number.Rat().Cmp(big.NewRat(part.high, 1)) > 0 {
			wrong := l.fail(tok, outOfRange, l.text(tok), "0", scoring.Decimal{Units: part.high}.String())
			if inPercent := new(big.Rat).Quo(number.Rat(), big.NewRat(100, 1)); part.high == 1 && inPercent.Cmp(big.NewRat(1, 1)) <= 0 {
				wrong.hinted("a share is a part of 1: write %s", strings.TrimRight(strings.TrimRight(inPercent.FloatString(4), "0"), ".")) // 80 is 0.8
			}
			return
		}
		if i > 0 && part.whole && !number.Positive() {
			l.fail(tok, outOfRange, l.text(tok), "1", scoring.Decimal{Units: part.high}.String())
			return
		}
		if part.whole && strings.ContainsAny(l.text(tok), ".,") {
			l.fail(tok, badNumber, l.text(tok), "a whole number")
			return
		}
		key.Values = append(key.Values, number)
	}
	if l.peek() != "" {
		l.wrongShape(shape)
	}
}

// wrongShape says how a key is written, at the word that does not fit.
func (l bodyLine) wrongShape(shape policyShape) {
	if l.i >= l.last {
		l.missing("`"+shape.word+"`").hinted("%s is written `%s`", shape.key, shape.form)
		return
	}
	l.fail(l.next(), policyShapeWrong, shape.key, shape.form)
}
