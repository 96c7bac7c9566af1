package words

import (
	"fmt"
	"strings"
	"text/template"

	"boxbook/data/sources"
)

// The rows of the page on sources.
const (
	placeRow  = "      %s: "
	placeRest = "        "
	valueRow  = "    %-26s  "
	valueRest = "                                "
	// valueWidth is how long a value may be beside its mark.
	valueWidth = 26
)

// SourcesPage fills the list of sources and the values that rest on them into
// the page on sources. The error is for a page that asks for what there is not.
func SourcesPage(page string, list []sources.Source, values []sources.Value) (string, error) {
	t, err := template.New("sources").Funcs(template.FuncMap{
		"sources": func() string { return sourceList(list) },
		"values":  func() string { return valueList(values) },
	}).Parse(page)
	if err != nil {
		return "", err
	}
	var out strings.Builder
	err = t.Execute(&out, nil)
	return out.String(), err
}

// sourceList are the sources, under the headings of their groups.
func sourceList(list []sources.Source) string {
	var b strings.Builder
	group := ""
	for _, s := range list {
		if s.Group != group {
			group = s.Group
			fmt.Fprintf(&b, "\n%s\n", hanging("", "  ", strings.ToUpper(group)))
		}
		fmt.Fprintf(&b, "\n  %s\n", s.Key)
		for _, line := range []string{s.Title, "by: " + s.By, edition(s), "address: " + s.Address, "seen: " + s.Seen} {
			fmt.Fprintln(&b, hanging("    ", "      ", line))
		}
		for _, p := range s.Places {
			fmt.Fprintln(&b, hanging(fmt.Sprintf(placeRow, p.Section), placeRest, p.Says))
		}
	}
	return strings.TrimRight(b.String(), "\n")
}

// edition is a source's edition and its date, once where they are the same.
func edition(s sources.Source) string {
	if strings.Contains(s.Edition, s.Date) {
		return "edition: " + s.Edition
	}
	return "edition: " + s.Edition + "; date: " + s.Date
}

// valueList are the shipped values, under what they belong to.
func valueList(values []sources.Value) string {
	var b strings.Builder
	block := ""
	for _, v := range values {
		if v.Block != block {
			block = v.Block
			fmt.Fprintf(&b, "\n  %s\n", block)
		}
		line := strings.TrimPrefix(v.Line, "category ")
		if len(line) > valueWidth {
			fmt.Fprintf(&b, "    %s\n", line)
			line = ""
		}
		fmt.Fprintln(&b, hanging(fmt.Sprintf(valueRow, line), valueRest, v.Mark.String()))
	}
	return strings.TrimRight(b.String(), "\n")
}
