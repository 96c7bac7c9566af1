package words

import "boxbook/report/answers"

// NotInThisAircraft says that something is not flown, with the reason where one
// was typed.
func NotInThisAircraft(what, reason string) string {
	return what + ": " + notInThisAircraft(reason)
}

func notInThisAircraft(reason string) string {
	const said = "not in this aircraft"
	if reason == "" {
		return said
	}
	return said + " (" + reason + ")"
}

// notFlownWords are the groups that are not flown, each with its reason.
func notFlownWords(n answers.NotFlown) []string {
	var said []string
	for _, group := range n.Groups {
		said = append(said, NotInThisAircraft(GroupTitle(group), n.Reasons[group]))
	}
	return said
}
