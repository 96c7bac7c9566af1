package season

import (
	"math/big"
	"slices"

	"boxbook/scoring"
)

// Ledger is everything that was read, each list in the order of definition;
// flights by date, flights of one day as they stand in the file.
type Ledger struct {
	Language    int // the highest version of the language that a file names, 1 where none does
	Pilots      []*Pilot
	Coaches     []*Coach
	Persons     []*Person
	Sequences   []*Sequence
	Contests    []*Contest
	Flights     []*Flight
	Drills      []*Drill
	Signoffs    []*Signoff
	Closings    []*Closing
	Ladders     []*Ladder // shipped ones first, in shipped order, redefined ones in place
	Styles      []*RuleStyle
	FaultKinds  []*FaultKind
	Policies    []*Policy
	Costs       []*Cost // costs and incomes, of contests too
	Settlements []*Settlement
	Debts       []*Debt
	Rates       []*Rate
	InHand      []*InHand
	Budgets     []*Budget
	Agreed      []*Agreed
	SeasonStart MonthDay
	YearStart   MonthDay // when the club's financial year begins
	AsOf        Date     // the day that stands for today
}

// Past reports whether a day is not after the ledger's AsOf.
func (l *Ledger) Past(d Date) bool { return l.AsOf == 0 || d <= l.AsOf }

// YearOf is the club's financial year that a day falls in, named by the calendar
// year in which it begins.
func (l *Ledger) YearOf(d Date) int { return l.YearStart.Season(d) }

// KnownTo is the ledger as a question about the selection knows it: what is
// dated after the selection's Until is as unknown to it as what is dated after
// AsOf, be it a flight, a drill, a sign-off or a contest's result.
func (l *Ledger) KnownTo(s Selection) *Ledger {
	if s.Until == 0 || l.AsOf != 0 && l.AsOf <= s.Until {
		return l
	}
	known := *l
	known.AsOf = s.Until
	return &known
}

// Place says where something was defined: a file as named by the person, and
// a line from 1.
type Place struct {
	File string
	Line int
}

// Pilot is a person who flies.
type Pilot struct {
	Handle   string
	Name     string // the handle where no name was given
	Club     string
	Aircraft string
	Expires  []Expiry
	NotFlown []NotFlown
	Notes    []string
	At       Place
}

// Expiry is something of a pilot's that runs out: a medical, a licence.
type Expiry struct {
	What   string
	Date   Date
	Remark string
	At     Place
}

// NotFlown is groups that a pilot does not fly, for what the aircraft or the
// person is. Reason is "" where none was typed.
type NotFlown struct {
	Groups []string
	Reason string
	At     Place
}

// Flies reports whether nothing says that the pilot does not fly a group; where
// something does, why not.
func (p *Pilot) Flies(group string) (flies bool, reason string) {
	for _, n := range p.NotFlown {
		if slices.Contains(n.Groups, group) {
			return false, n.Reason
		}
	}
	return true, ""
}

// Coach is a person who watches.
type Coach struct {
	Handle string
	Name   string
	Notes  []string
	At     Place
}

// Person is somebody who pays, is paid or helps, and does not fly.
type Person struct {
	Handle string
	Name   string
	Notes  []string
	At     Place
}

// Programme is the kind of programme a flight belongs to.
type Programme string

// The programmes of the sport, and practice.
const (
	Known       Programme = "known"
	Free        Programme = "free"
	FreeKnown   Programme = "free-known"
	Unknown     Programme = "unknown"
	FreeUnknown Programme = "free-unknown"
	Final       Programme = "final"
	Practice    Programme = "practice"
)

// Programmes lists every programme in the order of a contest, practice last.
var Programmes = []Programme{Known, Free, FreeKnown, Unknown, FreeUnknown, Final, Practice}

// Sequence is a list of figures that can be flown.
type Sequence struct {
	Handle      string
	Category    string
	Programme   Programme
	Catalogue   string // K is compared among sequences of one catalogue word
	Figures     []Figure
	Positioning int // K of the weighted line, 0 where there is none
	Harmony     int
	Total       int // the sum of K as the form prints it, of the figures or of all lines; 0 where none was typed
	Notes       []string
	At          Place
}

// KnownK says of which lines the form prints the sum of K.
func (s *Sequence) KnownK() scoring.KnownK {
	switch figures := s.K(); s.Total {
	case 0:
		return scoring.NoKnownK
	case figures + s.Positioning + s.Harmony:
		return scoring.EveryLinesK
	default:
		return scoring.FiguresK
	}
}

// K sums the K of the figures, weighted lines apart.
func (s *Sequence) K() int {
	sum := 0
	for i := range s.Figures {
		sum += s.Figures[i].K
	}
	return sum
}

// Maximum is what its marks can come to: 10 x K of all its lines.
func (s *Sequence) Maximum() int { return 10 * (s.K() + s.Positioning + s.Harmony) }

// Figure is one figure of a sequence; its number is its index + 1.
type Figure struct {
	K        int
	Elements []Element // none where only K is known
	// Hinted says that the elements are hints beside the figure's K, which may leave
	// some out.
	Hinted bool
	Label  string
}

// Element is a part of a figure. K is a share of the figure's K where the
// ledger gives hints instead of codes: Parts is then the number of hints that
// share it equally, and the element's K is the figure's K / Parts. Parts is 1
// for an element with a K of its own.
type Element struct {
	Code  string // as typed: a catalogue number, a family number or a group key
	Group string // trend group, "" where the code belongs to none
	K     int    // the element's own K, or the whole figure's where Parts > 1
	Parts int
}

// Contest is one event.
type Contest struct {
	Handle      string
	First, Last Date
	Name        string // the handle where no name was given
	Site        string
	EnterBy     Date       // the last day of entry, 0 where none was typed
	Ladder      *Ladder    // nil: the first shipped ladder that has the category
	Style       *RuleStyle // nil: panel-mean by default
	Panel       []string
	Results     []Result
	Duties      []Duty
	Notes       []string
	At          Place
}

// Result is a contest's overall result of one pilot, as printed; the parts
// that were not typed are nil or 0.
type Result struct {
	Pilot   *Pilot
	Points  *scoring.Decimal
	Maximum *scoring.Decimal
	Rank    int // 0: no place typed
	Of      int // 0: number of competitors not typed
	Remark  string
}

// Duty is work done at a contest.
type Duty struct {
	Role     string
	Who      Party
	Sessions int
	Remark   string
}

// Ladder is an order of categories, lowest first.
type Ladder struct {
	Name       string
	Categories []Category
	Shipped    bool
}

// Category is one step of a ladder. Floor is 0 where none is given.
type Category struct {
	Name     string
	Floor    int
	Unit     string // ft or m
	Unknowns bool
	New      []string // groups first met at this step
}

// Category finds a step by name.
func (l *Ladder) Category(name string) (Category, bool) {
	for _, c := range l.Categories {
		if c.Name == name {
			return c, true
		}
	}
	return Category{}, false
}

// RuleStyle is a named rule style.
type RuleStyle struct {
	scoring.Style
	Shipped bool
}

// DefaultStyle is the rule style of a flight that names none.
const DefaultStyle = "panel-mean"

// Drill is something set to be practised. Target is a fault kind or a group.
type Drill struct {
	Date     Date
	Pilot    *Pilot
	Target   string
	Text     string
	Prompted []*Flight
	By       *Coach // nil where not said
	Ended    Date   // 0 while it is open
	// EndedRemark is what was said when it was ended.
	EndedRemark string
	Notes       []string
	At          Place
}

// Signoff is a coach's word that a pilot may move up to a category.
type Signoff struct {
	Date     Date
	Pilot    *Pilot
	Category string
	By       *Coach
	Remark   string
	At       Place
}

// Policy is a set of gates for moving up, its keys in the order of a readiness
// page; those that were not typed are the house's.
type Policy struct {
	Name string
	Keys []PolicyKey
}

// HousePolicy is the policy that the program ships: it is asked where none is
// named, and gives every key that another policy leaves out.
const HousePolicy = "move-up"

// PolicyKey is one setting of a policy: `threshold 65` has one value, `zeros 0
// in 4` two, `signoff yes` none; one that is off has those of the shipped policy.
type PolicyKey struct {
	Key    string
	Values []scoring.Decimal
	Yes    bool // for yes/no keys
	Off    bool
	House  bool // as the program ships it; false where the ledger sets it
}

// ShareK is the element's K as a number: a fraction where hints share the
// figure's K.
func (e Element) ShareK() *big.Rat { return big.NewRat(int64(e.K), int64(max(e.Parts, 1))) }

// Key finds a setting of a policy.
func (p *Policy) Key(name string) (PolicyKey, bool) {
	for _, k := range p.Keys {
		if k.Key == name {
			return k, true
		}
	}
	return PolicyKey{}, false
}
