package answers

import (
	"boxbook/season/analysis"
)

// Ready is the evidence for and against moving up, in JSON.
type Ready struct {
	Pilot   string   `json:"pilot"`
	From    string   `json:"from,omitempty"`
	To      string   `json:"to,omitempty"`
	Ladder  string   `json:"ladder,omitempty"`
	Policy  string   `json:"policy"`
	AsOf    string   `json:"asof"`
	Gates   []Gate   `json:"gates"`
	Verdict string   `json:"verdict"`
	Against []string `json:"against"`

	Last bool // From is the last of the ladder
	// Floor is the least height of the category To, absent where none is known.
	Floor *Floor `json:"floor,omitempty"`
}

// Floor is a height above ground in a unit, "ft" or "m".
type Floor struct {
	Height int    `json:"height"`
	Unit   string `json:"unit"`
}

// Gate is one gate: its state, what it rests on, what the policy asks and
// who set that, what would change it.
type Gate struct {
	Gate     string `json:"gate"`
	State    string `json:"state"`
	Evidence string `json:"evidence"`
	Asked    string `json:"asked"`
	Needs    string `json:"needs,omitempty"`

	Title string
}

func ReadyOf(r analysis.Readiness) Ready {
	d := Ready{
		Pilot: r.Pilot.Handle, From: r.From, To: r.To, Policy: r.Policy.Name, AsOf: r.AsOf.String(), Gates: []Gate{},
		Verdict: string(r.Verdict), Against: listOf(r.Against),
	}
	if r.Ladder != nil {
		d.Ladder = r.Ladder.Name
		_, known := r.Ladder.Category(r.From)
		d.Last = known && r.To == ""
	}
	if r.Floor.Floor > 0 {
		d.Floor = &Floor{r.Floor.Floor, string(r.Floor.Unit)}
	}
	for _, g := range r.Gates {
		d.Gates = append(d.Gates, Gate{g.Name, string(g.State), g.Evidence, g.Asked, g.Needs, g.Title})
	}
	return d
}
