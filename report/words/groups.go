package words

import "strings"

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
	"9.9":        "flick rolls, positive",
	"9.10":       "flick rolls, negative",
	"spins":      "spins",
}

// GroupName says a group in words; a key that is no group gives "".
func GroupName(group string) string { return groupNames[group] }

// GroupTitle says a group by its key and in words: "6 tailslides".
func GroupTitle(group string) string {
	name := groupNames[group]
	switch {
	case name == "":
		return group
	case strings.HasPrefix(name, group), strings.ContainsRune(group, '-'):
		return name // the words say the key
	default:
		return group + " " + name
	}
}

// GroupTitles lists groups by key and in words.
func GroupTitles(groups []string) string {
	titles := make([]string, len(groups))
	for i, group := range groups {
		titles[i] = GroupTitle(group)
	}
	return strings.Join(titles, ", ")
}
