package ledger

import (
	"io/fs"
	"maps"
	"slices"

	"boxbook/scoring"
	"boxbook/season"
)

// Specification is what the page on the whole of the language takes from the
// tables with which ledgers are read.
type Specification struct {
	Version                   int
	LineKiB, FileMiB, Include int // the most of a line, of a file, of included files
	CurlyQuotes               string
	Blocks                    []KeywordSpec // by keyword
	Programmes, Penalties     []string
	Marks, Groups, Units      []string
	HardZero, Half            []string
	FillRounding, YesNo       []string
	Policy                    []PolicySpec
	Kinds                     []Kind // of diagnostics
	Shipped                   *season.Ledger
}

// KeywordSpec is a keyword of the language with the lines of its block.
type KeywordSpec struct {
	Keyword string
	Keys    []string
	Repeats []string // those of them that may stand more than once
	Rows    bool     // a number may begin a line
	Include bool     // it reads another file in and begins no block
}

// PolicySpec is a key of a policy: how it is written and what off does to it.
type PolicySpec struct {
	Form  string
	Other string // another name of the key, "" for none
	// Drops says that off drops a gate, Only that nothing else can be typed; else
	// off changes nothing.
	Drops, Only bool
}

// Specify gives the tables of the language, and what builtin defines. The error
// is for shipped text that cannot be read.
func Specify(builtin fs.FS) (Specification, error) {
	shipped, err := Load(Options{Files: Memory{"none": ""}, Main: "none", Builtin: builtin})
	if err != nil {
		return Specification{}, err
	}
	return Specification{
		Version: Language, LineKiB: maxLine >> 10, FileMiB: maxFile >> 20, Include: maxIncludes, CurlyQuotes: curlyQuotes,
		Blocks: keywordSpecs(), Programmes: programmeWords(true), Penalties: penaltyWords(), Marks: markNames(),
		Groups: season.Groups, Units: units, HardZero: scoring.HardZeroWords, Half: scoring.HalfWords,
		FillRounding: scoring.FillRoundingWords, YesNo: yesOrNo, Policy: policySpecs(), Kinds: Kinds(), Shipped: shipped.Ledger,
	}, nil
}

func keywordSpecs() []KeywordSpec {
	var all []KeywordSpec
	for _, kind := range blockKinds {
		spec := blockSpecs[kind]
		all = append(all, KeywordSpec{kind, spec.keys, spec.repeats, spec.rows, kind == includeKey})
	}
	return all
}

// markNames are the marks in letters, and - last.
func markNames() []string {
	names := slices.Sorted(maps.Keys(markWords))
	return append(slices.DeleteFunc(names, func(n string) bool { return n == "-" }), "-")
}

func policySpecs() []PolicySpec {
	var all []PolicySpec
	for _, shape := range policyShapes {
		spec := PolicySpec{Form: shape.form, Drops: shape.off == dropsGate, Only: shape.off == onlyOff}
		if sameKey(openMatters) == shape.key {
			spec.Other = openMatters
		}
		all = append(all, spec)
	}
	return all
}
