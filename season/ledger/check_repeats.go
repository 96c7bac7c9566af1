package ledger

import (
	"fmt"
	"iter"
	"slices"
	"strconv"
	"strings"

	"boxbook/season"
)

const onTheDay = "on the same day"

// checkRepeats warns of a cost or a settlement that is the same as another a few
// days away, and of an income that is the same as another of its day; a remark or a
// receipt that differs says that they are two.
func (r *reader) checkRepeats() {
	anyContest := new(season.Contest)
	same, numbers := sameLines{}, make(map[string]int, len(r.money)) // of what is said
	var text []byte
	for i, line := range r.money {
		if text = line.sameness(text[:0]); len(text) == 0 {
			continue
		}
		said, known := numbers[string(text)]
		if !known {
			said = len(numbers)
			numbers[string(text)] = said
		}
		own, others := line.contestNamed(), anyContest
		if own != nil {
			others = nil
		}
		what, days := line.repeatable()
		last := -1
		for at := range same.near(said, line.date, days, own) {
			last = max(last, at)
		}
		for at := range same.near(said, line.date, days, others) {
			if r.money[at].ofOneContest(line) {
				last = max(last, at)
			}
		}
		if last >= 0 {
			when := onTheDay
			if days > 0 {
				when = fmt.Sprintf("within %d days", days)
			}
			r.at(line.f, line.head, repeated, lineText(r.money[last].at, line.f), what, when).besides().repeats = r.money[last].at
			line.repeats = true
		}
		same.add(said, line.date, own, i)
		if own != nil {
			same.add(said, line.date, anyContest, i)
		}
	}
}

// checkShares warns of a cost by which somebody bears what another line of the day, or one
// of its contest without a day of its own, has for the same person already: the same kind
// and share, payer, receipt and remark, among other people.
func (r *reader) checkShares() {
	at := map[shareOn][]int{}
	each := func(line *moneyLine, visit func(i int, key shareOn)) {
		c := line.cost
		if c == nil || c.Income || line.repeats {
			return
		}
		for i, share := range c.Shares() {
			if share != 0 && c.For[i] != c.By {
				visit(i, shareOn{c.Kind, c.Receipt, c.Remark, c.By, c.For[i], c.ToClub, share, c.Money.Currency, line.date})
			}
		}
	}
	for i, line := range r.money {
		each(line, func(_ int, key shareOn) { at[key] = append(at[key], i) })
	}
	first, whose := make([]int, len(r.money)), make([][]season.Party, len(r.money))
	pair := func(i, j int, p season.Party) {
		i, j = min(i, j), max(i, j)
		if i == j || !r.money[i].maybeOfOne(r.money[j]) {
			return
		}
		if i+1 > first[j] {
			first[j] = i + 1
		}
		if !slices.Contains(whose[j], p) {
			whose[j] = append(whose[j], p)
		}
	}
	for i, line := range r.money {
		each(line, func(n int, key shareOn) {
			p := line.cost.For[n]
			same := at[key]
			if k, _ := slices.BinarySearch(same, i); k > 0 { // of many that are alike the one before
				pair(same[k-1], i, p)
			}
			for day, end := line.daysOfContest(); day <= end; day++ {
				key.date = day
				if same := at[key]; day != line.date && len(same) > 0 {
					pair(i, same[len(same)-1], p)
				}
			}
		})
	}
	for j, line := range r.money {
		if first[j] == 0 {
			continue
		}
		names := make([]string, len(whose[j]))
		for i, p := range whose[j] {
			names[i] = p.Name()
		}
		other := r.money[first[j]-1]
		when := onTheDay
		if line.date != other.date {
			when = "in one contest"
		}
		d := r.at(line.f, line.head, repeated, lineText(other.at, line.f), "kind and share for "+someOf(names), when)
		d.besides().repeats = other.at
		d.ofWhom(whose[j])
		line.repeats = true
	}
}

// shareOn is what somebody bears of a cost, and its day.
type shareOn struct {
	kind, receipt, remark string
	by, who               season.Party
	toClub                bool
	minor                 int64
	currency              season.Currency
	date                  season.Date
}

// daysOfContest are the days on which a cost without a day of its own may have been.
func (line *moneyLine) daysOfContest() (first, last season.Date) {
	c := line.contestNamed()
	if c == nil || line.typed || c.Last-c.First > repeatDays {
		return 1, 0
	}
	return c.First, c.Last
}

// maybeOfOne reports whether two costs name the same contest, or one names a contest of
// whose days the other is; no contest is the same too.
func (line *moneyLine) maybeOfOne(other *moneyLine) bool {
	return line.cost.Contest == other.cost.Contest || line.ofOneContest(other) && (line.cost.Contest == nil || other.cost.Contest == nil)
}

// sameLines finds lines that say the same by their days: the last of each day.
type sameLines map[fortnight][]saidOn

// fortnight is a span of days as long as what counts as a repeat.
type fortnight struct {
	said, number int
	contest      *season.Contest // nil: of none; one of nobody's: of any
}

type saidOn struct {
	date season.Date
	at   int // in the reader's money
}

func fortnightOf(date season.Date) int { return int(date) / (repeatDays + 1) }

func (s sameLines) add(said int, date season.Date, of *season.Contest, at int) {
	key := fortnight{said, fortnightOf(date), of}
	if i := slices.IndexFunc(s[key], func(l saidOn) bool { return l.date == date }); i >= 0 {
		s[key][i].at = at
		return
	}
	s[key] = append(s[key], saidOn{date, at})
}

// near are the lines of so many days before and after a day.
func (s sameLines) near(said int, date season.Date, days int, of *season.Contest) iter.Seq[int] {
	return func(yield func(int) bool) {
		for number := fortnightOf(date - season.Date(days)); number <= fortnightOf(date+season.Date(days)); number++ {
			for _, line := range s[fortnight{said, number, of}] {
				if line.date >= date-season.Date(days) && line.date <= date+season.Date(days) && !yield(line.at) {
					return
				}
			}
		}
	}
}

// contestNamed is the contest that a cost names, nil where it names none.
func (line *moneyLine) contestNamed() *season.Contest {
	if line.cost == nil {
		return nil
	}
	return line.cost.Contest
}

// ofOneContest reports whether one of two costs names a contest and the other, which
// names none, is of one of its days.
func (line *moneyLine) ofOneContest(other *moneyLine) bool {
	if line.cost == nil || other.cost == nil {
		return false
	}
	c, date := line.cost.Contest, other.date
	if c == nil {
		c, date = other.cost.Contest, line.date
	}
	return c != nil && c.On(date)
}

// repeatable says what a line shares with one that repeats it, and within how many
// days that is a repeat: the same income comes in every week.
func (line *moneyLine) repeatable() (what string, days int) {
	switch {
	case line.settlement != nil:
		return "people and amount", repeatDays
	case line.cost.Income:
		return "kind, amount and remark", 0
	default:
		return "people, kind and amount", repeatDays
	}
}

// sameness adds what two lines that are the same have in common to a text; nothing
// for a line that may well stand twice.
func (line *moneyLine) sameness(text []byte) []byte {
	say := func(words ...string) {
		for _, word := range words {
			text = append(append(text, word...), '\n')
		}
	}
	number := func(n int64) { text = append(strconv.AppendInt(text, n, 10), '\n') }
	amount := func(m season.Money) { number(m.Minor); say(m.Currency.Code) }
	switch s, c := line.settlement, line.cost; {
	case s != nil:
		say("settle", s.From.Name(), s.To.Name(), s.Receipt, s.Remark)
		amount(s.Money)
		amount(s.Paid)
	case c == nil:
	case c.Income:
		say("income", c.Kind, c.For[0].Name(), c.Receipt, c.Remark)
		number(int64(c.Date))
		amount(c.Money)
	default:
		say("cost", c.Kind, c.By.Name(), strconv.FormatBool(c.ToClub), c.Receipt, c.Remark)
		amount(c.Money)
		if len(c.For) == 1 {
			say(c.For[0].Name())
			break
		}
		people := make([]string, 0, len(c.For))
		for i, share := range c.Shares() {
			people = append(people, c.For[i].Name()+" "+strconv.FormatInt(share, 10))
		}
		slices.Sort(people)
		say(people...)
	}
	return text
}

// checkReceipts warns of a slip's number that another line of the club's year has.
// One slip may stand on several lines where its day and who paid are the same, on the
// payment between those whom its line is about, and on the line that takes it back.
func (r *reader) checkReceipts() {
	type series struct {
		year   int
		number string
	}
	type alike struct {
		series
		slip string
	}
	seen, known := map[series][]*moneyLine{}, map[alike]bool{}
	amounts := map[alike]int{} // that no line has taken back
	for _, line := range r.money {
		number := line.receipt()
		if number == "" {
			continue
		}
		key := series{r.out.YearOf(line.date), plainNumber(number)}
		own, takenBack := line.amount()
		takesBack := own != "" && amounts[alike{key, takenBack}] > 0
		other := slices.IndexFunc(seen[key], func(o *moneyLine) bool { return !line.sameSlip(o) })
		if other >= 0 && !line.repeats && !takesBack {
			r.at(line.f, line.head, receiptTwice, number, lineText(seen[key][other].at, line.f)).besides().sameReceipt = seen[key][other].at
		}
		if slip := (alike{key, line.slip()}); !known[slip] { // one of many lines that another is compared with
			known[slip], seen[key] = true, append(seen[key], line)
		}
		switch {
		case takesBack:
			amounts[alike{key, takenBack}]--
		case own != "":
			amounts[alike{key, own}]++
		}
	}
}

// slip is all that sameSlip asks of a line.
func (line *moneyLine) slip() string {
	if line.cost == nil {
		return fmt.Sprint("settle ", line.settlement.From.Name(), " ", line.settlement.To.Name())
	}
	text := fmt.Sprint(line.date, " ", line.cost.By.Name(), " ", line.cost.ToClub)
	for _, party := range line.cost.For {
		text += " " + party.Name()
	}
	return text
}

// amount is whose money a cost or an income is and how much, and what a line that takes
// it back has: the refund of a cost, or of an income, is on the slip of that. Both are ""
// of a settlement.
func (line *moneyLine) amount() (own, takenBack string) {
	c := line.cost
	if c == nil {
		return "", ""
	}
	people := []string{c.By.Name()}
	minor := -c.Money.Minor
	if c.Income {
		people, minor = nil, c.Money.Minor
	}
	for _, party := range c.For {
		people = append(people, party.Name())
	}
	slices.Sort(people)
	people = slices.Compact(people)
	said := func(minor int64) string { return fmt.Sprint(people, c.ToClub, minor, c.Money.Currency.Code) }
	return said(minor), said(-minor)
}

// receipt is the number of a line's slip, "" where it has none.
func (line *moneyLine) receipt() string {
	switch {
	case line.cost != nil:
		return line.cost.Receipt
	case line.settlement != nil:
		return line.settlement.Receipt
	default:
		return ""
	}
}

// plainNumber is a slip's number without zeros before it: 007 is 7.
func plainNumber(receipt string) string {
	if plain := strings.TrimLeft(receipt, "0"); plain != "" {
		return plain
	}
	return receipt
}

// sameSlip reports whether two lines with one number may be about one slip.
func (line *moneyLine) sameSlip(other *moneyLine) bool {
	switch {
	case line.cost != nil && other.cost != nil:
		return line.date == other.date && line.cost.By == other.cost.By
	case line.cost != nil && other.settlement != nil:
		return paysOf(other.settlement, line.cost)
	case line.settlement != nil && other.cost != nil:
		return paysOf(line.settlement, other.cost)
	default:
		return false
	}
}

// paysOf reports whether a payment is between two whom a cost is about.
func paysOf(s *season.Settlement, c *season.Cost) bool {
	about := func(p season.Party) bool {
		return p == c.By || slices.Contains(c.For, p) || c.ToClub && p.Club()
	}
	return about(s.From) && about(s.To)
}
