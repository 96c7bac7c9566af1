package ledger

import (
	"slices"
	"strings"
	"sync"

	"boxbook/scoring"
	"boxbook/season"
)

// Slot is what a word of a line stands for, by its name in lineForms.
type Slot string

// The slots of names: those that a block or a line of one defines.
const (
	SlotPilot    Slot = "PILOT"
	SlotCoach    Slot = "COACH"
	SlotParty    Slot = "PARTY"
	SlotSequence Slot = "SEQUENCE"
	SlotContest  Slot = "CONTEST"
	SlotFlight   Slot = "FLIGHT" // a flight's full name
	SlotLadder   Slot = "LADDER"
	SlotStyle    Slot = "STYLE"
	SlotKind     Slot = "KIND"
	SlotSafety   Slot = "SAFETY" // a fault kind that stays open
	SlotCategory Slot = "CATEGORY"
	SlotJudge    Slot = "JUDGE"
	SlotTarget   Slot = "TARGET" // of a drill: a fault kind or a group
	SlotNew      Slot = "NEW"    // the name that the line defines
)

// The other slots.
const (
	SlotDate      Slot = "DATE"
	SlotSpan      Slot = "SPAN"
	SlotMonthDay  Slot = "MONTHDAY"
	SlotYear      Slot = "YEAR"
	SlotProgramme Slot = "PROGRAMME"
	SlotProgramOf Slot = "PROGRAMOF" // of a sequence
	SlotLabel     Slot = "LABEL"
	SlotText      Slot = "TEXT"
	SlotNumber    Slot = "NUMBER"
	SlotK         Slot = "KFACTOR"
	SlotElement   Slot = "ELEMENT" // CODE:K
	SlotGroupCode Slot = "CODE"    // a catalogue number or a group
	SlotGroup     Slot = "GROUP"
	SlotFigure    Slot = "FIGURE"
	SlotOn        Slot = "ONCODE" // a code of the figure named before
	SlotMark      Slot = "MARK"
	SlotPoints    Slot = "POINTS"
	SlotAmount    Slot = "SIZE" // of a fault
	SlotMoment    Slot = "MOMENT"
	SlotMoney     Slot = "MONEY"
	SlotCurrency  Slot = "CURRENCY"
	SlotCost      Slot = "COST"
	SlotIncome    Slot = "INCOME"
	SlotShare     Slot = "SHARE"
	SlotReceipt   Slot = "RECEIPT"
	SlotPot       Slot = "POT"
	SlotRole      Slot = "ROLE"
	SlotExpiry    Slot = "EXPIRY"
	SlotCatalogue Slot = "CATALOGUE"
	SlotFloor     Slot = "FLOOR"
	SlotPenalty   Slot = "PENALTY"
	SlotUnit      Slot = "UNIT"
	SlotHardZero  Slot = "HARDZERO"
	SlotHalf      Slot = "HALF"
	SlotRounding  Slot = "ROUNDING"
	SlotYesNo     Slot = "YESNO"
)

// rowForm stands for a row's number in the names of forms.
const rowForm = "#"

// Parts that several forms have.
const (
	moneyOfLine  = "MONEY CURRENCY"
	peopleOfCost = "PARTY [ SHARE ] ( PARTY [ SHARE ] )*"
	restOfCost   = "[ by PARTY ] [ to club ] [ receipt RECEIPT ]"
	rankOfLine   = "NUMBER [ of NUMBER ]"
	panelOfLine  = "JUDGE+ [ missing JUDGE+ ]"
	faultOfLine  = "( - | FIGURE ) KIND [ SIZE [ SIZE ] ] [ on ONCODE ] [ seen | felt ] [ at MOMENT ] [ by COACH ]"
)

// lineForms say how each line of the language is written behind its first word:
// a slot in capitals, any other word as it stands; [ ] may be left out, + may
// repeat, * both. Any line may end with a remark. A line is named by its block's
// keyword, one of a block's body by that and its own, a row by its block and #.
// What stands at a place, and what may stand there, come from this table;
// TestFormsTakeEveryLine holds it to what the reader takes.
var lineForms = map[string]string{
	"language": "NUMBER", "part-of": "TEXT", includeKey: "TEXT",
	"season-start": "MONTHDAY", "year-start": "MONTHDAY",

	"pilot": "NEW", "pilot/name": "TEXT", "pilot/club": "TEXT", "pilot/aircraft": "TEXT", "pilot/note": "TEXT",
	"pilot/expires": "EXPIRY DATE", "pilot/not-flown": "GROUP+",
	"coach": "NEW", "coach/name": "TEXT", "coach/note": "TEXT",
	"person": "NEW", "person/name": "TEXT", "person/note": "TEXT",

	"sequence": "NEW", "sequence/category": "CATEGORY", "sequence/programme": "PROGRAMOF", "sequence/catalogue": "CATALOGUE",
	"sequence/positioning": "K KFACTOR", "sequence/harmony": "K KFACTOR", "sequence/total": "K KFACTOR", "sequence/note": "TEXT",
	"sequence/#": "K KFACTOR CODE* | ELEMENT+",

	"contest": "NEW SPAN", "contest/name": "TEXT", "contest/site": "TEXT", "contest/enter-by": "DATE", "contest/ladder": "LADDER",
	"contest/rules": "STYLE", "contest/panel": panelOfLine, "contest/note": "TEXT",
	"contest/result": "PILOT [ POINTS [ of POINTS ] ] [ place " + rankOfLine + " ]",
	"contest/cost":   "[ DATE ] COST " + moneyOfLine + " [ each ] for ( all | " + peopleOfCost + " ) " + restOfCost,
	"contest/duty":   "ROLE PARTY [ NUMBER ]",

	"flight": "DATE PILOT PROGRAMME [ LABEL ]", "flight/contest": "CONTEST", "flight/sequence": "SEQUENCE", "flight/category": "CATEGORY",
	"flight/aircraft": "TEXT", "flight/rules": "STYLE", "flight/ladder": "LADDER", "flight/panel": panelOfLine,
	"flight/#": "MARK+", "flight/positioning": "MARK+", "flight/harmony": "MARK+", "flight/sheet": "JUDGE MARK+",
	"flight/penalty": "PENALTY POINTS", "flight/resolve": "( positioning | harmony | FIGURE ) ( zero | fill )",
	"flight/official": "POINTS [ of POINTS ]", "flight/judge-totals": "POINTS+", "flight/place": rankOfLine, "flight/field": "POINTS+",
	"flight/fault": faultOfLine, "flight/reviewed": "[ by COACH ]", "flight/closed": "SAFETY", "flight/void": "TEXT",
	"flight/video": "TEXT", "flight/note": "TEXT",

	"review": "FLIGHT [ by COACH ]", "review/by": "COACH", "review/fault": faultOfLine, "review/video": "TEXT", "review/note": "TEXT",
	"drill": "DATE PILOT TARGET", "drill/prompted-by": "FLIGHT", "drill/by": "COACH", "drill/ended": "DATE", "drill/note": "TEXT",
	"signoff": "DATE PILOT CATEGORY by COACH", "closed": "DATE PILOT SAFETY [ by COACH ]",

	"cost":   "DATE COST " + moneyOfLine + " [ each ] for " + peopleOfCost + " " + restOfCost,
	"income": "DATE INCOME " + moneyOfLine + " [ for PARTY ] [ receipt RECEIPT ]",
	"settle": "DATE PARTY PARTY " + moneyOfLine + " [ for " + moneyOfLine + " ] [ receipt RECEIPT ]",
	"owed":   "DATE PARTY PARTY " + moneyOfLine, "rate": "YEAR CURRENCY POINTS CURRENCY",
	"in-hand": "DATE POT " + moneyOfLine, "budget": "YEAR COST " + moneyOfLine + " [ income ]", "agreed": "YEAR " + moneyOfLine,

	"ladder": "NEW", "ladder/category": "NEW [ floor FLOOR ] [ unknowns ] [ new GROUP+ ]", "ladder/note": "TEXT",
	"rules": "NEW", "rules/like": "STYLE", "rules/hard-zero": "HARDZERO", "rules/half": "HALF", "rules/fill-rounding": "ROUNDING",
	"rules/drop-extremes": "YESNO", "rules/note": "TEXT",
	"policy": "NEW", "policy/note": "TEXT", // its keys: policyForm
	"fault-kind": "NEW", "fault-kind/unit": "UNIT", "fault-kind/per": "SIZE POINTS", "fault-kind/at": "SIZE POINTS", "fault-kind/free": "SIZE",
	"fault-kind/zero": "SIZE", "fault-kind/plain": "POINTS", "fault-kind/felt": "", "fault-kind/safety": "", "fault-kind/next": "",
	"fault-kind/in": "GROUP+", "fault-kind/says": "TEXT", "fault-kind/note": "TEXT",
}

// policyForm is how a key of a policy is written, from its shape.
func policyForm(shape policyShape) string {
	switch {
	case shape.off == onlyOff:
		return "off"
	case shape.yesNo:
		return "off | YESNO"
	}
	parts := make([]string, len(shape.parts))
	for i := range shape.parts {
		parts[i] = string(SlotPoints)
	}
	return "off | " + strings.Join(parts, " "+shape.word+" ")
}

// allForms are the forms of all lines, ready to be matched.
var allForms = sync.OnceValue(func() map[string]*form {
	forms := map[string]*form{}
	for name, text := range lineForms {
		forms[name] = formOf(text)
	}
	for _, shape := range policyShapes {
		forms["policy/"+shape.key] = formOf(policyForm(shape))
		if sameKey(openMatters) == shape.key {
			forms["policy/"+openMatters] = forms["policy/"+shape.key]
		}
	}
	return forms
})

// slotWords are the words that a slot has for good, whatever a ledger says.
var slotWords = map[Slot]func() []string{
	SlotProgramme: func() []string { return programmeWords(true) },
	SlotProgramOf: func() []string { return programmeWords(false) },
	SlotPenalty:   penaltyWords,
	SlotUnit:      func() []string { return units },
	SlotHardZero:  func() []string { return scoring.HardZeroWords },
	SlotHalf:      func() []string { return scoring.HalfWords },
	SlotRounding:  func() []string { return scoring.FillRoundingWords },
	SlotYesNo:     func() []string { return yesOrNo },
	SlotGroup:     func() []string { return season.Groups },
	SlotMark:      markNames,
}

// SlotWords are the words that may stand in a slot whatever a ledger says; none
// for a slot of names or numbers.
func SlotWords(slot Slot) []string {
	if words := slotWords[slot]; words != nil {
		return slices.Clone(words())
	}
	return nil
}

// fits reports whether a word looks like one of the slot, right or wrong. It
// tells the slots apart that may stand at one place.
func (s Slot) fits(word string, quoted bool) bool {
	if quoted || s == SlotText {
		return quoted && s == SlotText
	}
	switch s {
	case SlotDate, SlotShare, SlotNumber, SlotPoints, SlotAmount, SlotMoney, SlotK, SlotLabel, SlotFigure, SlotYear, SlotElement:
		return numberish(word)
	case SlotParty, SlotCost, SlotIncome, SlotNew:
		return season.IsHandle(word)
	default:
		return true
	}
}
