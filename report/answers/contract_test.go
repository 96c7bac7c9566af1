package answers_test

import (
	"encoding/json"
	"reflect"
	"testing"

	"github.com/stretchr/testify/assert"

	"boxbook/report/answers"
)

// Answers hide nothing: every field is exported and has a JSON name, down to
// the values that write themselves.
func TestNoFieldIsHidden(t *testing.T) {
	seen := map[reflect.Type]bool{}
	for _, answer := range []any{answers.Season{}, answers.Families{}, answers.Drills{}, answers.Faults{}, answers.Year{}, answers.Check{}, answers.Ready{}, answers.Forecast{}, answers.Plan{}, answers.WhatIf{}, answers.Family{}, answers.Debrief{}, answers.DebriefForm{}, answers.Home{}, answers.Pilots{}, answers.ClubBook{}} {
		holdFields(t, reflect.TypeOf(answer), seen)
	}
	assert.Greater(t, len(seen), 20, "how many types were looked at")
}

var marshaler = reflect.TypeFor[json.Marshaler]()

func holdFields(t *testing.T, of reflect.Type, seen map[reflect.Type]bool) {
	for of.Kind() == reflect.Pointer || of.Kind() == reflect.Slice || of.Kind() == reflect.Map {
		of = of.Elem()
	}
	if of.Kind() != reflect.Struct || of.Implements(marshaler) || seen[of] {
		return
	}
	seen[of] = true
	for i := range of.NumField() {
		field := of.Field(i)
		assert.True(t, field.IsExported(), "%s.%s", of, field.Name)
		if tag := field.Tag.Get("json"); !field.Anonymous {
			assert.True(t, tag != "" && tag[0] >= 'a' && tag[0] <= 'z', "%s.%s has no JSON name", of, field.Name)
		}
		holdFields(t, field.Type, seen)
	}
}
