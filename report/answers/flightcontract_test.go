package answers_test

import (
	"reflect"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/scoring"
)

// What an answer says, it says to programs too. Every field
// has a name of its own in JSON.
func TestNothingOfAFlightIsHidden(t *testing.T) {
	for _, answer := range []any{answers.Flight{}, answers.Panel{}, answers.ExportRow{}, answers.RuleStyle{}} {
		holdNamed(t, reflect.TypeOf(answer), map[reflect.Type]bool{})
	}
}

// holdNamed looks at a type and at what it is made of. A type that marshals
// itself has no fields to name.
func holdNamed(t *testing.T, of reflect.Type, seen map[reflect.Type]bool) {
	t.Helper()
	switch {
	case of.Kind() == reflect.Slice || of.Kind() == reflect.Pointer:
		holdNamed(t, of.Elem(), seen)
		return
	case of.Kind() != reflect.Struct || seen[of] || of == reflect.TypeOf(report.Number{}) || of == reflect.TypeOf(answers.FigureName{}):
		return
	}
	seen[of] = true
	for i := range of.NumField() {
		field := of.Field(i)
		if !field.Anonymous {
			name, _, _ := strings.Cut(field.Tag.Get("json"), ",")
			assert.True(t, field.IsExported() && name != "" && name != "-" && strings.ToLower(name[:1]) == name[:1], "%s.%s", of, field.Name)
		}
		holdNamed(t, field.Type, seen)
	}
}

// The codes of a rule style are the words that a ledger types.
func TestStyleCodes(t *testing.T) {
	assert.Equal(t, scoring.HardZeroWords, []string{answers.Majority, answers.AsGiven})
	assert.Equal(t, scoring.HalfWords, []string{answers.HalfUndecided, answers.HalfZero, answers.HalfFill})
	assert.Equal(t, scoring.FillRoundingWords, []string{answers.Unrounded, answers.ToTenth, answers.ToHalf})
	assert.Equal(t, answers.RuleStyle{
		Name: "panel-mean", HardZero: answers.Majority, Half: answers.HalfUndecided, FillRounding: answers.Unrounded, DropPanel: 5,
	}, answers.StyleOf(nil))
}
