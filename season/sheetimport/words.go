package sheetimport

import (
	"cmp"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"
	"unicode"

	"boxbook/scoring"
	"boxbook/season"

	"golang.org/x/text/width"
)

// The headings that are understood, in small letters and without points.
var (
	figureHeadings = []string{"figure", "figures", "fig", "figs", "figure no", "fig no", "figure number", "no", "nr", "number", "#"}
	judgeHeadings  = []string{"judge", "judges", "judge name"}
	markHeadings   = []string{"mark", "marks", "grade", "grades"}
	flightHeadings = []string{"flight"}
)

// kHeadings head the column of K; coefficientWords begin its heading too.
var (
	kHeadings        = []string{"k", "k factor", "k-factor", "k faktor", "k-faktor", "k wert", "k-wert"}
	coefficientWords = []string{
		"coef", "coeff", "coeffs", "coefs", "coefficient", "coefficients", "coefficiente", "coefficienti", "coeficiente", "coeficientes", "coëfficiënt",
		"koef", "koeff", "koeffizient", "koeffizienten", "koeficient", "koeficienty", "koefficient", "koefficienter", "koeffisient", "koefficiens",
		"kerroin", "katsayı", "együttható", "współczynnik", "wsp", "factor", "factors", "faktor", "faktoren", "facteur", "fattore", "fator",
		"schwierigkeit", "schwierigkeitsgrad", "schwierigkeitsfaktor", "difficulty", "difficulté", "difficoltà", "dificultad", "dificuldade",
		"obtížnost", "trudność", "svårighet",
	}
)

// headsK reports whether a cell heads the column of K.
func headsK(c Cell) bool {
	return says(c, kHeadings) || c.Kind == Text && slices.Contains(coefficientWords, firstWord(c))
}

// meanHeadings head the mean of the judges' marks, and pointsWords what K makes of it, in
// languages whose offices send sheets.
var (
	meanHeadings = []string{
		"mean", "average", "avg", "ø", "x̄", "durchschnitt", "durchschn", "mittel", "mittelwert", "schnitt", "notenschnitt", "moyenne", "moy", "media", "promedio",
		"média", "gemiddelde", "gemiddeld", "gem", "medel", "medelvärde", "snitt", "gjennomsnitt", "gennemsnit", "keskiarvo", "průměr", "priemer", "średnia",
		"átlag", "ortalama", "prosjek", "povprečje",
	}
	pointsWords = []string{
		"points", "pts", "pkt", "pkte", "pkty", "punkte", "punkt", "punkty", "puntos", "punti", "pontos", "punten", "poäng", "poeng", "point", "pisteet", "body", "bodů", "pontok",
		"puan", "wertung", "summe", "gesamt", "somme", "suma", "summa", "somma", "soma",
	}
)

// noJudge are headings of columns that are known and are no judge's.
var noJudge = []string{
	"k", "k factor", "k-factor", "total", "totals", "sum", "mean", "average", "avg", "score", "lost",
	"percent", "%", "rank", "place", "result", "used", "raw", "net", "penalty", "penalties", "missing", "pos", "page",
	"date", "time", "pilot", "flight", "code", "codes", "catalogue", "element", "elements", "label", "kind", "group", "groups",
	"note", "notes", "remark", "remarks", "comment", "comments", "void", "subtotal", "contest", "category", "programme",
	"description", "title",
}

// namesNoJudge reports whether a text is a heading of a column that is no judge's.
func namesNoJudge(text string) bool {
	text = folded(text)
	for _, words := range [][]string{noJudge, figureHeadings, kHeadings, coefficientWords, meanHeadings, pointsWords} {
		if slices.Contains(words, text) {
			return true
		}
	}
	return false
}

// workedOutHeadings are those of them under which numbers like marks are expected: K, and
// what is worked out of the marks.
var workedOutHeadings = []string{
	"k", "k factor", "k-factor", "total", "totals", "sum", "mean", "average", "avg", "score", "points", "pts", "lost",
	"percent", "%", "rank", "place", "result", "used", "raw", "subtotal", "code", "codes", "catalogue",
}

// totalWords begin rows that sum the marks up.
var totalWords = []string{
	"total", "totals", "sum", "sums", "subtotal", "mean", "average", "avg", "percent", "%", "points", "score", "raw", "net",
	"penalty", "penalties", "rank", "place", "result", "k", "maximum", "max",
}

// figurePrefixes stand before a figure's number.
var figurePrefixes = []string{"figure", "figura", "figur", "fig.", "fig", "f", "no.", "nr.", "n°", "#"}

var (
	positioningWords = []string{"positioning", "position", "pos"}
	harmonyWords     = []string{"harmony", "harm"}
)

// folded is a heading as it is compared: small letters, no points, one space
// between words.
func folded(text string) string {
	text = strings.Map(func(r rune) rune {
		if r == '.' || r == ':' {
			return ' '
		}
		return unicode.ToLower(r)
	}, plain(text))
	return strings.Join(strings.Fields(text), " ")
}

// plain is a cell's text as it is read: letters and digits of the usual width,
// without the apostrophe by which spreadsheets know text.
func plain(text string) string {
	return strings.TrimSpace(strings.TrimPrefix(width.Fold.String(text), "'"))
}

// halves are grades with a half written as one character: 7½, 7 ½, ½.
var halves = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`^(\d*) ?½$`) })

// plainMark is a mark's text as it is read, a half written out.
func plainMark(text string) string {
	text = plain(text)
	if parts := halves().FindStringSubmatch(text); parts != nil {
		return cmp.Or(parts[1], "0") + ".5"
	}
	return text
}

// says reports whether a cell is one of these headings.
func says(c Cell, headings []string) bool {
	return c.Kind == Text && slices.Contains(headings, folded(c.Text))
}

// firstWord is the first of a cell's words, folded.
func firstWord(c Cell) string {
	word, _, _ := strings.Cut(folded(c.Text), " ")
	return word
}

// positioned is a word for positioning as most languages spell it.
var positioned = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`(?i)(^|[^\pL])po[sz]i[ct]`) })

// lineRead reads what no other cell of the same text was read as before.
func (s *sheet) lineRead(c Cell) (Line, bool) {
	if c.Kind == Text && len(s.labels) > 0 {
		if line, ok := s.labels[folded(c.Text)]; ok {
			return line, true
		}
	}
	return lineOf(c)
}

// labelsOf are the lines by their labels, those that one line alone has.
func labelsOf(lines []Line) map[string]Line {
	labels, times := map[string]Line{}, map[string]int{}
	for _, line := range lines {
		label := folded(line.Label)
		if times[label]++; label != "" && times[label] == 1 {
			labels[label] = Line{Kind: line.Kind, Figure: line.Figure}
		} else {
			delete(labels, label)
		}
	}
	return labels
}

// lineOf reads a cell as the name of a line of the sheet: a figure's number
// with or without a word before it, positioning or harmony. A Number that is
// no whole one is none.
func lineOf(c Cell) (Line, bool) {
	if c.Kind != Text && c.Kind != Number {
		return Line{}, false
	}
	text := plain(c.Text)
	switch word := firstWord(Cell{Kind: Text, Text: text}); {
	case slices.Contains(positioningWords, word), positioned().MatchString(text) && len(strings.Fields(text)) <= 3:
		return Line{Kind: scoring.Positioning}, true
	case slices.Contains(harmonyWords, word):
		return Line{Kind: scoring.Harmony}, true
	}
	text = strings.TrimSuffix(strings.TrimSuffix(text, ".0"), ".")
	for _, word := range figurePrefixes {
		if rest, found := cutFold(text, word); found {
			text = strings.TrimSpace(rest)
			break
		}
	}
	n, err := strconv.ParseUint(text, 10, 16)
	return Line{Kind: scoring.Figure, Figure: int(n)}, err == nil && n > 0
}

// cutFold cuts a prefix off, whatever the case of its letters.
func cutFold(text, prefix string) (string, bool) {
	if len(text) < len(prefix) || !strings.EqualFold(text[:len(prefix)], prefix) {
		return text, false
	}
	return text[len(prefix):], true
}

// judgeForms are the names that a heading or a cell may mean: itself, with or
// without a point behind it, what follows the word judge, and the seat J3 for
// the number 3.
func judgeForms(text string) []string {
	forms := []string{strings.TrimSpace(strings.TrimPrefix(text, "'"))}
	if text = strings.TrimRight(plain(text), " ."); text != forms[0] {
		forms = append(forms, text)
	}
	if rest, found := cutFold(text, "judge"); found {
		text = strings.Trim(rest, " .:#-")
		forms = append(forms, text)
	}
	if isDigits(text) {
		forms = append(forms, "J"+text)
	}
	return forms
}

// longestName bounds the name of a new judge, in bytes: what is longer was never
// meant to be typed.
const longestName = 64

// judgeNamed gives the name that a new judge gets, false where the text can
// name nobody.
func judgeNamed(text string) (string, bool) {
	forms := judgeForms(text)
	for _, form := range slices.Backward(forms) {
		if len(form) <= longestName && season.IsHandle(form) && !namesNoJudge(form) {
			return form, true
		}
	}
	return "", false
}

// onPanel finds the judge of a panel that a text names: exactly, else but for
// the case of letters where only one is meant.
func onPanel(panel []string, text string) (string, bool) {
	forms := judgeForms(text)
	for _, form := range forms {
		if slices.Contains(panel, form) {
			return form, true
		}
	}
	for _, form := range forms {
		var found []string
		for _, name := range panel {
			if strings.EqualFold(name, form) {
				found = append(found, name)
			}
		}
		if len(found) == 1 {
			return found[0], true
		}
	}
	return "", false
}

// within is a handle in brackets behind a name.
var within = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`\(([^()]+)\)$`) })

// namedWithin finds the judge of a panel whom a heading names beside other
// words, exactly as the panel writes the name: Juge BM, Lena Fischer (LF).
func namedWithin(panel []string, text string) (string, bool) {
	text = plain(text)
	words := strings.Fields(text)
	if parts := within().FindStringSubmatch(text); parts != nil {
		words = append(words, parts[1])
	}
	if len(words) < 2 || !slices.Contains(panel, words[len(words)-1]) {
		return "", false
	}
	return words[len(words)-1], true
}

// isDigits reports whether a text is a whole number.
func isDigits(text string) bool {
	return text != "" && strings.Trim(text, "0123456789") == ""
}
