package sheetfile

import (
	"encoding/xml"
	"strconv"
	"strings"
)

// dateStyles reads which styles of cells show a date or a time.
func (w *workbook) dateStyles(part string) ([]bool, error) {
	var styles []bool
	own := map[string]bool{} // number formats of the workbook's own that show dates
	inCells := false
	err := w.read(part, func(x *elements, el xml.StartElement) error {
		switch el.Name.Local {
		case "numFmt":
			if dateFormat(attribute(el, "formatCode")) {
				own[attribute(el, "numFmtId")] = true
			}
		case "cellXfs":
			inCells = true
		case "cellStyleXfs", "cellStyles", "dxfs":
			inCells = false
		case "xf":
			if id := attribute(el, "numFmtId"); inCells {
				styles = append(styles, own[id] || builtinDate(id))
			}
		}
		return nil
	})
	return styles, err
}

// builtinDate reports whether a number format that every program has shows a
// date or a time (ECMA-376, part 1, 18.8.30, with those of East Asian
// languages).
func builtinDate(id string) bool {
	n, err := strconv.Atoi(id)
	return err == nil && ((n >= 14 && n <= 22) || (n >= 27 && n <= 36) || (n >= 45 && n <= 47) || (n >= 50 && n <= 58))
}

// dateFormat reports whether a number format shows a date or a time: it has a
// day, month, year, hour or second outside quoted text, escapes and brackets,
// or counts hours, minutes or seconds in brackets.
func dateFormat(code string) bool {
	runes := []rune(strings.ToLower(code))
	for i := 0; i < len(runes); i++ {
		switch r := runes[i]; r {
		case '\\', '_', '*':
			i++
		case '"':
			for i++; i < len(runes) && runes[i] != '"'; i++ {
			}
		case '[':
			from := i + 1
			for i++; i < len(runes) && runes[i] != ']'; i++ {
			}
			if inside := string(runes[from:min(i, len(runes))]); inside != "" && (strings.Trim(inside, "h") == "" || strings.Trim(inside, "m") == "" || strings.Trim(inside, "s") == "") {
				return true
			}
		case ';':
			return false
		case 'y', 'm', 'd', 'h', 's':
			return true
		}
	}
	return false
}
