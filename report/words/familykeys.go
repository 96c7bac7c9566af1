package words

import (
	"fmt"
	"strings"

	"boxbook/season"
)

// otherNames are the words that another part of the trade has for a group; each
// page of boxbook has the first one alone.
var otherNames = map[string]string{
	"5":    "hammerheads",
	"9.9":  "positive snap rolls",
	"9.10": "negative snap rolls",
}

// groupCodes say which catalogue numbers are in a group.
var groupCodes = map[string]string{
	"1": "1.x", "2": "2.x", "2-rolling": "2.x with rolls", "3": "3.x", "5": "5.x", "6": "6.x", "7": "7.x", "8": "8.x",
	"9.1": "9.1.x", "hesitation": "9.2.x to 9.8.x", "9.9": "9.9.x", "9.10": "9.10.x", "spins": "9.11.x, 9.12.x",
}

// FamilyKeys lists the keys of the families with their names, for the help page.
func FamilyKeys() string {
	var b strings.Builder
	b.WriteString("The families and their keys, which drills and the hints of a sequence's figures\nuse too:\n\n")
	for _, key := range season.Groups {
		name := groupNames[key]
		if other := otherNames[key]; other != "" {
			name += " (" + other + ")"
		}
		fmt.Fprintf(&b, "  %-11s %-16s %s\n", key, groupCodes[key], name)
	}
	b.WriteString("\nA figure is in a family by the numbers of the open catalogue that the form\n" +
		"prints; a turn is a rolling turn where its third number is 2 or more (in a\n" +
		"number of only three parts, 3 or more). Family 4 is no longer used, a bare 9 is\n" +
		"not enough, and a figure with K alone counts in scores and in no family.")
	return b.String()
}
