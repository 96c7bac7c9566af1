package words

import (
	"fmt"
	"slices"
	"strings"
	"text/template"

	"boxbook/season"
	"boxbook/season/ledger"
)

// pageWidth is how wide a page of help may be.
const pageWidth = 80

// A row of a table begins with a name; what does not fit goes on beneath it.
const (
	tableRow  = "  %-13s "
	tableRest = "                "
)

// LanguagePage fills the tables of the reader into the page on the whole of the
// ledger language. The error is for a page that asks for what there is not.
func LanguagePage(page string, s ledger.Specification) (string, error) {
	t, err := template.New("language").Funcs(template.FuncMap{
		"list": func(words []string) string { return strings.Join(words, ", ") }, "either": func(words []string) string { return strings.Join(words, " | ") },
		"cases": casesNamed, "keywords": func() string { return keywordTable(s.Blocks) }, "units": func() string { return amountForms(s.Units) },
		"policy": func() string { return policyTable(s.Policy) }, "ladders": func() string { return ladderTable(s.Shipped) },
		"styles": func() string { return styleTable(s.Shipped) }, "faultKinds": func() string { return faultKindTable(s.Shipped) },
		"kinds": func() string { return kindTable(s.Kinds) },
	}).Parse(page)
	if err != nil {
		return "", err
	}
	var out strings.Builder
	if err := t.Execute(&out, s); err != nil {
		return "", err
	}
	return fillParagraphs(out.String()), nil
}

// AmountExamples are an amount in each unit.
var AmountExamples = map[season.Unit]string{
	season.Degrees: "10deg", season.Ratio: "2:1", season.Span: "1.5span", season.Count: "3x", season.Points: "1.5pt",
}

// amountForms say each unit with an amount in it.
func amountForms(units []string) string {
	all := make([]string, len(units))
	for i, unit := range units {
		all[i] = fmt.Sprintf("%s (%s)", unit, AmountExamples[season.Unit(unit)])
	}
	return strings.Join(all, ", ")
}

// casesNamed lists cases as FILE:CASE; "FILE CASE CASE; FILE CASE" is how a page
// names them.
func casesNamed(text string) string {
	var all []string
	for _, part := range strings.Split(text, ";") {
		fields := strings.Fields(part)
		for _, name := range fields[1:] {
			all = append(all, fields[0]+":"+name)
		}
	}
	return hanging("  [", "   ", strings.Join(all, " ")+"]")
}

// keywordTable lists the keywords with the lines of their blocks.
func keywordTable(blocks []ledger.KeywordSpec) string {
	var b strings.Builder
	for _, block := range blocks {
		var keys []string
		if block.Rows {
			keys = append(keys, "rows")
		}
		for _, key := range block.Keys {
			if slices.Contains(block.Repeats, key) {
				key += "*"
			}
			keys = append(keys, key)
		}
		text := strings.Join(keys, ", ")
		if len(keys) == 0 {
			text = "(one line)"
		}
		fmt.Fprintln(&b, hanging(fmt.Sprintf(tableRow, block.Keyword), tableRest, text))
	}
	return strings.TrimRight(b.String(), "\n")
}

// policyTable lists the keys of a policy: how each is written, and what off does.
func policyTable(keys []ledger.PolicySpec) string {
	var b strings.Builder
	for _, key := range keys {
		off := "off changes nothing"
		switch {
		case key.Only:
			off = "only off"
		case key.Drops:
			off = "or off"
		}
		if key.Other != "" {
			off += ", also called " + key.Other
		}
		fmt.Fprintf(&b, "  %-22s %s\n", key.Form, off)
	}
	return strings.TrimRight(b.String(), "\n")
}

func ladderTable(l *season.Ledger) string {
	var lines []string
	for _, ladder := range l.Ladders {
		var names []string
		for _, c := range ladder.Categories {
			names = append(names, c.Name)
		}
		lines = append(lines, hanging(fmt.Sprintf(tableRow, ladder.Name), tableRest, strings.Join(names, ", ")))
	}
	return strings.Join(lines, "\n")
}

func styleTable(l *season.Ledger) string {
	var lines []string
	for _, style := range l.Styles {
		settings := fmt.Sprintf("hard-zero %s, half %s, fill-rounding %s, drop-extremes %s",
			style.HardZero, style.Half, style.FillRounding, yesNo(style.DropExtremes))
		lines = append(lines, hanging(fmt.Sprintf(tableRow, style.Name), tableRest, settings))
	}
	return strings.Join(lines, "\n")
}

func yesNo(yes bool) string {
	if yes {
		return "yes"
	}
	return "no"
}

func faultKindTable(l *season.Ledger) string {
	var lines []string
	for _, kind := range l.FaultKinds {
		unit := string(kind.Unit)
		if unit == "" {
			unit = "points"
		}
		if kind.Felt {
			unit += " felt"
		}
		if kind.Safety {
			unit += " safety"
		}
		lines = append(lines, hanging(fmt.Sprintf(tableRow+"%-13s ", kind.Name, unit), tableRest, kind.Says))
	}
	return strings.Join(lines, "\n")
}

// placesShown are the places for words in what a diagnostic says, for people.
var placesShown = strings.NewReplacer("%q", `"..."`, "%s", "...", "%d", "...", "%#02x", "...", "%U", "U+...")

// kindTable lists the kinds of diagnostic with what each says.
func kindTable(kinds []ledger.Kind) string {
	var lines []string
	for _, kind := range kinds {
		lines = append(lines, hanging(fmt.Sprintf("  %-25s %-7s  ", kind.Code, kind.Severity), strings.Repeat(" ", 6), placesShown.Replace(kind.Message)))
	}
	return strings.Join(lines, "\n")
}

// hanging wraps a text behind what its first line and the others begin with.
func hanging(first, others, text string) string {
	var b strings.Builder
	line, begun := first, false
	for _, word := range strings.Fields(text) {
		if begun && len([]rune(line))+1+len([]rune(word)) > pageWidth {
			fmt.Fprintln(&b, strings.TrimRight(line, " "))
			line, begun = others, false
		}
		if begun {
			line += " "
		}
		line, begun = line+word, true
	}
	return b.String() + strings.TrimRight(line, " ")
}

// fillParagraphs wraps the rules, which begin with a dash, once more: what was
// filled into them is as long as it is.
func fillParagraphs(page string) string {
	var out []string
	rule := ""
	end := func() {
		if rule != "" {
			out = append(out, hanging("- ", "  ", rule))
		}
		rule = ""
	}
	for _, line := range strings.Split(page, "\n") {
		text, begins := strings.CutPrefix(line, "- ")
		goesOn := rule != "" && strings.HasPrefix(line, "  ") && !strings.HasPrefix(line, "  [")
		switch {
		case begins:
			end()
			rule = text
		case goesOn:
			rule += " " + line
		default:
			end()
			out = append(out, line)
		}
	}
	end()
	return strings.Join(out, "\n")
}
