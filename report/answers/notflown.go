package answers

import "boxbook/season/analysis"

// NotFlown are the groups that a pilot does not fly, which nobody asks for.
// Reasons are as typed, by group; a group without one is not among them.
type NotFlown struct {
	Groups  []string          `json:"notFlown"`
	Reasons map[string]string `json:"notFlownReasons,omitempty"`
}

func notFlownOf(groups []analysis.NotFlownGroup) NotFlown {
	d := NotFlown{Groups: []string{}}
	for _, n := range groups {
		d.Groups = append(d.Groups, n.Group)
		if n.Reason != "" {
			if d.Reasons == nil {
				d.Reasons = map[string]string{}
			}
			d.Reasons[n.Group] = n.Reason
		}
	}
	return d
}
