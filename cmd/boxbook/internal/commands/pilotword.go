package commands

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"boxbook/season"
	"boxbook/season/ledger"

	"github.com/spf13/cobra"
)

// The pilot is the first word of every command about one pilot. Where a command
// has a word of its own as well, such as a sequence, one word alone is the pilot
// where a pilot is called so, and the command's own word else; two words are the
// pilot and the command's own.

// pilotFlag chooses a pilot.
func (a *app) pilotFlag(cmd *cobra.Command, usage string) {
	cmd.Flags().StringVar(&a.pilot, "pilot", "", usage)
}

// Who is meant where no pilot is named, as the help of --pilot says it.
const (
	elseOnlyPilot = "this `PILOT`; else $BOXBOOK_PILOT, else the only one"
	elseEverybody = "this `PILOT`; else $BOXBOOK_PILOT, else everybody"
	elseAllExport = "this `PILOT`; else $BOXBOOK_PILOT (not of money), else everybody"
	elseAnyFlight = "this `PILOT`; else $BOXBOOK_PILOT's, else anybody's"
)

// preferredPilot chooses a pilot; where none is given, $BOXBOOK_PILOT does.
func (a *app) preferredPilot(cmd *cobra.Command, usage string) {
	a.pilotFlag(cmd, usage)
	before(cmd, func([]string) error {
		a.asking = cmd.Name()
		return a.takePilot("")
	})
}

// pilotWord lets the first word name the pilot too.
func (a *app) pilotWord(cmd *cobra.Command, usage string) {
	cmd.Use += " [PILOT]"
	cmd.Args = arguments(cobra.MaximumNArgs(1))
	cmd.ValidArgsFunction = first(a.offer(proposePilots))
	before(cmd, func(args []string) error { return a.takePilot(strings.Join(args, " ")) })
	a.preferredPilot(cmd, usage)
}

// takePilot settles which pilot was named: by a word, by --pilot, by
// $BOXBOOK_PILOT.
func (a *app) takePilot(word string) error {
	switch {
	case word != "" && a.pilot != "" && word != a.pilot:
		return &usageError{text: fmt.Sprintf("two pilots are named: %s, and %s with --pilot", word, a.pilot)}
	case word != "":
		a.pilot = word
	case a.pilot == "":
		a.pilot = a.env(pilotVariable)
		a.byVariable = a.pilot != ""
	}
	return nil
}

// pilotVariable names the pilot where nothing else does.
const pilotVariable = "BOXBOOK_PILOT"

// ownWord is a word that a command has beside the pilot: the names there are, and
// whether a word is one.
type ownWord struct {
	names func(*season.Ledger) []string
	is    func(*season.Ledger, string) bool
}

// pilotThen lets the first word name the pilot, before the command's own word.
func (a *app) pilotThen(cmd *cobra.Command, own ownWord, usage string) {
	cmd.Args = arguments(cobra.MaximumNArgs(2))
	pilots, names := a.offer(proposePilots), a.offer(own.names)
	cmd.ValidArgsFunction = func(cmd *cobra.Command, args []string, typed string) ([]string, cobra.ShellCompDirective) {
		offered, directive := names(cmd, args, typed)
		switch {
		case len(args) == 0:
			first, _ := pilots(cmd, args, typed)
			return append(first, notOthers(offered, a.pilot)...), directive
		case len(args) == 1 && a.namesPilot(args[0]):
			return notOthers(offered, args[0]), directive
		default:
			return nil, cobra.ShellCompDirectiveNoFileComp
		}
	}
	a.pilotFlag(cmd, usage)
	before(cmd, func([]string) error {
		a.asking = cmd.Name()
		return nil
	})
}

// namesPilot reports whether a word is a pilot of the ledger, to a shell.
func (a *app) namesPilot(word string) bool {
	result, err := a.readForShell()
	return err == nil && result.Ledger.PilotNamed(word) != nil
}

// pilotBefore says in help how the pilot and a command's own word are told apart.
func pilotBefore(what string) string {
	return "\n\nA pilot's handle as the first word is the pilot. Where a " + what + " is named\nlike a pilot, give the pilot first or use --pilot."
}

// takeWords settles which pilot the words of a command name, and gives its own
// word, "" where there is none. A pilot's name alone is the command's own word
// only where --pilot names the pilot.
func (a *app) takeWords(l *season.Ledger, own ownWord, args []string) (string, error) {
	switch {
	case len(args) == 0:
		return "", a.takePilot("")
	case len(args) == 2 && l.PilotCalled(args[0]) == nil && l.PilotCalled(args[1]) != nil && own.is(l, args[0]):
		return "", &usageError{
			fmt.Sprintf("no pilot is called %q", args[0]), fmt.Sprintf("the pilot goes first: boxbook %s %s %s", a.asking, args[1], args[0]),
		}
	case len(args) == 2 && l.PilotCalled(args[0]) == nil:
		return "", unknown("pilot", args[0], pilotHandles(l.Pilots))
	case len(args) == 2:
		return args[1], a.takePilot(args[0])
	case l.PilotCalled(args[0]) != nil && (a.pilot == "" || !own.is(l, args[0])):
		return "", a.takePilot(args[0])
	default:
		return args[0], a.takePilot("")
	}
}

// sequenceWord is a sequence beside the pilot.
func sequenceWord() ownWord {
	return ownWord{
		names: proposeSequences,
		is:    func(l *season.Ledger, word string) bool { return l.SequenceNamed(word) != nil },
	}
}

// sequenceQuestion is a question about one pilot and the sequence named, nil
// where none is.
func (a *app) sequenceQuestion(args []string) (l *season.Ledger, s season.Selection, sequence *season.Sequence, err error) {
	if l, err = a.open(); err != nil {
		return nil, s, nil, err
	}
	word, err := a.takeWords(l, sequenceWord(), args)
	if err != nil {
		return nil, s, nil, err
	}
	if sequence = l.SequenceNamed(word); sequence == nil && word != "" {
		return nil, s, nil, a.unknownWord(l, "sequence", word, proposeSequences(l), args)
	}
	if s, err = a.selection(l); err != nil {
		return nil, s, nil, err
	}
	a.ownWord = word
	s, err = a.onePilot(l, s)
	return l, s, sequence, err
}

// unknownWord says that a command's own word is not known; a word alone could
// have been meant as the pilot too.
func (a *app) unknownWord(l *season.Ledger, kind, word string, names, args []string) error {
	if flagged := a.pilot != "" && !a.byVariable; len(args) > 1 || flagged {
		return unknown(kind, word, names)
	}
	return unknown("pilot or "+kind, word, append(pilotHandles(l.Pilots), names...))
}

// unknownPilot says that no pilot has the name, and where the name came from.
func (a *app) unknownPilot(l *season.Ledger) error {
	err := unknown("pilot", a.pilot, pilotHandles(l.Pilots))
	if meant := wordMeant(a.pilot); meant != "" && !a.byVariable {
		return &usageError{text: fmt.Sprintf("no pilot is called %q", a.pilot), hint: meant}
	}
	if meant := a.targetMeant(l); meant != "" && !a.byVariable {
		return &usageError{text: fmt.Sprintf("no pilot is called %q", a.pilot), hint: meant}
	}
	if usage := (*usageError)(nil); a.byVariable && errors.As(err, &usage) {
		usage.text = "$" + pilotVariable + ": " + usage.text
	}
	return err
}

// targetMeant says what shows a kind of fault or a family that stands where a pilot's
// handle does, "" where the word is neither.
func (a *app) targetMeant(l *season.Ledger) string {
	isKind := slices.ContainsFunc(l.FaultKinds, func(k *season.FaultKind) bool { return k.Name == a.pilot })
	switch {
	case !isKind && !season.IsGroup(a.pilot):
		return ""
	case a.asking == "drills":
		return fmt.Sprintf("%s is what a drill is on: boxbook drills shows the drills on everything", a.pilot)
	case isKind:
		return fmt.Sprintf("%s is a kind of fault: boxbook faults shows all of them", a.pilot)
	default:
		return "one family over time: boxbook families " + a.pilot
	}
}

// handleMeant is the handle of the pilot whose handle or first name a word is in
// other letters' case, "" where it is a handle itself, or nobody's or several ones'.
func handleMeant(pilots []*season.Pilot, word string) string {
	meant := ""
	for _, p := range pilots {
		first, _, _ := strings.Cut(p.Name, " ")
		switch {
		case p.Handle == word:
			return ""
		case !strings.EqualFold(p.Handle, word) && !strings.EqualFold(first, word):
		case meant != "":
			return ""
		default:
			meant = p.Handle
		}
	}
	return meant
}

// wordMeant says which flag takes a word that stands where a pilot's handle does,
// "" where it is neither a year nor a date.
func wordMeant(word string) string {
	if date, ok := season.ParseDate(ledger.DateMeant(word)); ok {
		return fmt.Sprintf("a day is chosen by: --since %s --until %s; one flight by: boxbook flight %s", date, date, date)
	}
	if year, err := strconv.Atoi(word); err == nil && len(word) == 4 {
		return fmt.Sprintf("a year is chosen by: --season %d", year)
	}
	return ""
}

// severalPilots says that a command needs one pilot, and of which it can be.
func (a *app) severalPilots(flyers []*season.Pilot) error {
	handles := pilotHandles(flyers)
	hint := "name one with --pilot"
	if a.asking != "" {
		hint = strings.TrimSpace(fmt.Sprintf("name one: boxbook %s %s %s", a.asking, handles[0], a.ownWord))
	}
	return &usageError{"several pilots have flights: " + strings.Join(handles, ", "), hint}
}
