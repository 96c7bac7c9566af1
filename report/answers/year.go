package answers

import (
	"cmp"
	"strconv"

	"boxbook/report"
	"boxbook/season"
	"boxbook/season/analysis"
)

// Year is a financial year of the club in JSON. A positive balance is owed to that person.
// Totals are the accounts of everybody together, by currency: their balances
// are zero. PilotCosts are the pilots' costs together, Costs those of everybody
// but the club.
// Unproven lists currencies in which fewer payments might settle everything;
// Unpriced those of open balances that the year's rates leave out.
type Year struct {
	Year int `json:"year"`
	// First and Last are the year's first and last day; Calendar says that it is
	// the calendar's.
	First    string      `json:"first"`
	Last     string      `json:"last"`
	Calendar bool        `json:"calendar"`
	Pilots   []PilotYear `json:"pilots"`
	// Others are the coaches who do not fly and the persons.
	Others []PartyYear `json:"others"`
	// Parties are the balances of everybody, the club's among them.
	Parties         []Party        `json:"parties"`
	Club            ClubYear       `json:"club"`
	Agreed          *Agreed        `json:"agreed,omitempty"`
	AgreedElse      []Agreed       `json:"agreedElse,omitempty"` // in further currencies
	AgreedBefore    []AgreedBefore `json:"agreedBefore,omitempty"`
	Totals          []Account      `json:"totals"`
	PilotCosts      []KindSum      `json:"pilotCosts"`
	PilotCostTotals []Sum          `json:"pilotCostTotals"`
	Costs           []KindSum      `json:"costs"`
	CostTotals      []Sum          `json:"costTotals"`
	Contests        []ContestYear  `json:"contests"`
	// ContestSpans are contests with costs dated in another year than the one with which
	// they stand, where one of both is this.
	ContestSpans []ContestSpan  `json:"contestSpans,omitempty"`
	Categories   []CategoryYear `json:"categories"`
	Settle       []Payment      `json:"settle"`
	SettleTotals []Sum          `json:"settleTotals"`
	// Pooled says that the payments are the fewest of one pool, SettleIn that they
	// are in one currency, SettleLeft what rounding that left.
	Pooled     bool           `json:"pooled,omitempty"`
	SettleIn   string         `json:"settleIn,omitempty"`
	SettleLeft []Sum          `json:"settleLeft,omitempty"`
	Unproven   []string       `json:"unproven,omitempty"`
	Rates      []ExchangeRate `json:"rates,omitempty"`
	Unpriced   []string       `json:"unpriced,omitempty"`
	// Quiet says that nothing belongs to the year. Loose counts contest flights
	// that name no contest, Later money lines that are dated after Asof, the day
	// that stands for today: up to the end of the year, in that of Asof of later
	// years too.
	Quiet bool `json:"quiet,omitempty"`
	// Latest is the latest year with anything in it, where a quiet year comes after it.
	Latest int `json:"latest,omitempty"`
	Loose  int `json:"loose,omitempty"`
	Later  int `json:"later,omitempty"`
	// LaterLines are the lines that Later counts, where they are one or two.
	LaterLines []MoneyLine `json:"laterLines,omitempty"`
	// Warned are the warnings of the ledger where a page says them.
	Warned *Warned `json:"warned,omitempty"`
	// Running says that the year is not over on Asof.
	Running bool `json:"running,omitempty"`
	// LinesSince are the costs, incomes, settlements and debts after the year, up to Asof;
	// none where it is Quiet.
	LinesSince int `json:"linesSince,omitempty"`
	// Beside is another year, the one before where none is named.
	Beside *Year  `json:"beside,omitempty"`
	Asof   string `json:"asof"`
}

// PilotYear is one pilot's year. Places are counted by place, duties in
// sessions by role.
type PilotYear struct {
	Pilot    string         `json:"pilot"`
	Name     string         `json:"name"`
	Contests int            `json:"contests"`
	Flights  int            `json:"flights"`
	Practice int            `json:"practice"`
	Best     report.Number  `json:"best,omitzero"`
	Mean     report.Number  `json:"mean,omitzero"`
	Places   map[string]int `json:"places"`
	Duties   map[string]int `json:"duties"`
	Books
}

// PartyYear is the year of a coach or a person: Kind says which.
type PartyYear struct {
	Party  string           `json:"party"`
	Kind   season.PartyKind `json:"kind"`
	Name   string           `json:"name"`
	Duties map[string]int   `json:"duties"`
	Books
}

// ContestYear is one contest with its results as typed.
type ContestYear struct {
	Contest string `json:"contest"`
	Name    string `json:"name"`
	Date    string `json:"date"`
	Entries int    `json:"entries"`
	Flights int    `json:"flights"`
	Costs   []Sum  `json:"costs"`
	// Income is the club's with the contest: what was paid or billed to it, which is
	// among somebody's costs too.
	Income  []Sum        `json:"income,omitempty"`
	Results []ResultYear `json:"results"`
	// Pilots are what each pilot bears of the costs, Others what coaches, persons
	// and the club do.
	Pilots []ContestCosts `json:"pilots"`
	Others []PartyCosts   `json:"others,omitempty"`
}

// ContestCosts is what a contest cost one pilot.
type ContestCosts struct {
	Pilot string `json:"pilot"`
	Name  string `json:"name"`
	Costs []Sum  `json:"costs"`
}

// PartyCosts is what a contest cost somebody who is no pilot, or the club.
type PartyCosts struct {
	Party string           `json:"party"`
	Kind  season.PartyKind `json:"kind"`
	Name  string           `json:"name,omitempty"`
	Costs []Sum            `json:"costs"`
}

// ResultYear is a contest's result of one pilot. PrintedPoints and
// PrintedMaximum are points and maximum with the decimals that were typed.
type ResultYear struct {
	Pilot          string        `json:"pilot"`
	Name           string        `json:"name"`
	Points         report.Number `json:"points,omitzero"`
	Maximum        report.Number `json:"maximum,omitzero"`
	PrintedPoints  string        `json:"printedPoints,omitempty"`
	PrintedMaximum string        `json:"printedMaximum,omitempty"`
	Place          int           `json:"place,omitempty"`
	Of             int           `json:"of,omitempty"`
}

// CategoryYear is one category; Category is absent for what has none.
type CategoryYear struct {
	Category string        `json:"category,omitempty"`
	Entries  int           `json:"entries"`
	Flights  int           `json:"flights"`
	Best     report.Number `json:"best,omitzero"`
	Mean     report.Number `json:"mean,omitzero"`
}

// LatestYear is the latest financial year with anything that YearOf shows; 0
// where there is none.
func LatestYear(l *season.Ledger) int { return analysis.LatestYear(l) }

// YearAtHand is the latest year with anything in it, today's in an empty ledger.
func YearAtHand(l *season.Ledger) int { return cmp.Or(LatestYear(l), l.YearOf(l.AsOf)) }

// YearOf is a financial year of everybody. The error is for books that do not
// add up, which is a fault of the program.
func YearOf(l *season.Ledger, year int) (Year, error) { return YearSettled(l, year, Settling{}) }

// Settling is how a year's payments are found.
type Settling = analysis.Settling

// NoRateInto says that a year's rates do not convert into a currency.
type NoRateInto = analysis.NoRateInto

// TooLarge says that balances are more in a currency than can be kept.
type TooLarge = analysis.TooLarge

// YearSettled is YearOf with payments that are found in another way. The error may
// be NoRateInto or analysis.TooLarge as well.
func YearSettled(l *season.Ledger, year int, how Settling) (Year, error) {
	y, err := analysis.YearSettled(l, year, how)
	if err != nil {
		return Year{}, err
	}
	d := Year{
		Year: y.Year, First: y.First.String(), Last: y.Last.String(), Calendar: l.YearStart.Begin(year) == season.MonthDay{}.Begin(year),
		Pilots: []PilotYear{}, Others: []PartyYear{}, Contests: []ContestYear{}, Categories: []CategoryYear{},
		Quiet: y.Quiet, Loose: y.Loose, Later: y.Later, Asof: y.AsOf.String(),
		Running: y.AsOf >= y.First && y.AsOf < y.Last,
	}
	for _, m := range y.LaterLines {
		d.LaterLines = append(d.LaterLines, moneyLineOf(m))
	}
	if !d.Quiet {
		d.LinesSince = analysis.LinesAfter(l, y)
	}
	d.addMoney(y)
	d.Club.ByLedger, d.Club.UncomparedSince = byLedgerOf(l, y), countedLast(l, y)
	d.Club.Name, d.Club.OwedInOne = l.ClubCalled(), inOne(analysis.RatesOf(l, year), d.Club.OwedTotals)
	if latest := LatestYear(l); d.Quiet && latest < year {
		d.Latest = latest
	}
	for _, p := range y.Pilots {
		d.Pilots = append(d.Pilots, pilotYearOf(p))
	}
	for _, p := range y.Others {
		d.Others = append(d.Others, PartyYear{
			Party: p.Party.Name(), Kind: p.Party.Kind(), Name: p.Party.FullName(), Duties: dutiesOf(p.Duties), Books: booksOf(p.Books),
		})
	}
	d.addParties()
	for _, c := range y.Contests {
		d.Contests = append(d.Contests, contestYearOf(c))
	}
	for _, c := range y.ContestSpans {
		d.ContestSpans = append(d.ContestSpans, ContestSpan{c.Contest.Handle, c.Contest.Name, c.Stands, c.Dated, sumsOf(c.Costs)})
	}
	for _, c := range y.Categories {
		d.Categories = append(d.Categories, CategoryYear{
			Category: c.Name, Entries: c.Entries, Flights: c.Flights, Best: report.Exact(c.Best), Mean: report.Exact(c.Mean),
		})
	}
	return d, nil
}

// ContestSpan is what a contest cost in the year Dated, though it stands with the year
// Stands, in which it begins.
type ContestSpan struct {
	Contest string `json:"contest"`
	Name    string `json:"name"`
	Stands  int    `json:"stands"`
	Dated   int    `json:"dated"`
	Costs   []Sum  `json:"costs"`
}

func pilotYearOf(p analysis.PilotYear) PilotYear {
	d := PilotYear{
		Pilot: p.Pilot.Handle, Name: p.Pilot.Name, Contests: p.Contests, Flights: p.Flights, Practice: p.Practice,
		Best: report.Exact(p.Best), Mean: report.Exact(p.Mean), Places: map[string]int{}, Duties: dutiesOf(p.Duties), Books: booksOf(p.Books),
	}
	for i, n := range p.Places {
		d.Places[strconv.Itoa(i+1)] = n
	}
	return d
}

// dutiesOf are sessions by role.
func dutiesOf(all []analysis.DutyYear) map[string]int {
	sessions := map[string]int{}
	for _, duty := range all {
		sessions[duty.Role] = duty.Sessions
	}
	return sessions
}

func contestYearOf(c analysis.ContestYear) ContestYear {
	d := ContestYear{
		Contest: c.Contest.Handle, Name: c.Contest.Name, Date: c.Contest.First.String(), Entries: c.Entries, Flights: c.Flights,
		Costs: sumsOf(c.Costs), Results: []ResultYear{}, Pilots: []ContestCosts{},
	}
	if len(c.Income) > 0 {
		d.Income = sumsOf(c.Income)
	}
	for _, s := range c.Shares {
		if s.Party.Pilot != nil {
			d.Pilots = append(d.Pilots, ContestCosts{s.Party.Name(), s.Party.FullName(), sumsOf(s.Money)})
		} else {
			d.Others = append(d.Others, PartyCosts{s.Party.Name(), s.Party.Kind(), s.Party.FullName(), sumsOf(s.Money)})
		}
	}
	for _, r := range c.Results {
		result := ResultYear{Pilot: r.Pilot.Handle, Name: r.Pilot.Name, Place: r.Rank, Of: r.Of}
		if r.Points != nil {
			result.Points, result.PrintedPoints = report.Exact(r.Points.Rat()), r.Points.String()
		}
		if r.Maximum != nil {
			result.Maximum, result.PrintedMaximum = report.Exact(r.Maximum.Rat()), r.Maximum.String()
		}
		d.Results = append(d.Results, result)
	}
	return d
}

// NotBegun reports whether the year begins after the day that stands for today.
func (d Year) NotBegun() bool { return d.Asof < d.First }
