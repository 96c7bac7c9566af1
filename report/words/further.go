package words

import "strings"

// MoreNumbers says where a page's other numbers are: of a command and what it was
// given.
func MoreNumbers(command ...string) string {
	return "Other numbers: boxbook " + commandLine(command) + " --all"
}

// WherePracticePays sends on to the page that answers what to practise, of a pilot
// where there is one.
func WherePracticePays(pilot string) string {
	return "Where practice pays: boxbook " + commandLine([]string{"plan", pilot})
}

// planCommand asks where practice pays, of a category if one is given.
func planCommand(pilot, category string) string {
	if category != "" {
		category = "--category " + category
	}
	return "boxbook " + commandLine([]string{"plan", pilot, category})
}

// Further sends on from a pilot's page to where practice pays, then to the page's
// other numbers.
func Further(command, pilot string, given ...string) string {
	return WherePracticePays(pilot) + "\n" + MoreNumbers(append([]string{command, pilot}, given...)...)
}

// commandLine joins what a command is given, without what is left empty.
func commandLine(given []string) string {
	return strings.Join(strings.Fields(strings.Join(given, " ")), " ")
}
