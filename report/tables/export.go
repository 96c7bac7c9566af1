package tables

import (
	"fmt"
	"reflect"
	"strconv"
	"strings"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/words"
	"boxbook/season"
)

// ExportTable lays rows out in the columns of an exported table: a column is the
// field of its name in JSON.
func ExportTable[Row any](of words.ExportedTable, rows []Row) *report.Table {
	t := &report.Table{}
	fields := jsonFields(reflect.TypeFor[Row]())
	at := make([]jsonField, len(of.Columns))
	for i, column := range of.Columns {
		t.Columns = append(t.Columns, report.Column{Key: column.Name, Title: column.Name})
		at[i] = fields[column.Name]
	}
	t.Rows = make([][]report.Cell, len(rows))
	season.SideBySide(len(rows), func(r int) {
		value := reflect.ValueOf(&rows[r]).Elem()
		cells := make([]report.Cell, len(at))
		for i, field := range at {
			if v := value.Field(field.at); !field.omitted || !v.IsZero() {
				cells[i] = exportCell(v)
			}
		}
		t.Rows[r] = cells
	})
	return t
}

// jsonField is the place of a field in its struct; omitted says that JSON leaves it
// out where it is zero.
type jsonField struct {
	at      int
	omitted bool
}

// jsonFields finds the fields of a struct by their names in JSON.
func jsonFields(row reflect.Type) map[string]jsonField {
	fields := map[string]jsonField{}
	for i := range row.NumField() {
		name, options, _ := strings.Cut(row.Field(i).Tag.Get("json"), ",")
		fields[name] = jsonField{i, options == "omitempty"}
	}
	return fields
}

// exportCell writes a field's value: a number unrounded, TRUE or FALSE, words
// with a space between them.
func exportCell(value reflect.Value) report.Cell {
	if value.Kind() == reflect.String {
		return report.Text(value.String())
	}
	switch v := value.Interface().(type) {
	case report.Number:
		return report.Num(v, words.PointDecimals)
	case answers.Amount:
		return report.Text(v.Text())
	case *answers.Amount:
		return report.Text(v.Text())
	case answers.FigureName:
		if v.Number > 0 {
			return CountCell(v.Number)
		}
		return report.Text(v.Line)
	case bool:
		return report.Text(strings.ToUpper(strconv.FormatBool(v))) // R takes true for a text
	case int:
		return CountCell(v)
	case []string:
		return report.Text(strings.Join(v, " "))
	default:
		return report.Text(fmt.Sprint(v))
	}
}
