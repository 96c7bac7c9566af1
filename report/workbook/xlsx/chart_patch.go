package xlsx

import (
	"bytes"
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
	"sync"
)

// ChartValues are what a chart draws, for its part of the file; step is that of
// a scatter chart's horizontal axis.
type ChartValues struct {
	series  []SeriesValues
	scatter bool
	unnamed []int // series that the legend leaves out
	step    float64
}

// SeriesValues are the numbers of one series: of a scatter chart x and y, of
// bars words and y.
type SeriesValues struct {
	words  []string
	X, Y   []float64
	Bars   *ErrorBars
	Dashed bool // a grey dashed line, which the library draws in a colour
	Named  bool // its name stands above its values
}

// ErrorBars are the intervals of a series: how far each reaches to both sides.
type ErrorBars struct {
	PlusRef, MinusRef string
	Plus, Minus       []float64
	Direction         string // "y" in a scatter chart, none for bars
}

// patch is one correction of what the library writes for a scatter chart.
type patch struct {
	what    string
	pattern func() *regexp.Regexp
	with    func(c ChartValues) string
}

// The library gives the horizontal axis of a scatter chart what only an axis of
// words has, and no step; and a title's second, empty set of text properties
// undoes its rotation in some programs.
var scatterPatches = []patch{
	{"horizontal axis", sync.OnceValue(func() *regexp.Regexp {
		return regexp.MustCompile(`<auto [^>]*></auto><lblAlgn [^>]*></lblAlgn><lblOffset [^>]*></lblOffset><noMultiLvlLbl [^>]*></noMultiLvlLbl>`)
	}), func(c ChartValues) string {
		return fmt.Sprintf(`<crossBetween val="midCat"></crossBetween><majorUnit val="%g"></majorUnit>`, c.step)
	}},
	{"vertical axis", sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`<crossBetween val="between">`) }), func(ChartValues) string { return `<crossBetween val="midCat">` }},
	{"marks alone", sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`<scatterStyle val="[A-Za-z]*">`) }), func(ChartValues) string { return `<scatterStyle val="lineMarker">` }},
	titlePatch,
}

var titlePatch = patch{
	"titles", sync.OnceValue(func() *regexp.Regexp {
		return regexp.MustCompile(`<txPr><a:bodyPr [^>]*></a:bodyPr><a:p></a:p></txPr></title>`)
	}), func(ChartValues) string { return "</title>" },
}

// What the library writes of a series: it refers to x values as to texts, so
// that some programs count 1, 2, 3 in place of dates, and it stores no values
// for a reader that does not calculate.
var (
	wholeSeries = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`(?s)<ser>.*?</ser>`) })
	xValues     = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`<xVal><strRef>(<f>[^<]*</f>)</strRef></xVal>`) })
	yValues     = sync.OnceValue(func() *regexp.Regexp {
		return regexp.MustCompile(`(<yVal><numRef><f>[^<]*</f>)<numCache>.*?</numCache></numRef></yVal>`)
	})
	barWords = sync.OnceValue(func() *regexp.Regexp {
		return regexp.MustCompile(`<cat><strRef>(<f>[^<]*</f>)(?:<strCache>.*?</strCache>)?</strRef></cat>`)
	})
	barValues = sync.OnceValue(func() *regexp.Regexp {
		return regexp.MustCompile(`(<val><numRef><f>[^<]*</f>)(?:<numCache>.*?</numCache>)?</numRef></val>`)
	})
	legendPlace = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`<legendPos [^>]*></legendPos>`) })
	linePatch   = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`(</tx>)<spPr>.*?</spPr>`) })
)

// patch corrects a chart's part.
func (c ChartValues) patch(name string, data []byte) ([]byte, error) {
	patches := []patch{titlePatch}
	if c.scatter {
		patches = scatterPatches
	}
	for _, m := range patches {
		if !m.pattern().Match(data) {
			return nil, fmt.Errorf("%s: nothing to correct for %s", name, m.what)
		}
		data = m.pattern().ReplaceAll(data, []byte(m.with(c)))
	}
	var left strings.Builder
	for _, i := range c.unnamed {
		fmt.Fprintf(&left, `<legendEntry><idx val="%d"></idx><delete val="1"></delete></legendEntry>`, i)
	}
	if left.Len() > 0 {
		if !legendPlace().Match(data) {
			return nil, fmt.Errorf("%s: no legend to leave series out of", name)
		}
		data = legendPlace().ReplaceAll(data, []byte("${0}"+left.String()))
	}
	if found := len(wholeSeries().FindAll(data, -1)); found != len(c.series) {
		return nil, fmt.Errorf("%s: %d series, not %d", name, found, len(c.series))
	}
	i := -1
	var failed error
	data = wholeSeries().ReplaceAllFunc(data, func(ser []byte) []byte {
		i++
		ser, err := c.series[i].patch(ser)
		if err != nil {
			failed = fmt.Errorf("%s: series %d: %w", name, i+1, err)
		}
		return ser
	})
	return data, failed
}

// patch puts values and intervals into a series.
func (s SeriesValues) patch(ser []byte) ([]byte, error) {
	first := "<cat>"
	x, y := barWords, barValues
	xCache := "<cat><strRef>${1}" + textCache(s.words) + "</strRef></cat>"
	yEnd := "</numRef></val>"
	if s.words == nil {
		first, x, y, yEnd = "<xVal>", xValues, yValues, "</numRef></yVal>"
		xCache = "<xVal><numRef>${1}" + numberCache(s.X, "yyyy\\-mm\\-dd") + "</numRef></xVal>"
	}
	if !x().Match(ser) || !y().Match(ser) {
		return nil, fmt.Errorf("no values to correct")
	}
	ser = x().ReplaceAll(ser, []byte(xCache))
	ser = y().ReplaceAll(ser, []byte("${1}"+numberCache(s.Y, "0.00")+yEnd))
	if s.Dashed {
		ser = linePatch().ReplaceAll(ser, []byte(`${1}<spPr><a:ln w="19050" cap="rnd"><a:solidFill><a:srgbClr val="`+FaintInk+
			`"></a:srgbClr></a:solidFill><a:prstDash val="dash"></a:prstDash></a:ln></spPr>`))
	}
	if s.Named {
		ser = bytes.Replace(ser, []byte("</marker>"), []byte("</marker>"+nameLabel), 1)
	}
	if s.Bars != nil {
		ser = bytes.Replace(ser, []byte(first), []byte(s.Bars.xml()+first), 1)
	}
	return ser, nil
}

// nameLabel is how a chart writes a series' name above each of its values.
const nameLabel = `<dLbls><spPr><a:noFill></a:noFill><a:ln><a:noFill></a:noFill></a:ln></spPr>` +
	`<txPr><a:bodyPr></a:bodyPr><a:p><a:pPr><a:defRPr sz="800"><a:solidFill><a:srgbClr val="` + FaintInk + `"></a:srgbClr></a:solidFill></a:defRPr></a:pPr><a:endParaRPr lang="en-US"></a:endParaRPr></a:p></txPr>` +
	`<dLblPos val="t"></dLblPos><showLegendKey val="0"></showLegendKey><showVal val="0"></showVal><showCatName val="0"></showCatName>` +
	`<showSerName val="1"></showSerName><showPercent val="0"></showPercent><showBubbleSize val="0"></showBubbleSize></dLbls>`

// xml is how a chart stores intervals, which the library cannot.
func (e ErrorBars) xml() string {
	direction := ""
	if e.Direction != "" {
		direction = fmt.Sprintf(`<errDir val="%s"></errDir>`, e.Direction)
	}
	side := func(name, ref string, values []float64) string {
		return fmt.Sprintf("<%[1]s><numRef><f>%[2]s</f>%[3]s</numRef></%[1]s>", name, ref, numberCache(values, "0.00"))
	}
	return `<errBars>` + direction + `<errBarType val="both"></errBarType><errValType val="cust"></errValType><noEndCap val="0"></noEndCap>` +
		side("plus", e.PlusRef, e.Plus) + side("minus", e.MinusRef, e.Minus) +
		`<spPr><a:ln w="12700"><a:solidFill><a:srgbClr val="` + FaintInk + `"></a:srgbClr></a:solidFill></a:ln></spPr></errBars>`
}

// numberCache lists values as a chart stores them; NaN is a gap.
func numberCache(values []float64, format string) string {
	var b strings.Builder
	fmt.Fprintf(&b, `<numCache><formatCode>%s</formatCode><ptCount val="%d"></ptCount>`, format, len(values))
	for i, v := range values {
		if math.IsNaN(v) {
			continue
		}
		fmt.Fprintf(&b, `<pt idx="%d"><v>%s</v></pt>`, i, strconv.FormatFloat(v, 'g', -1, 64))
	}
	return b.String() + "</numCache>"
}

// textCache lists texts as a chart stores them.
func textCache(words []string) string {
	var b strings.Builder
	fmt.Fprintf(&b, `<strCache><ptCount val="%d"></ptCount>`, len(words))
	for i, w := range words {
		fmt.Fprintf(&b, `<pt idx="%d"><v>%s</v></pt>`, i, xmlText(w))
	}
	return b.String() + "</strCache>"
}

// xmlText is a text inside an element of what takes the place of a pattern,
// where $ begins a name.
func xmlText(s string) string { return strings.ReplaceAll(escaped(s), "$", "$$") }

// escaped is a text inside an element.
func escaped(s string) string {
	return strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;").Replace(s)
}
