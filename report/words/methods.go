package words

import (
	"math"
	"strings"
	"text/template"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/display"
)

// MethodsPage fills the thresholds into the page on methods. The error is for a
// page that asks for what there is not.
func MethodsPage(page string, m answers.Methods) (string, error) {
	t, err := template.New("methods").Funcs(template.FuncMap{
		"percent":  func(n report.Number) string { return Percent(n).Text(0) },
		"number":   func(n report.Number) string { return n.Text(0) },
		"spelt":    spelt,
		"word":     NumberWord,
		"oneIn":    func(n report.Number) string { return NumberWord(int(math.Round(1 / n.Float64()))) },
		"lastDays": lastDays,
	}).Parse(page)
	if err != nil {
		return "", err
	}
	var out strings.Builder
	err = t.Execute(&out, m)
	return out.String(), err
}

// spelt is a small whole number as a word, any other in digits.
func spelt(n report.Number) string {
	if x := n.Float64(); x != math.Trunc(x) {
		return display.Trimmed(x, 2)
	}
	return NumberWord(int(n.Float64()))
}
