package words

import (
	"cmp"
	"strings"
)

// groupNames say each trend group in words.
var groupNames = map[string]string{
	"1":          "lines and angles",
	"2":          "turns",
	"2-rolling":  "rolling turns",
	"3":          "combinations of lines",
	"5":          "stall turns",
	"6":          "tailslides",
	"7":          "loops, part loops and eights",
	"8":          "combinations of lines, angles and loops",
	"9.1":        "slow rolls",
	"hesitation": "hesitation rolls",
	"9.9":        "positive flick rolls",
	"9.10":       "negative flick rolls",
	"spins":      "spins",
}

// GroupName says a group in words; a key that is no group gives "".
func GroupName(group string) string { return groupNames[group] }

// GroupTitle says a group in words and by its key, which alone would read as a
// count or a rank: "tailslides (family 6)".
func GroupTitle(group string) string {
	name := groupNames[group]
	switch {
	case name == "":
		return group
	case strings.HasPrefix(name, group), strings.ContainsRune(group, '-'):
		return name // the words say the key
	default:
		return name + " (family " + group + ")"
	}
}

// GroupShort says a group in words where its key would not help: in narrow cells.
func GroupShort(group string) string {
	return cmp.Or(groupNames[group], group)
}

// GroupsShort says what drills are on, each a family in short or a kind of fault as the
// ledger has it.
func GroupsShort(targets []string) string {
	said := make([]string, len(targets))
	for i, target := range targets {
		said[i] = GroupShort(target)
	}
	return strings.Join(said, ", ")
}

// GroupTitles lists groups in words and by their keys.
func GroupTitles(groups []string) string {
	titles := make([]string, len(groups))
	for i, group := range groups {
		titles[i] = GroupTitle(group)
	}
	return strings.Join(titles, ", ")
}
