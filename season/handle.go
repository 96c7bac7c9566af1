package season

import "unicode"

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
