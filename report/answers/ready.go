package answers

import (
	"encoding/json"
	"slices"

	"boxbook/report"
	"boxbook/scoring"
	"boxbook/season"
	"boxbook/season/analysis"
	"boxbook/season/analysis/code"
)

// Ready is the evidence for and against moving up, in JSON. What stands against
// is in words; the gates have what it is made of.
type Ready struct {
	Pilot  string `json:"pilot"`
	Name   string `json:"name"`           // of the pilot
	From   string `json:"from,omitempty"` // the highest flown in contests within the window
	To     string `json:"to,omitempty"`
	Ladder string `json:"ladder,omitempty"`
	// OwnLadder says that the ledger defines the ladder, not the program.
	OwnLadder bool     `json:"ownLadder,omitempty"`
	Policy    string   `json:"policy"`
	AsOf      string   `json:"asof"`
	Gates     []Gate   `json:"gates"`
	Off       []string `json:"off"` // gates that the policy does not ask for
	// Open are the open matters of safety, whatever the policy asks of them.
	Open []Open `json:"open"`
	// Expires is what has run out, or does soon: no gate looks at it.
	Expires []Expiry `json:"expires"`
	Said    []Said   `json:"said"`
	// Noted are the latest notes of reviews by those whose words in Said are of a sign-off.
	Noted   []Said         `json:"noted,omitempty"`
	Verdict code.GateState `json:"verdict"`
	Missing []string       `json:"missing"` // gates that count and are not met
	Against []string       `json:"against"`
	// Past is how earlier forecasts did, absent where none is shown.
	Past *Past `json:"past,omitempty"`
	// Last says that From is the last of the ladder: there is no step above it.
	Last bool `json:"last,omitempty"`
	// Floor is the least height of the category To, absent where none is known.
	Floor *Floor `json:"floor,omitempty"`
}

// Said is what a coach said of the pilot on a day, or the pilot; Signoff says that it is
// the remark of a sign-off.
type Said struct {
	Date    string `json:"date"`
	By      string `json:"by"`
	Text    string `json:"text"`
	Signoff bool   `json:"signoff,omitempty"`
}

// Floor is a height above ground in a unit, "ft" or "m".
type Floor struct {
	Height int    `json:"height"`
	Unit   string `json:"unit"`
}

// Gate is one gate: its state, what it rests on, what the policy asks and who
// set that, what would change it, and the same in short: what the ledger has, what
// is asked, what is missing. These are words; the settings, the numbers and the
// reasons are what they are made of. One that does not count has no part in the
// verdict.
type Gate struct {
	Gate          string         `json:"gate"`
	State         code.GateState `json:"state"`
	Evidence      string         `json:"evidence"`
	Asked         string         `json:"asked"`
	Needs         string         `json:"needs,omitempty"`
	Brief         string         `json:"brief"`
	Wants         string         `json:"wants"`
	Lacks         string         `json:"lacks,omitempty"`
	Counts        bool           `json:"counts"`
	Settings      []Setting      `json:"settings"`
	Numbers       GateNumbers    `json:"numbers"`
	Reasons       []code.Reason  `json:"reasons"`
	SpeaksAgainst bool           `json:"speaksAgainst"`
}

// GateNumbers are what a gate rests on, by kind. In JSON a kind that a gate has
// once, by its meaning, stands as it is: a number, or a range.
type GateNumbers map[code.Fact][]Number

// MarshalJSON writes what stands for itself without a list around it.
func (n GateNumbers) MarshalJSON() ([]byte, error) {
	out := make(map[code.Fact]any, len(n))
	for what, list := range n {
		switch what {
		case code.Next, code.Sure, code.SureMoving:
			out[what] = list[0].Number
		case code.Share, code.LevelNow:
			out[what] = list[0]
		default:
			out[what] = list
		}
	}
	return json.Marshal(out)
}

// Setting is a key of the policy that a gate goes by: its numbers, also as they
// were typed, and whether they are the house's. Without numbers nothing is asked
// of it.
type Setting struct {
	Key    string          `json:"key"`
	Values []report.Number `json:"values"`
	Typed  []string        `json:"typed"`
	House  bool            `json:"house"`
}

// Number is one thing that a gate rests on, of a kind: of whom or what, a text as
// typed, a figure of a flight, a number, a range with its confidence, a day; each is absent where it
// does not apply.
// Shares and probabilities are between 0 and 1.
type Number struct {
	Name       string        `json:"name,omitempty"`
	Text       string        `json:"text,omitempty"`
	Figure     int           `json:"figure,omitempty"`
	Number     report.Number `json:"number,omitzero"`
	Low        report.Number `json:"low,omitzero"`
	High       report.Number `json:"high,omitzero"`
	Confidence report.Number `json:"confidence,omitzero"`
	On         string        `json:"on,omitempty"`
}

// ReadyOf answers for a pilot by a policy. ladder and to may be nil and "": the
// next step of the ladder of the latest contest flown. Its sentences are made by
// words.SayReady.
func ReadyOf(l *season.Ledger, p *season.Pilot, policy *season.Policy, ladder *season.Ladder, to string) Ready {
	r := analysis.ReadinessOf(l, p, policy, ladder, to)
	d := Ready{
		Pilot: r.Pilot.Handle, Name: r.Pilot.Name, From: r.From, To: r.To, Policy: r.Policy.Name, AsOf: r.AsOf.String(),
		Gates: []Gate{}, Off: listOf(r.Off), Last: r.AtTop(), Open: openOf(r.Open), Said: []Said{}, Verdict: r.Verdict, Missing: listOf(r.Missing), Against: []string{},
	}
	_, d.Expires = aheadIn(analysis.AheadOf(l, p))
	for _, said := range r.Said {
		d.Said = append(d.Said, saidBy(said))
	}
	for _, noted := range r.Noted {
		d.Noted = append(d.Noted, saidBy(noted))
	}
	if r.Ladder != nil {
		d.Ladder, d.OwnLadder = r.Ladder.Name, !r.Ladder.Shipped
	}
	if r.Floor.Floor > 0 {
		d.Floor = &Floor{r.Floor.Floor, r.Floor.Unit}
	}
	for _, g := range r.Gates {
		d.Gates = append(d.Gates, gateOf(g))
		if slices.ContainsFunc(g.Facts, func(f analysis.Fact) bool { return f.Code == code.Forecast }) {
			past := pastOf(analysis.ForecastRecord(l, p, r.To, nil))
			d.Past = &past
		}
	}
	return d
}

// StepsUp reports whether a category is a step above the pilot's present one,
// which is from, as far as the ladder knows.
func StepsUp(l *season.Ledger, p *season.Pilot, policy *season.Policy, ladder *season.Ladder, to string) (from string, up bool) {
	return analysis.StepsUp(l, p, policy, ladder, to)
}

func saidBy(s analysis.Said) Said { return Said{s.Date.String(), s.By, s.Text, s.Signoff} }

func gateOf(g analysis.Gate) Gate {
	d := Gate{Gate: g.Name, State: g.State, Settings: []Setting{}, Numbers: GateNumbers{}, Reasons: listOf(g.Reasons), Counts: g.Counts, SpeaksAgainst: g.Against}
	for _, s := range g.Settings {
		d.Settings = append(d.Settings, settingOf(s))
	}
	for _, f := range g.Facts {
		d.Numbers[f.Code] = append(d.Numbers[f.Code], gateNumber(f))
	}
	return d
}

func gateNumber(f analysis.Fact) Number {
	d := Number{Name: f.Name, Text: f.Text, Figure: f.Figure, Number: report.Float(f.Number), Low: report.Float(f.Low), High: report.Float(f.High), Confidence: report.Float(f.Confidence)}
	if f.On != 0 {
		d.On = f.On.String()
	}
	return d
}

func settingOf(s analysis.Setting) Setting {
	d := Setting{Key: s.Key, House: s.House, Values: []report.Number{}, Typed: []string{}}
	for _, value := range s.Values {
		d.Values, d.Typed = append(d.Values, numberOf(value)), append(d.Typed, value.String())
	}
	return d
}

func numberOf(d scoring.Decimal) report.Number { return report.Exact(d.Rat()) }
