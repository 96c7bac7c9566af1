package commands

import (
	"encoding/json"
	"fmt"
	"math"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"boxbook/data"
	"boxbook/season"
	"boxbook/season/ledger"

	"github.com/stretchr/testify/require"
)

// answered are the numbers of one object of an answer, which is about what it
// names: a flight, a figure of it, a family, a judge ... All its names stand in
// the row of a cell that shows one of them.
type answered struct {
	names   []string
	numbers []float64
}

// book is a workbook beside the JSON of its commands.
type book struct {
	by      asking
	sheets  []sheet
	trees   map[string]map[string]any // by command; "flight NAME"
	objects []*answered
	all     []float64
	texts   string
	called  map[string][]string // handles by name
}

// naming are the fields that say what an object is about, the first of them that
// it has.
var naming = [][]string{
	{"flight"},
	{"party"},
	{"group", "kind", "target", "judge", "code", "number", "figure"},
	{"contest"},
	{"from", "to"},
	{"pilot"},
	{"category"},
	{"name"},
}

// subjectOf gives the names of what an object is about.
func subjectOf(object map[string]any) []string {
	var names []string
	for _, fields := range naming {
		for _, field := range fields {
			switch name := object[field].(type) {
			case string:
				names = append(names, name)
			case float64:
				names = append(names, fmt.Sprintf("figure %v", name))
			}
		}
		if names != nil {
			return names
		}
	}
	return nil
}

// bookOf writes a workbook and asks the commands for the same selection.
func bookOf(t testing.TB, by asking, path string, selection ...string) book {
	t.Helper()
	b := book{by: by, trees: map[string]map[string]any{}, called: namesIn(t, path)}
	file := filepath.Join(t.TempDir(), "book.xlsx")
	args := append([]string{"workbook", "-f", path, "-o", file}, selection...)
	by(t, args...)
	b.sheets = sheetsOf(t, file)
	for _, command := range []string{"season", "families", "faults", "panel"} {
		b.ask(t, command, append([]string{command, "-f", path}, selection...)...)
	}
	for _, command := range []string{"drills", "ready"} {
		b.ask(t, command, append([]string{command, "-f", path}, selection[:2]...)...)
	}
	if slices.Contains(selection, "--since") { // which says nothing of where a pilot is now
		selection = selection[:2]
	}
	b.ask(t, "plan", append([]string{"plan", "-f", path}, selection...)...)
	for _, flight := range b.list("season", "flights") {
		name := flight["flight"].(string)
		b.ask(t, "flight "+name, "flight", name, "-f", path)
	}
	slices.Sort(b.all)
	return b
}

// namesIn are the handles of pilots and contests by their names, which two
// contests of different years may share.
func namesIn(t testing.TB, path string) map[string][]string {
	t.Helper()
	today, _ := season.ParseDate("2026-11-25")
	result, err := ledger.Load(ledger.Options{Files: ledger.Disk{}, Main: path, Builtin: data.Builtin(), AsOf: today})
	require.NoError(t, err)
	require.NoError(t, result.Diagnostics.Err())
	called := map[string][]string{"the club": {"club"}}
	for _, p := range result.Ledger.Persons {
		called[p.Name] = append(called[p.Name], p.Handle)
	}
	for _, p := range result.Ledger.Pilots {
		called[p.Name] = append(called[p.Name], p.Handle)
	}
	for _, c := range result.Ledger.Contests {
		called[c.Name] = append(called[c.Name], c.Handle)
	}
	return called
}

// ask keeps the answer of one command.
func (b *book) ask(t testing.TB, name string, args ...string) {
	t.Helper()
	var tree map[string]any
	require.NoError(t, json.Unmarshal([]byte(b.by(t, append(args, "--format", "json")...)), &tree), args)
	delete(tree, "boxbook")
	b.trees[name] = tree
	around := &answered{}
	if flight, ok := tree["flight"].(string); ok {
		around.names = []string{flight}
	}
	b.objects = append(b.objects, around)
	for field, item := range tree {
		b.walk(item, around)
		if field == "club" { // what a year has of the club has no name of its own
			club := &answered{names: []string{field}}
			b.objects = append(b.objects, club)
			b.walk(item, club)
		}
	}
}

// walk takes down the numbers of a node: of an object that is about something
// among its own, of others among those of what is around them.
func (b *book) walk(node any, around *answered) {
	switch v := node.(type) {
	case float64:
		around.numbers, b.all = append(around.numbers, v), append(b.all, v)
	case string:
		b.texts += v + "\n"
		if number, err := strconv.ParseFloat(v, 64); err == nil { // money and marks
			b.walk(number, around)
		}
	case []any:
		for _, item := range v {
			b.walk(item, around)
		}
	case map[string]any:
		if names := subjectOf(v); names != nil {
			around = &answered{names: append(slices.Clone(around.names), names...)}
			b.objects = append(b.objects, around)
		}
		for _, item := range v {
			b.walk(item, around)
		}
	}
}

// list is a list of objects in the answer of a command.
func (b *book) list(command, field string) []map[string]any {
	var found []map[string]any
	list, _ := b.trees[command][field].([]any)
	for _, item := range list {
		found = append(found, item.(map[string]any))
	}
	return found
}

// about are the numbers of every object whose names all stand in the row of a
// cell or in its title; all there are where none is about it.
func (b *book) about(s sheet, row []sheetCell, c sheetCell) []float64 {
	texts := []string{s.title(c)}
	for _, other := range row {
		if s.title(other) == "figure" {
			texts = append(texts, "figure "+other.value)
		}
		if other.number {
			continue
		}
		first, _, _ := strings.Cut(other.value, " ")
		texts = slices.Concat(texts, []string{other.value, first}, b.called[other.value], strings.Split(other.value, " to "))
	}
	var numbers []float64
	for _, o := range b.objects {
		within := func(name string) bool { return slices.Contains(texts, name) }
		if len(o.names) > 0 && !slices.ContainsFunc(o.names, func(name string) bool { return !within(name) }) {
			numbers = append(numbers, o.numbers...)
		}
	}
	if numbers == nil {
		return b.all
	}
	return numbers
}

func knows(numbers []float64, v float64) bool {
	return slices.ContainsFunc(numbers, func(n float64) bool { return math.Abs(n-v) <= 1e-9*max(1, math.Abs(v)) })
}
