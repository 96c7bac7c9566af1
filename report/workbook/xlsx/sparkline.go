package xlsx

import (
	"bytes"
	"fmt"
	"strings"
)

// sparkline is a small picture in a cell, columns from the lowest to the highest
// of an area's values: some programs show lines as dots, or not at all. The library
// writes none on a sheet that it writes row by row.
type sparkline struct{ at, area string }

// sparkEnd is where the sparklines of a sheet stand in its part of the file.
var sparkEnd = []byte("</worksheet>")

// putSparklines adds them to a sheet's part: Office Open XML's extension for
// them, published in [MS-XLSX] 2.2.4.13.
func putSparklines(name string, data []byte, lines []sparkline) ([]byte, error) {
	if len(lines) == 0 {
		return data, nil
	}
	before, ended := bytes.CutSuffix(data, sparkEnd)
	if !ended {
		return nil, fmt.Errorf("%s: no end of the sheet to put sparklines before", name)
	}
	var b strings.Builder
	b.WriteString(`<extLst><ext uri="{05C60535-1F16-4fd2-B633-F4F36F0B64E0}">` +
		`<x14:sparklineGroups xmlns:xm="http://schemas.microsoft.com/office/excel/2006/main">` +
		`<x14:sparklineGroup type="column" displayEmptyCellsAs="gap">` +
		`<x14:colorSeries rgb="FF` + FaintInk + `"/><x14:sparklines>`)
	for _, l := range lines {
		fmt.Fprintf(&b, `<x14:sparkline><xm:f>%s</xm:f><xm:sqref>%s</xm:sqref></x14:sparkline>`, escaped(l.area), l.at)
	}
	b.WriteString(`</x14:sparklines></x14:sparklineGroup></x14:sparklineGroups></ext></extLst>`)
	return append(append(before[:len(before):len(before)], b.String()...), sparkEnd...), nil
}
