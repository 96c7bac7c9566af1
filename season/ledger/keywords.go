package ledger

import "slices"

// blockSpec says what a kind of block may hold and how it is laid out: all that
// the reader, the tidier and the editor know of a keyword.
type blockSpec struct {
	keys     []string // the lines of its body; a block without any is one line
	repeats  []string // those of them that may stand more than once
	decimals []string // those that may hold a decimal, and with it a comma for the point
	rows     bool     // a number may begin a line
	dated    bool     // a date stands behind the keyword
	money    bool     // one line about money: it may hold decimals and stands beneath its like
	column   int      // where the values of its lines begin, counted from the keys
}

// includeKey reads another file in.
const includeKey = "include"

// blockSpecs are the blocks of the language. Columns do not depend on which keys
// a block has: a line that is added later moves no other, and a change shows as
// one line.
var blockSpecs = map[string]blockSpec{
	"language": {},
	"part-of":  {},
	"pilot": {
		keys:    []string{"name", "club", "expires", "not-flown", "aircraft", "note"},
		repeats: []string{"expires", "not-flown", "note"}, column: 10,
	},
	"coach":  {keys: []string{"name", "note"}, repeats: []string{"note"}, column: 10},
	"person": {keys: []string{"name", "note"}, repeats: []string{"note"}, column: 10},
	"sequence": {
		keys:    []string{"category", "programme", "catalogue", "positioning", "harmony", "total", "note"},
		repeats: []string{"note"}, rows: true, column: 13,
	},
	"contest": {
		keys:    []string{"name", "site", "enter-by", "ladder", "rules", "panel", "result", "cost", "duty", "note"},
		repeats: []string{"result", "cost", "duty", "note"}, decimals: []string{"result", "cost"}, column: 10,
	},
	"flight": {
		keys: slices.Concat(flightSetup, flightFacts), rows: true, dated: true, column: 13,
		repeats:  []string{"sheet", "penalty", "resolve", "fault", "closed", "video", "note"},
		decimals: []string{"penalty", "official", "judge-totals", "field", "fault"},
	},
	"review": {
		keys:    []string{"by", "fault", "video", "note"},
		repeats: []string{"fault", "video", "note"}, decimals: []string{"fault"}, dated: true, column: 13,
	},
	"drill":   {keys: []string{"prompted-by", "by", "ended", "note"}, repeats: []string{"prompted-by", "note"}, dated: true, column: 13},
	"signoff": {dated: true},
	"closed":  {dated: true},
	"cost":    {dated: true, money: true},
	"income":  {dated: true, money: true},
	"settle":  {dated: true, money: true},
	"owed":    {dated: true, money: true},
	"rate":    {money: true},
	"in-hand": {dated: true, money: true},
	"budget":  {money: true},
	"agreed":  {money: true},
	"ladder":  {keys: []string{"category", "note"}, repeats: []string{"category", "note"}, column: 9},
	"rules":   {keys: slices.Concat(styleSettings, []string{"note"}), repeats: []string{"note"}, decimals: []string{"fill-rounding"}, column: 15},
	"policy":  {keys: slices.Concat(policyKeys(), []string{"note"}), repeats: []string{"note"}, decimals: policyKeys(), column: 15},
	"fault-kind": {
		keys:    []string{"unit", "per", "at", "free", "zero", "plain", "felt", "safety", "next", "in", "says", "note"},
		repeats: []string{"at", "note"}, decimals: []string{"per", "at", "free", "zero", "plain"}, column: 9,
	},
	"season-start": {},
	"year-start":   {},
}

// The lines of a flight: what its marks are read against, then the rest.
var (
	flightSetup = []string{"contest", "sequence", "category", "aircraft", "rules", "ladder", "panel"}
	flightFacts = []string{
		"positioning", "harmony", "sheet", "penalty", "resolve", "official", "judge-totals", "place", "field",
		"fault", "reviewed", "closed", "void", "video", "note",
	}
)

// textKeys are the keywords behind which quoted text stands.
var textKeys = []string{"name", "club", "site", "aircraft", "note", "video", "void", "says", includeKey, "part-of"}

// styleSettings are the lines that only a rule style has.
var styleSettings = []string{"like", "hard-zero", "half", "fill-rounding", "drop-extremes"}

// blockKinds are the block keywords in the order in which they are offered.
var blockKinds = func() []string {
	kinds := []string{includeKey}
	for kind := range blockSpecs {
		kinds = append(kinds, kind)
	}
	slices.Sort(kinds)
	return kinds
}()

// takes reports whether a line that begins with this word belongs to the block.
func (s blockSpec) takes(word string) bool {
	return slices.Contains(s.keys, word) || (s.rows && isNumber(word))
}
