package entry

import (
	"fmt"
	"strings"

	"boxbook/season"
	"boxbook/season/ledger"
)

// endedKind ends a drill that is there.
func endedKind() Kind {
	date := dateField()
	date.Example = "2026-09-12"
	return Kind{
		Name: "ended", Short: "end a drill",
		Fields: []Field{
			{
				Name: "drill", Asks: "the drill (DATE/PILOT/TARGET, or its target)", Example: "2026-05-03/ines/line-angle", Propose: OpenDrills, Full: fullDrill,
				Help: "DATE/PILOT/TARGET, its beginning or its target, where only one that is open has it",
			},
			date, remarkField("loops round"),
		},
		Write: func(s Scene) (Addition, error) {
			d, err := s.drill(s.One("drill"))
			if err != nil {
				return Addition{}, err
			}
			to := ledger.Target{File: d.At.File, Kind: "drill", Name: DrillName(d)}
			return s.into(to, "the end of drill "+to.Name, joined("ended", s.One("date"), quoted(s.One("remark"))))
		},
	}
}

func fullDrill(s Scene, text string) (string, error) {
	d, err := s.drill(text)
	if err != nil {
		return "", err
	}
	return DrillName(d), nil
}

// drill finds the open drill of a name, or the only open one whose name begins so or
// whose target it is.
func (s Scene) drill(name string) (*season.Drill, error) {
	var begin, ended []*season.Drill
	for _, d := range s.Ledger.Drills {
		switch full := DrillName(d); {
		case !strings.HasPrefix(full, name) && d.Target != name:
		case d.Ended != 0:
			ended = append(ended, d)
		case full == name:
			return d, nil
		default:
			begin = append(begin, d)
		}
	}
	switch {
	case len(begin) == 1:
		return begin[0], nil
	case len(begin) == 0 && len(ended) == 1:
		d := ended[0]
		return nil, &Refusal{
			fmt.Sprintf("the drill %s has ended, on %s", DrillName(d), d.Ended),
			fmt.Sprintf("another end is typed over the one that is there: %s:%d", d.At.File, d.At.Line),
		}
	case len(begin) > 1:
		return nil, &Refusal{
			fmt.Sprintf("%q is more than one open drill", name),
			"say which, DATE/PILOT/TARGET:\n" + strings.Join(namesOf(begin, DrillName), "\n"),
		}
	default:
		return nil, s.host.Unknown("drill", name, OpenDrills(s.Ledger))
	}
}

// closedKind closes a safety matter by a line of its own.
func closedKind() Kind {
	return Kind{
		Name: "closed", Short: "close a safety matter",
		Fields: []Field{
			dateField(), pilotField(),
			{
				Name: "kind", Asks: "the kind of fault", Example: "loose-article", Propose: SafetyKinds, Coded: true,
				Help: "what is dated on or before that day, and stands open, is closed",
			},
			coachField(), remarkField("canopy catch replaced"),
		},
		Write: func(s Scene) (Addition, error) {
			return oneLine("the closing of "+s.One("kind"), "closed", s.One("date"), s.One("pilot"), s.One("kind"), s.Behind("by", "by"), quoted(s.One("remark")))
		},
	}
}
