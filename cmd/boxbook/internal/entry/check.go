package entry

import (
	"cmp"
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"
	"unicode"

	"boxbook/scoring"
	"boxbook/season"
	"boxbook/season/ledger"
)

// read gives one value as it is kept, or what is wrong with the way it is
// written: it can bring in no other word, comment or line.
func (f *Field) read(text string, l *season.Ledger) (answer, problem string) {
	text = handleOf(f.Name, strings.TrimSpace(text), l)
	if f.Read != nil {
		if text, problem = f.Read(text); problem != "" {
			return "", problem
		}
	}
	if f.Shape == Text {
		if _, ok := ledger.Words(quoted(text)); !ok {
			return "", fmt.Sprintf("%q is not one line of text", text)
		}
		return text, ""
	}
	if f.List {
		text = joined(strings.FieldsFunc(text, func(r rune) bool { return r == ',' || unicode.IsSpace(r) })...)
	}
	if f.Never != nil {
		if problem = f.Never(text); problem != "" {
			return "", problem
		}
	}
	words, ok := ledger.Words(text)
	switch {
	case !ok:
		return "", fmt.Sprintf("%q is not a part of one line: it has a comment, a line's end or quotes that do not close", text)
	case f.Shape == Word && (len(words) > 1 || strings.HasPrefix(text, `"`)):
		return "", fmt.Sprintf("%q is not one word%s", text, f.oneWord(text, l))
	case f.Count > 0 && len(words) > f.Count:
		return "", fmt.Sprintf("%q is more than %d words such as %s", text, f.Count, f.Example)
	case f.Shape == Words && !f.Quotes && strings.Contains(text, `"`):
		return "", fmt.Sprintf("%q has quotes: free text belongs in a remark or a note", text)
	default:
		return text, f.begins(words, l)
	}
}

// oneWord says how several words could be one: a kind of fault that they describe, the
// handle of whoever has that name, or the name of something that may be new.
func (f *Field) oneWord(text string, l *season.Ledger) string {
	if meant := ledger.KindsMeant(text, l.FaultKinds); f.Coded && meant != "" {
		return "; " + meant
	}
	if called := l.HandleCalled(text); called != "" && f.Propose != nil && slices.Contains(f.Propose(l), called) {
		return "; " + ledger.CalledHere(text, called)
	}
	if f.Adds == "" && !f.New && !f.Open {
		return ""
	}
	handle := strings.Trim(strings.Join(strings.FieldsFunc(strings.ToLower(text), func(r rune) bool {
		return !season.IsHandle("x" + string(r))
	}), "-"), "-")
	if !season.IsHandle(handle) {
		return ""
	}
	return "; a short name is meant, such as " + handle
}

// begins refuses words that would begin another part of the line.
func (f *Field) begins(words []string, l *season.Ledger) string {
	for _, word := range words {
		if slices.Contains(f.Not, word) && !(f.Propose != nil && slices.Contains(f.Propose(l), word)) {
			return fmt.Sprintf("%q begins another part of the line", word)
		}
	}
	return ""
}

// check gives an answer as it is kept, or what is wrong with it. What an error that
// stands in the ledger by now would make wrong of any answer is not the answer's.
func (t *Talk) check(st step, text string) (answer, problem string, err error) {
	answer, problem, err = t.taken(st, text)
	if err == nil && problem != "" { // said before the ledger was read
		err = t.intact()
	}
	return answer, problem, err
}

// intact is the error that the ledger has by itself, where it has changed so since the
// conversation began; nil where it can be added to.
func (t *Talk) intact() error {
	result, err := t.host.Read()
	if err != nil {
		return err
	}
	return brokenBy(result.Diagnostics)
}

// brokenBy is the first error of a ledger that had none, nil where there is none.
func brokenBy(list ledger.List) error {
	for _, d := range list {
		if d.Severity == ledger.Error {
			return &BrokenError{d}
		}
	}
	return nil
}

// BrokenError says that the ledger has an error that was not there when the
// conversation began.
type BrokenError struct{ Found ledger.Diagnostic }

// Error says where it is, and what.
func (e *BrokenError) Error() string {
	return fmt.Sprintf("%s:%d now has an error: %s", e.Found.File, e.Found.Line, e.Found.Message)
}

// taken gives an answer as it would be kept in the ledger as it is, or what is wrong
// with it there.
func (t *Talk) taken(st step, text string) (answer, problem string, err error) {
	switch saysNone := text == "" || st.field.Shape != Text && strings.EqualFold(text, "none"); {
	case st.optional() && (saysNone || text == none || st.field.Shape == Text && (isNo(text) || strings.EqualFold(text, "none"))):
		return none, "", nil
	case saysNone:
		return "", st.thisIsNeeded(), nil
	}
	if st.field.Meant != nil {
		text = st.field.Meant(text)
	}
	known, near := st.known(), ""
	if st.field.Shape == Word && known != nil {
		name, ok := choose(text, known)
		switch {
		case ok && (!st.field.Open || name == text):
			text = name
		case st.field.Read == nil && !st.field.Sure:
			near = name
		}
	}
	if f := st.field; f.Shape == Word && (f.Open || f.New || f.Adds != "") && (isYes(text) || isNo(text)) && !slices.Contains(known, text) {
		return "", fmt.Sprintf("%q is no name here: type the name itself", text), nil
	}
	if problem = st.namesSheet(text); problem != "" {
		return "", problem, nil
	}
	if st.field.Slip != nil {
		if problem = st.field.Slip(st.scene, text); problem != "" {
			return "", problem, nil
		}
	}
	if full := st.field.Full; full != nil {
		if text, err = full(st.scene, text); err != nil {
			return "", err.Error(), nil
		}
	}
	if st.field.NoFlag { // no part of the ledger
		if !slices.Contains(known, text) {
			problem = fmt.Sprintf("%q is not one of %s", text, strings.Join(known, ", "))
		}
		return text, problem, nil
	}
	if text, problem = st.field.read(text, st.scene.Ledger); problem != "" {
		return "", problem, nil
	}
	if problem, err = t.refused(st, text); problem == "" && err == nil {
		problem, err = t.doubted(st, text, near)
	}
	return text, problem, err
}

// thisIsNeeded refuses no answer.
func (st step) thisIsNeeded() string {
	why := ""
	if st.field.Needed != nil {
		why = st.field.Needed(st.scene)
	}
	return cmp.Or(why, "this is needed")
}

// doubted says why an answer that the ledger would take may be a slip, once: it
// is nearly a name that is known, it brings a warning, or the field doubts it. "" where there is no
// doubt. What was said of a list is not said again of one in which a name was mended.
func (t *Talk) doubted(st step, answer, near string) (problem string, err error) {
	slip := st.key + " " + answer
	sure := slices.Contains(t.draft.Sure, slip)
	if t.near[slip] && !sure {
		t.draft.Sure = append(t.draft.Sure, slip)
	}
	if t.near[slip] || sure {
		return "", nil
	}
	if near != "" {
		problem = fmt.Sprintf("no %s is called %q; did you mean %q? (type it again if it is new)", st.field.Name, answer, near)
	} else if st.field.Doubt != nil {
		problem = st.field.Doubt(st.scene, answer)
	}
	if problem == "" {
		problem, err = t.warned(st, answer)
	}
	if st.field.List && problem != "" { // one of the names was mended since, and the doubt is not of that
		doubt := st.key + "\n" + problem
		if t.near[doubt] {
			return "", err
		}
		t.near[doubt] = true
	}
	if near == "" && problem != "" {
		problem += rightAgain
	}
	t.near[slip] = problem != ""
	return problem, err
}

// meantBy is what an answer that was refused can only have meant, as the problem says it:
// the one name that it nearly is, the one date, or itself where it was only doubted; "" for
// nothing.
func meantBy(problem, answer string) string {
	if written := cmp.Or(percentMeant(problem), panelMeant(problem)); written != "" {
		return written
	}
	if strings.HasSuffix(problem, rightAgain) {
		return answer
	}
	if _, text, found := strings.Cut(problem, couldBe); found && (isDate(text) || numberedJudges(answer) == problem) {
		return text
	}
	_, names, found := strings.Cut(problem, "; did you mean ")
	quoted, err := strconv.QuotedPrefix(names)
	if !found || err != nil || !strings.HasPrefix(names[len(quoted):], "?") {
		return ""
	}
	name, err := strconv.Unquote(quoted)
	if err != nil {
		return ""
	}
	words := strings.Fields(answer)
	if len(words) < 2 {
		return name
	}
	slips := 0
	for i, word := range words {
		if word != name && ledger.Nearest(word, []string{name}) == name {
			words[i] = name
			slips++
		}
	}
	if slips != 1 {
		return ""
	}
	return joined(words...)
}

// percentMeant is the percent that a problem with a total says to write, "" for none.
func percentMeant(problem string) string {
	_, text, found := strings.Cut(problem, couldBe)
	text, behind, _ := strings.Cut(text, " of 100")
	if _, number := scoring.ParseDecimal(text); !found || !number || behind != "" && behind != rightAgain {
		return ""
	}
	return text + " of 100"
}

// rightAgain is how an answer that is only doubted is given all the same.
const rightAgain = " (type it again if it is right)"

// warned is a warning that an answer brings and others in its place would not,
// "" where there is none.
func (t *Talk) warned(st step, answer string) (problem string, err error) {
	if st.field.Target {
		return "", nil
	}
	with, _, err := t.warnings(func(other step) (string, bool) { return answer, other.key == st.key })
	if err != nil || len(with) == 0 {
		return "", err
	}
	without, known, err := t.warnings(func(step) (string, bool) { return "", false }, st.key)
	if err != nil || !known {
		return "", err
	}
	for _, d := range with {
		if !slices.ContainsFunc(without, func(o ledger.Diagnostic) bool { return o.Code == d.Code }) {
			return t.saidHere(d), nil
		}
	}
	return "", nil
}

// saidHere is what a warning says in the conversation: where an answer before is probably
// the slip, how to change that one stands in the place of a line to write.
func (t *Talk) saidHere(d ledger.Diagnostic) string {
	field := ""
	if t.kind.Blames != nil {
		field = t.kind.Blames(d)
	}
	if field == "" {
		return said(d)
	}
	at := slices.IndexFunc(t.kind.Fields, func(f Field) bool { return f.Name == field })
	asks := t.kind.Fields[at].Asks
	if t.placed(field, nil) < 0 {
		return fmt.Sprintf("%s; --%s said %s; where it is right, a remark says why", d.Message, field, asks)
	}
	return fmt.Sprintf("%s; `%s` changes %s; where it is right, a remark says why", d.Message, backWord+" "+field, asks)
}

// errorTexts says what is wrong, without where: the text is not in a file yet.
func errorTexts(list ledger.List) []string {
	var texts []string
	for _, d := range list {
		if d.Severity == ledger.Error {
			texts = append(texts, said(d))
		}
	}
	return texts
}

// said is what a diagnostic says, without where.
func said(d ledger.Diagnostic) string {
	message := firstThere().ReplaceAllString(d.Message, "")
	if d.Hint == "" {
		return message
	}
	return message + "; " + d.Hint
}

// firstThere is where a message says that the first of two stands: in a text that is not
// in a file yet.
var firstThere = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`, the first is on line [0-9]+`) })

// choose checks an answer against what is known: an exact name, or the
// beginning of only one, in capitals or not. Where it is neither, it gives the nearest name.
func choose(text string, known []string) (name string, ok bool) {
	if slices.Contains(known, text) {
		return text, true
	}
	var found []string
	for _, k := range known {
		switch {
		case strings.EqualFold(k, text):
			return k, true
		case len(k) > len(text) && strings.EqualFold(k[:len(text)], text):
			found = append(found, k)
		}
	}
	if len(found) == 1 {
		return found[0], true
	}
	return ledger.Nearest(text, known), false
}

// handleOf is the handle of the pilot or coach whose full name a text is, as people
// write it; else the text itself.
func handleOf(field, text string, l *season.Ledger) string {
	switch {
	case l == nil || !strings.Contains(text, " "):
	case field == "pilot":
		if p := l.PilotCalled(text); p != nil {
			return p.Handle
		}
	case field == "by":
		if c := l.CoachCalled(text); c != nil {
			return c.Handle
		}
	}
	return text
}
