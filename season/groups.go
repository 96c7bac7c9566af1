package season

import (
	"slices"
	"strconv"
	"strings"
)

// Groups are the trend groups in their order on every page: figure families,
// with rolling turns apart from turns, and the families of rolling elements
// [memory], seen in part: 9.2 to 9.12 [published: iac-2004, families; iac-2018,
// families], 9.1, 9.9 and 9.10 [published: sagach-gold, families].
var Groups = []string{"1", "2", "2-rolling", "3", "5", "6", "7", "8", "9.1", "hesitation", "9.9", "9.10", "spins"}

// IsGroup reports whether the word is a group key.
func IsGroup(word string) bool { return slices.Contains(Groups, word) }

// CodeParts splits a catalogue number (the trade's open numbering, such as
// 9.1.3.4) into its numbers. It reports false for anything that is not one to
// six numbers of up to three digits with points between them, the first a
// family from 1 to 9.
func CodeParts(code string) ([]int, bool) {
	numbers, n, ok := codeNumbers(code)
	if n == 0 {
		return nil, false
	}
	return append([]int(nil), numbers[:n]...), ok
}

// mostNumbers is how many numbers a code has at the most.
const mostNumbers = 6

// codeNumbers is CodeParts without allocation: no numbers where the code is not made
// of numbers and points.
func codeNumbers(code string) (numbers [mostNumbers]int, n int, ok bool) {
	const mostDigits = 3
	digits := 0
	for i := range len(code) {
		switch c := code[i]; {
		case c >= '0' && c <= '9' && digits < mostDigits && n < mostNumbers:
			numbers[n] = 10*numbers[n] + int(c-'0')
			digits++
		case c == '.' && digits > 0:
			n++
			digits = 0
		default:
			return numbers, 0, false
		}
	}
	if digits == 0 {
		return numbers, 0, false
	}
	return numbers, n + 1, numbers[0] >= 1 && numbers[0] <= 9
}

// GroupOf gives the trend group of a catalogue number, a family number or a
// group key; "" where it belongs to none (family 4 is no longer used, and a
// bare 9 says too little). A 2.x code of four numbers is a rolling turn where its
// third is 2 or more [memory]; of three numbers, as gliders have them, where it is
// 3 or more: 2.2.2 is a half turn, 2.1.3 a quarter rolling circle [published:
// daec-silver, figures].
func GroupOf(code string) string {
	if IsGroup(code) {
		return code
	}
	all, n, ok := codeNumbers(code)
	if !ok {
		return ""
	}
	numbers := all[:n]
	switch family := numbers[0]; family {
	case 2:
		if len(numbers) > 3 && numbers[2] >= 2 || len(numbers) == 3 && numbers[2] >= 3 {
			return "2-rolling"
		}
		return "2"
	case 4:
		return ""
	case 9:
		return rollGroup(numbers)
	default:
		return strconv.Itoa(family)
	}
}

// lastRoll is the last of the 9.x families of rolling elements [published: iac-2004,
// families; iac-2018, families].
const lastRoll = 12

// NearestCode gives, for a catalogue number that cannot be one of the open
// numbering, the first numbers that name no family, and the nearest number that
// can be; "" for any other code.
func NearestCode(code string) (unknown, nearest string) {
	numbers, ok := CodeParts(code)
	if !ok || GroupOf(code) != "" {
		return "", ""
	}
	parts := strings.Split(code, ".")
	switch {
	case numbers[0] == 4: // no longer used
		return "4", strings.Join(append([]string{"3"}, parts[1:]...), ".")
	case len(parts) < 2: // a bare 9
		return "", ""
	default:
		near := strconv.Itoa(min(max(numbers[1], 1), lastRoll))
		return parts[0] + "." + parts[1], strings.Join(append([]string{"9", near}, parts[2:]...), ".")
	}
}

// rollGroup sorts the 9.x elements by their second number.
func rollGroup(numbers []int) string {
	if len(numbers) < 2 {
		return ""
	}
	switch n := numbers[1]; {
	case n == 1:
		return "9.1"
	case n >= 2 && n <= 8:
		return "hesitation"
	case n == 9:
		return "9.9"
	case n == 10:
		return "9.10"
	case n == 11 || n == 12:
		return "spins"
	default:
		return ""
	}
}
