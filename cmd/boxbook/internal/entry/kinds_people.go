package entry

import (
	"fmt"

	"boxbook/season/ledger"
)

func pilotKind() Kind {
	return Kind{
		Name: "pilot", Short: "add a pilot",
		Fields: []Field{
			handleField("yuki"),
			{Name: "name", Asks: "the full name", Example: "Yuki Lindqvist", Shape: Text, Optional: true, Brief: true},
			{Name: "club", Asks: "the club", Example: "Kestrel Aero Club", Shape: Text, Optional: true},
			{Name: "aircraft", Asks: "the aircraft", Example: "two-seat biplane, 200 hp", Shape: Text, Optional: true},
		},
		Write: func(s Scene) (Addition, error) {
			var t blockText
			t.line("pilot", s.One("handle"))
			for _, key := range []string{"name", "club", "aircraft"} {
				t.body(key, quoted(s.One(key)))
			}
			return Addition{Block: t.tidied(), Said: "pilot " + s.One("handle")}, nil
		},
	}
}

func coachKind() Kind { return namedKind("coach", "add a coach", "agnes", "Agnes Oduya") }

func personKind() Kind {
	return namedKind("person", "add somebody who pays or is paid but does not fly", "rolf", "Rolf, the rigger")
}

// namedKind is somebody of whom the ledger has the name alone.
func namedKind(kind, short, handle, name string) Kind {
	return Kind{
		Name: kind, Short: short,
		Fields: []Field{
			handleField(handle),
			{Name: "name", Asks: "the full name", Example: name, Shape: Text, Optional: true, Brief: true},
		},
		Write: func(s Scene) (Addition, error) {
			var t blockText
			t.line(kind, s.One("handle")).body("name", quoted(s.One("name")))
			return Addition{Block: t.tidied(), Said: kind + " " + s.One("handle")}, nil
		},
	}
}

func expiryKind() Kind {
	return Kind{
		Name: "expiry", Short: "add or renew the day on which a pilot's medical or licence expires",
		Fields: []Field{
			pilotField(),
			{
				Name: "what", Asks: "what expires", Example: "medical", Propose: ExpiryWords, Open: true,
				Help: "medical, licence, insurance, parachute, or any word",
			},
			{Name: "date", Asks: "the last day", Example: "2027-03-01", Meant: ledger.DateMeant, Slip: dateSlip},
			remarkField("renewed in the winter"),
		},
		Write: func(s Scene) (Addition, error) {
			add, err := s.ofPilot("an expiry of ", joined("expires", s.One("what"), s.One("date"), quoted(s.One("remark"))))
			if err != nil {
				return add, err
			}
			for _, e := range s.Ledger.PilotNamed(s.One("pilot")).Expires {
				if e.What == s.One("what") {
					add.Renews = true
					add.Brief = fmt.Sprintf("%s\n\nin place of %s %s", add.Show(), e.What, e.Date)
				}
			}
			return add, nil
		},
	}
}

func notFlownKind() Kind {
	return Kind{
		Name: "not-flown", Short: "add groups that a pilot or the aircraft does not fly",
		Fields: []Field{
			pilotField(),
			{
				Name: "groups", Asks: "the groups or families", Example: "9.10", Shape: Words, List: true, Propose: Groups, Coded: true,
				Help: "no page plans figures of these: boxbook help families",
			},
			{Name: "reason", Asks: "why", Example: "engine mount; aircraft's manual", Shape: Text, Optional: true},
		},
		Write: func(s Scene) (Addition, error) {
			return s.ofPilot("groups not flown to ", joined("not-flown", s.One("groups"), quoted(s.One("reason"))))
		},
	}
}

// ofPilot adds a line to the pilot who was named; said is the last word about
// it, before the pilot's name.
func (s Scene) ofPilot(said, line string) (Addition, error) {
	p := s.Ledger.PilotNamed(s.One("pilot"))
	if p == nil {
		return Addition{}, s.host.Unknown("pilot", s.One("pilot"), Pilots(s.Ledger))
	}
	return s.into(ledger.Target{File: p.At.File, Kind: "pilot", Name: p.Handle}, said+"pilot "+p.Handle, line)
}
