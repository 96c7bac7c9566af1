package season

import (
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// IsHandle reports whether a text can be the name of something in a ledger: a
// letter of any script, then letters (with the marks that some scripts put on
// them), digits, - or _.
func IsHandle(text string) bool {
	for i, r := range text {
		switch {
		case unicode.IsLetter(r) || (i > 0 && unicode.IsMark(r)):
		case i > 0 && (unicode.IsDigit(r) || r == '-' || r == '_'):
		default:
			return false
		}
	}
	return text != ""
}

// IsSeat reports whether a judge's name is a seat, one letter or J and a number:
// it means a person within one contest alone.
func IsSeat(name string) bool {
	if utf8.RuneCountInString(name) == 1 {
		return true
	}
	number, ok := strings.CutPrefix(name, "J")
	_, err := strconv.ParseUint(number, 10, 32)
	return ok && err == nil
}
