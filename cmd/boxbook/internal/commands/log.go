package commands

import (
	"cmp"
	"errors"
	"fmt"
	"os"
	"slices"
	"strings"

	"boxbook/cmd/boxbook/internal/entry"
	"boxbook/data"
	"boxbook/report/display"
	"boxbook/report/words"
	"boxbook/season"
	"boxbook/season/ledger"

	"github.com/spf13/cobra"
)

// newLog is the command that writes into a ledger.
func newLog(a *app) *cobra.Command {
	cmd := &cobra.Command{
		Use: "log", Short: "add to the ledger: flights, faults, costs ...", GroupID: groupRecord,
		Long: `Add to the ledger. Everything can be given by flags; at a terminal, what is
missing is asked for. "boxbook log -" takes blocks in the ledger language from
standard input, checks them against the ledger they would join, and adds them.
--into writes into a file that the ledger includes, its path from here or from
the ledger's folder. An included file that begins with part-of needs -f alone.

The ledger is changed completely or not at all: every earlier line stays as it
is, except an expiry that is renewed and a total or place that gets its "of";
nothing is written that could not be read back. "boxbook undo" takes the last
change back.

What was typed and not written yet is a draft beside the ledger, such as
.season.boxbook.flight.draft; "ls -A" shows it, and those that were set aside,
with a number behind. --draft FILE takes one of these up; delete it otherwise.`,
		Example: "  boxbook log flight\n  boxbook log fault --flight 2026-04-18/ines/known --figure 2 --kind radius\n  boxbook log review --into coach/marek.boxbook\n  cat new.txt | boxbook log -",
		RunE: func(cmd *cobra.Command, args []string) error {
			switch {
			case len(args) == 1 && args[0] == stdinName:
				return a.runLogText()
			case len(args) == 0:
				return cmd.Help()
			default:
				return noKind(cmd, args[0])
			}
		},
	}
	cmd.AddGroup(
		&cobra.Group{ID: groupWeekly, Title: "Week by week"},
		&cobra.Group{ID: groupYearly, Title: "A few times a year"},
	)
	for _, k := range entry.Kinds() {
		cmd.AddCommand(newLogKind(a, k))
	}
	a.ledgerFlag(cmd)
	a.intoFlag(cmd)
	a.asOfFlag(cmd)
	for _, sub := range cmd.Commands() {
		a.ledgerFlag(sub)
		a.intoFlag(sub)
		a.asOfFlag(sub)
	}
	return cmd
}

// The groups of the kinds of entry.
const (
	groupWeekly = "weekly"
	groupYearly = "yearly"
)

// newLogKind is the command of one kind of entry: its flags are the fields of
// the table.
func newLogKind(a *app, k entry.Kind) *cobra.Command {
	given, aside := entry.Answers{}, ""
	group := groupWeekly
	if k.Yearly {
		group = groupYearly
	}
	cmd := &cobra.Command{
		Use: k.Name, Short: k.Short, Long: cmp.Or(k.Long, words.Sentence(k.Short)+"."), GroupID: group, Args: arguments(cobra.NoArgs),
		RunE: func(*cobra.Command, []string) error { return a.runLogKind(&k, given, aside) },
	}
	for _, f := range k.Fields {
		if !f.NoFlag {
			a.fieldFlag(cmd, f, given)
		}
	}
	cmd.Flags().StringVar(&aside, "draft", "", "take up the draft that was set aside as this `FILE`")
	if names := cmd.Flags(); names.Lookup("handle") != nil && names.Lookup("name") == nil {
		instead(cmd, "its name is the short word of --handle", "name")
	}
	if names := cmd.Flags(); names.Lookup("note") != nil && names.Lookup("by") == nil {
		instead(cmd, "a flight's own notes name no author; a coach's is one of a review: boxbook log review --by COACH --note TEXT", "by")
	}
	return cmd
}

// fieldFlag is the flag of a field; a shell is offered what the ledger proposes.
func (a *app) fieldFlag(cmd *cobra.Command, f entry.Field, given entry.Answers) {
	flags := cmd.Flags()
	flags.Var(answerFlag{given, f}, f.Name, f.Usage())
	if f.Was != "" {
		flags.Var(answerFlag{given, f}, f.Was, f.Usage())
		flags.Lookup(f.Was).Hidden = true
	}
	if f.Propose != nil {
		complete(cmd, f.Name, a.offer(f.Propose))
	}
}

// runLogKind takes an entry from flags, asks a person at a terminal for what
// is missing, and records it. aside is the draft to go on with, "" for none that was
// set aside.
func (a *app) runLogKind(k *entry.Kind, given entry.Answers, aside string) error {
	if aside != "" && !a.interactive {
		return &usageError{"a draft is taken up at a terminal, and there is nobody to ask", ""}
	}
	if err := k.Check(given); err != nil {
		return asLogError(err)
	}
	to, err := a.destination()
	if err != nil {
		return err
	}
	_, missing := os.Stat(to.ledger)
	host := &logHost{a, to, missing == nil}
	result, err := host.Read()
	if err != nil {
		return err
	}
	if err := result.Diagnostics.Err(); err != nil {
		return err
	}
	if a.interactive && (aside != "" || entry.Wanted(k, given, result.Ledger)) {
		return asLogError(a.talk(k, given, host, aside))
	}
	given, said := k.Meant(given)
	for _, line := range said {
		fmt.Fprintln(a.err, line)
	}
	add, answered, err := entry.FromFlags(k, given, host)
	if err != nil {
		return asLogError(err)
	}
	l, err := a.recordUnseen("log", to, add)
	var refused *additionError
	if errors.As(err, &refused) {
		a.placeInFlags(refused, k, given, to, add)
	}
	if err != nil {
		return err
	}
	if add.Remark != "" {
		fmt.Fprintln(a.err, add.Remark)
	}
	return a.sayFollows(k.Name, l, host, answered)
}

// talk asks at the terminal, and records what comes of it.
func (a *app) talk(k *entry.Kind, given entry.Answers, host *logHost, aside string) error {
	terminal, err := entry.NewTerminal(a.in, a.out)
	if err != nil {
		return err
	}
	terminal.Commands = a.pasted().in
	t := entry.NewTalk(k, host, terminal, host.to.file)
	defer t.Leave()
	if aside != "" {
		t.GoOnWith(aside)
	}
	adds, err := t.Run(given)
	goOn := "boxbook log " + k.Name
	if kept := t.KeptAs(); kept != "" {
		goOn += " --draft " + display.ShellWord(kept)
	}
	if closeErr := terminal.Close(); err == nil {
		err = closeErr
	}
	switch {
	case errors.Is(err, entry.ErrStopped) && t.Kept():
		fmt.Fprint(a.out, a.pasted().in(fmt.Sprintf("\nstopped; the draft is kept, `%s` continues with it\n", goOn)))
		return errInterrupted
	case errors.Is(err, entry.ErrStopped):
		fmt.Fprintln(a.out, "\nstopped; nothing was written")
		return errInterrupted
	case asMeanwhile(err) != nil && t.Kept():
		broken := asMeanwhile(err)
		broken.hint = fmt.Sprintf("the draft is kept; once that is put right, `%s` continues with it", goOn)
		return broken
	case asMeanwhile(err) != nil:
		return asMeanwhile(err)
	case err != nil || len(adds) == 0:
		return err
	}
	if err := a.record("log", host.to, adds...); err != nil {
		return err
	}
	return t.Done()
}

// asLogError turns an error of an entry into one of the command.
func asLogError(err error) error {
	var refusal *entry.Refusal
	var file *entry.FileError
	switch {
	case errors.As(err, &refusal):
		return &usageError{refusal.Text, refusal.Hint}
	case errors.As(err, &file):
		return &fileError{file.Doing, file.Err}
	default:
		return err
	}
}

// logHost is what entries need of the program.
type logHost struct {
	app *app
	to  destination
	was bool // the ledger was there at the beginning
}

// Read gives the ledger as it would be with additions. One that was there and is no
// more is not begun anew.
func (h *logHost) Read(more ...entry.Addition) (*ledger.Result, error) {
	if _, err := os.Stat(h.to.ledger); h.was && errors.Is(err, os.ErrNotExist) {
		return nil, &meanwhileError{text: shownName(h.to.ledger) + " is gone", exit: exitFile}
	}
	return h.app.preview(h.to, more...)
}

// Takes says why lines cannot go into a block of the ledger.
func (h *logHost) Takes(to ledger.Target) error { return h.to.takes(to) }

// Flight finds the one flight that a selector names. The last one is that of the pilot whom
// $BOXBOOK_PILOT names; without one it is none where several pilots flew on its day: what
// is written is never of a pilot who was taken without a word.
func (h *logHost) Flight(l *season.Ledger, selector string) (*season.Flight, error) {
	s := season.Selection{}
	if selector == season.LastSelector {
		if preferred := h.app.env(pilotVariable); preferred != "" {
			s.Pilot = l.PilotCalled(preferred)
		}
		if day := lastDay(l, s); len(pilotsOf(day)) > 1 {
			names := namesOf(day, func(f *season.Flight) string { return f.Name })
			return nil, &usageError{text: fmt.Sprintf("several pilots flew on %s, the latest day; the flight's name says which: %s", day[0].Date, strings.Join(names, ", "))}
		}
	}
	f, err := oneFlight(l, s, selector)
	var usage *usageError
	if names, several := "", errors.As(err, &usage); several {
		if _, names, several = strings.Cut(usage.hint, sayWhich); several { // at a prompt there is no hint
			return nil, &usageError{text: usage.text + ": " + strings.ReplaceAll(names, "\n", ", ")}
		}
	}
	return f, err
}

// Unknown is the error of a name that the ledger lacks; where it is near to none, of a
// contest with the way to add one.
func (h *logHost) Unknown(kind, name string, known []string) error {
	err := unknown(kind, name, known)
	if usage := (*usageError)(nil); kind == "contest" && errors.As(err, &usage) && len(ledger.Near(name, known)) == 0 {
		usage.text += "; one is added by: boxbook log contest"
	}
	return err
}

// Title is what a kind of fault, or a family, is called in words.
func (h *logHost) Title(l *season.Ledger, code string) string {
	for _, kind := range l.FaultKinds {
		if kind.Name == code {
			return kind.Says
		}
	}
	return words.GroupName(code)
}

// noKind says that `log` can add nothing of a name, and what does instead.
func noKind(cmd *cobra.Command, word string) error {
	if hint := cmp.Or(partOfEntry(word), ledger.MoneyWordMeant(word)); hint != "" {
		return &usageError{fmt.Sprintf("no kind of entry is called %q", word), hint}
	}
	err := unknown("kind of entry", word, logKinds(cmd))
	if usage := (*usageError)(nil); errors.As(err, &usage) && len(ledger.Near(word, logKinds(cmd))) == 0 {
		usage.hint = "see boxbook log --help"
	}
	return err
}

func logKinds(cmd *cobra.Command) []string {
	var kinds []string
	for _, sub := range cmd.Commands() {
		kinds = append(kinds, sub.Name())
	}
	return kinds
}

// runLogText adds blocks from standard input.
func (a *app) runLogText() error {
	text, err := ledger.ReadText(a.in, "standard input", 0)
	if err != nil {
		return &fileError{"read standard input", err}
	}
	if strings.TrimSpace(text) == "" {
		return &usageError{"nothing on standard input", "give blocks in the ledger language: boxbook help language"}
	}
	if first := firstLine(text); first != strings.TrimLeft(first, " \t") {
		return &usageError{fmt.Sprintf("standard input begins with an indented line: %q", strings.TrimSpace(first)), "blocks start at column 0: flight, contest, cost ..."}
	}
	to, err := a.destination()
	if err != nil {
		return err
	}
	add := entry.Addition{Block: text, Said: "what was on " + standardInputName}
	_, err = a.recordUnseen("log", to, add)
	var refused *additionError
	if errors.As(err, &refused) {
		a.placeInInput(refused, to, add)
	}
	return err
}

// placeInInput says of what an addition brings on which of its lines it is.
func (a *app) placeInInput(refused *additionError, to destination, add entry.Addition) {
	old, err := ledger.Disk{}.Read(to.file)
	if err != nil && !errors.Is(err, os.ErrNotExist) {
		return // the errors stand as they are
	}
	lines := func(text string) int { return strings.Count(strings.TrimRight(text, " \t\r\n")+"\n", "\n") }
	body := strings.TrimLeft(add.Block, "\ufeff \t\r\n") // it begins at column 0
	leading := strings.Count(add.Block[:len(add.Block)-len(body)], "\n")
	behind := lines(ledger.Append(old, add.Block)) - lines(body) - leading
	for _, d := range refused.brought {
		if sameFile(d.File, to.file) {
			refused.readFrom(standardInputName, d.File, behind)
			return
		}
	}
}

// placeInFlags says of what an addition brings of which flag it is. Its lines are in
// no file; those behind it have the numbers that they have without it.
func (a *app) placeInFlags(refused *additionError, k *entry.Kind, given entry.Answers, to destination, add entry.Addition) {
	file := to.fileOf([]entry.Addition{add})
	old, err := ledger.Disk{}.Read(file)
	if err != nil && !errors.Is(err, os.ErrNotExist) {
		return // the errors stand as they are
	}
	text, err := add.Added(old)
	if err != nil {
		return
	}
	first, behind, more := changedLines(old, text)
	for i := range refused.brought {
		d := &refused.brought[i]
		switch {
		case d.Line < first || !sameFile(d.File, file) && d.File != shownName(file):
		case d.Line >= behind:
			d.Line -= more
		default:
			d.File, d.Line = "", 0
			if name := k.FlagOf(given, d.Source, d.Span()); name != "" {
				d.File = "--" + name
			}
			hintByFlag(d)
		}
	}
	slices.SortStableFunc(refused.brought, func(a, b ledger.Diagnostic) int { // a cause before its consequences
		return cmp.Compare(consequence(a), consequence(b))
	})
}

// consequence is 0 for a flag's name that the ledger lacks, and 1 for what may be due to it.
func consequence(d ledger.Diagnostic) int {
	if d.Code == "unknown-name" && strings.HasPrefix(d.File, "--") {
		return 0
	}
	return 1
}

// hintByFlag has a hint name the flag, where no line of the ledger is typed: for the number
// of a second flight of a day, and for the judges.
func hintByFlag(d *ledger.Diagnostic) {
	before, line, _ := strings.Cut(d.Hint, "`")
	line, after, found := strings.Cut(line, "`")
	words := strings.Fields(line)
	switch {
	case !found:
	case d.Code == "flight-twice":
		d.Hint = before + "--number " + words[len(words)-1] + after
	case d.Code == "no-panel":
		d.Hint = before + `--panel "` + strings.Join(words[1:], " ") + `"` + after
	}
}

// hintsByFlag is hintByFlag for all that an addition brings.
func hintsByFlag(err error) error {
	var refused *additionError
	if errors.As(err, &refused) {
		for i := range refused.brought {
			hintByFlag(&refused.brought[i])
		}
	}
	return err
}

// changedLines are the lines of a text that another one lacks, from first up to the
// one that is behind them, counted from 1, and how many more it has.
func changedLines(old, text string) (first, behind, more int) {
	was, is := strings.Split(old, "\n"), strings.Split(text, "\n")
	from := 0
	for from < min(len(was), len(is)) && was[from] == is[from] {
		from++
	}
	end := 0
	for end < min(len(was), len(is))-from && was[len(was)-1-end] == is[len(is)-1-end] {
		end++
	}
	return from + 1, len(is) - end + 1, len(is) - len(was)
}

// firstLine is a text's first line that says anything.
func firstLine(text string) string {
	for _, line := range strings.Split(strings.TrimPrefix(text, "\ufeff"), "\n") {
		if said := strings.TrimSpace(line); said != "" && said[0] != '#' {
			return line
		}
	}
	return ""
}

// emptyLedger is what the program ships alone.
func (a *app) emptyLedger() (*season.Ledger, error) {
	today, err := a.today()
	if err != nil {
		return nil, err
	}
	result, err := ledger.Load(ledger.Options{Files: ledger.Memory{"empty" + ledgerSuffix: ""}, Main: "empty" + ledgerSuffix, Builtin: data.Builtin(), AsOf: today})
	if err != nil {
		return nil, err
	}
	return result.Ledger, nil
}
