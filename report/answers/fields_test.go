package answers_test

import (
	"reflect"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"boxbook/report"
	"boxbook/report/answers"
)

// Every field of an answer is in the contract: exported, with a name of its own,
// never left out of JSON.
func TestFieldsAreTheContract(t *testing.T) {
	for _, answer := range []any{answers.Ready{}, answers.Forecast{}, answers.Plan{}} {
		holdFields(t, reflect.TypeOf(answer))
	}
}

// holdFields holds a type, and those that it is made of, to tagged fields.
func holdFields(t *testing.T, of reflect.Type) {
	t.Helper()
	for of.Kind() == reflect.Pointer || of.Kind() == reflect.Slice || of.Kind() == reflect.Map {
		of = of.Elem()
	}
	if of.Kind() != reflect.Struct || of == reflect.TypeFor[report.Number]() {
		return
	}
	for i := range of.NumField() {
		field := of.Field(i)
		name, _, _ := strings.Cut(field.Tag.Get("json"), ",")
		assert.True(t, field.IsExported(), "%s.%s", of.Name(), field.Name)
		assert.Regexp(t, `^[a-z][A-Za-z0-9]*$`, name, "%s.%s", of.Name(), field.Name)
		holdFields(t, field.Type)
	}
}
