package ledger

import (
	"boxbook/scoring"
	"boxbook/season"
)

// units are the words after `unit`.
var units = []string{"deg", "ratio", "span", "count", "pt"}

// faultKind reads `fault-kind NAME`.
func (r *reader) faultKind(b *block) {
	w := r.header(b)
	tok, handle, ok := w.handle("a fault kind's name")
	w.end()
	kind := &season.FaultKind{Name: handle, Shipped: b.f.shipped}
	before := r.errors
	lines := r.body(b)
	r.broken[kind] = r.errors > before || b.unread() // its unit may stand on a line that was not understood
	for _, line := range lines {
		if line.name() == "unit" {
			unit, _, ok := line.choice("a unit", units)
			kind.Unit, r.broken[kind] = season.Unit(unit), r.broken[kind] || !ok
			line.end()
		}
	}
	for _, line := range lines {
		line.kindLine(kind)
	}
	r.broken[kind] = r.errors > before || b.unread()
	if !ok {
		excuse(r, r.names.kinds, b)
		return
	}
	if b.f.shipped && handle == bridgingKind {
		r.bridging = kind
	}
	define(r, r.names.kinds, b.f, tok, handle, kind)
}

// bridgingKind is what a stall turn that slides sideways is called; driftKind is
// what it was called before version 1.
const (
	bridgingKind = "bridging"
	driftKind    = "drift"
)

// readDrift lets drift stand for the shipped bridging, unless the ledger has a
// kind of that name. Where the ledger has a bridging of its own, drift is a kind
// beside it, as shipped: the two are not to be counted as one.
func (r *reader) readDrift() {
	kinds := r.names.kinds
	if kinds.items[driftKind] != nil || r.bridging == nil {
		return
	}
	if kinds.items[bridgingKind].value == r.bridging {
		kinds.aliases[driftKind] = bridgingKind
		return
	}
	drift := *r.bridging
	drift.Name = driftKind
	kinds.items[driftKind] = &entry[*season.FaultKind]{value: &drift, shipped: true}
	kinds.order = append(kinds.order, driftKind)
}

func (l bodyLine) kindLine(kind *season.FaultKind) {
	switch l.name() {
	case "unit":
		return
	case "per":
		if step, tok, ok := l.step(kind); ok {
			kind.Per = &step
			if !step.Amount.Value.Positive() {
				l.fail(tok, outOfRange, l.text(tok), "a step above 0", "any size")
			}
		}
	case "at":
		if step, tok, ok := l.step(kind); ok {
			if n := len(kind.At); n > 0 && kind.At[n-1].Amount.Reaches(step.Amount) {
				l.fail(tok, stepOrder, step.Amount.Text, kind.At[n-1].Amount.Text)
			}
			kind.At = append(kind.At, step)
		}
	case "free":
		kind.Free = l.kindAmount(kind)
	case "zero":
		kind.Zero = l.kindAmount(kind)
	case "plain":
		if points, _, ok := l.decimal("a number of points"); ok {
			kind.Plain = &points
		}
	case "felt":
		kind.Felt = true
	case "safety":
		kind.Safety = true
	case "next":
		kind.Next = true
	case "in":
		kind.In, _ = l.groups(true, false)
	case "says":
		kind.Says, _, _ = l.quoted("text in quotes")
	case "note":
		l.free()
		return
	}
	l.end()
}

// step reads AMOUNT POINTS.
func (l bodyLine) step(kind *season.FaultKind) (season.Step, token, bool) {
	amount, tok, ok := l.amountOf(kind)
	if !ok {
		return season.Step{}, tok, false
	}
	points, _, ok := l.decimal("a number of points")
	return season.Step{Amount: amount, Points: points}, tok, ok
}

func (l bodyLine) kindAmount(kind *season.FaultKind) *season.Amount {
	amount, _, ok := l.amountOf(kind)
	if !ok {
		return nil
	}
	return &amount
}

// amountOf reads an amount in the kind's own unit.
func (l bodyLine) amountOf(kind *season.FaultKind) (season.Amount, token, bool) {
	tok, ok := l.word("an amount")
	if !ok {
		return season.Amount{}, tok, false
	}
	text := l.text(tok)
	amount, ok := parseAmount(text)
	if !ok {
		l.fail(tok, badAmount, text)
		return amount, tok, false
	}
	if amount.Unit == season.NoUnit {
		amount.Unit, amount.Value, amount.Times = season.Count, scoring.Decimal{Units: int64(amount.Times)}, 1
	}
	if amount.Unit != kind.Unit && !l.r.broken[kind] {
		unit := string(kind.Unit)
		if unit == "" {
			unit = "which is not given"
			l.r.broken[kind] = true // said once
		}
		l.fail(tok, faultKindUnit, text, unit)
		return amount, tok, false
	}
	return amount, tok, true
}
