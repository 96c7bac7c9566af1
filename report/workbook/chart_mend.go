package workbook

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
)

// chartValues are the numbers that a scatter chart draws, and the step of its
// horizontal axis.
type chartValues struct {
	x, y []float64
	step float64
}

// mending is one correction of what the library writes for a scatter chart.
type mending struct {
	what    string
	pattern *regexp.Regexp
	with    func(c chartValues) string
}

// The library refers to x values as to texts, so that some programs count 1,
// 2, 3 in place of dates; it stores no values for a reader that does not
// calculate; it gives the horizontal axis what only an axis of words has, and
// no step; and a title's second, empty set of text properties undoes its
// rotation in some programs.
var mendings = []mending{
	{"x values", regexp.MustCompile(`<xVal><strRef>(<f>[^<]*</f>)</strRef></xVal>`), func(c chartValues) string {
		return "<xVal><numRef>${1}" + numberCache(c.x, "yyyy\\-mm\\-dd") + "</numRef></xVal>"
	}},
	{"y values", regexp.MustCompile(`(<yVal><numRef><f>[^<]*</f>)<numCache>.*?</numCache></numRef></yVal>`), func(c chartValues) string {
		return "${1}" + numberCache(c.y, "0.00") + "</numRef></yVal>"
	}},
	{"horizontal axis", regexp.MustCompile(`<auto [^>]*></auto><lblAlgn [^>]*></lblAlgn><lblOffset [^>]*></lblOffset><noMultiLvlLbl [^>]*></noMultiLvlLbl>`), func(c chartValues) string {
		return fmt.Sprintf(`<crossBetween val="midCat"></crossBetween><majorUnit val="%g"></majorUnit>`, c.step)
	}},
	{"vertical axis", regexp.MustCompile(`<crossBetween val="between">`), func(chartValues) string { return `<crossBetween val="midCat">` }},
	{"marks alone", regexp.MustCompile(`<scatterStyle val="[A-Za-z]*">`), func(chartValues) string { return `<scatterStyle val="lineMarker">` }},
	{"titles", regexp.MustCompile(`<txPr><a:bodyPr [^>]*></a:bodyPr><a:p></a:p></txPr></title>`), func(chartValues) string { return "</title>" }},
}

// mend corrects a chart's part.
func (c chartValues) mend(name string, data []byte) ([]byte, error) {
	for _, m := range mendings {
		if !m.pattern.Match(data) {
			return nil, fmt.Errorf("%s: nothing to correct for %s", name, m.what)
		}
		data = m.pattern.ReplaceAll(data, []byte(m.with(c)))
	}
	return data, nil
}

// numberCache lists values as a chart stores them.
func numberCache(values []float64, format string) string {
	var b strings.Builder
	fmt.Fprintf(&b, `<numCache><formatCode>%s</formatCode><ptCount val="%d"></ptCount>`, format, len(values))
	for i, v := range values {
		fmt.Fprintf(&b, `<pt idx="%d"><v>%s</v></pt>`, i, strconv.FormatFloat(v, 'g', -1, 64))
	}
	return b.String() + "</numCache>"
}
