package tables

import (
	"reflect"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"boxbook/report/answers"
	"boxbook/report/words"
)

// The columns that help explains are the fields of the JSON, in its order, so that
// csv has them too.
func TestExportedColumnsAreTheFields(t *testing.T) {
	rows := map[string]any{
		"marks": answers.ExportRow{}, "flights": answers.ExportFlight{}, "elements": answers.ExportElement{},
		"faults": answers.ExportFault{}, "drills": answers.ExportDrill{}, "money": answers.ExportPosting{},
	}
	assert.Len(t, words.ExportedTables, len(rows))
	for _, table := range words.ExportedTables {
		var columns, fields []string
		for _, c := range table.Columns {
			columns = append(columns, c.Name)
			assert.NotEmpty(t, c.Says, c.Name)
		}
		of := reflect.TypeOf(rows[table.Name])
		for i := range of.NumField() {
			name, _, _ := strings.Cut(of.Field(i).Tag.Get("json"), ",")
			fields = append(fields, name)
		}
		assert.Equal(t, fields, columns, table.Name)
		assert.Contains(t, words.ExportHelp(), "\n"+table.Name+": a row is "+table.Row)
	}
	for _, line := range strings.Split(words.ExportHelp(), "\n") {
		assert.LessOrEqual(t, len(line), 80, line)
	}
}
