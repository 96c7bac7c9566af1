// Package data holds what the program ships, as ledger text: ladders, rule
// styles, fault kinds and the readiness policy under builtin, the ledger that
// `boxbook start` writes, and the demo.
package data

import (
	"embed"
	"io/fs"
)

//go:embed builtin/*.boxbook
var builtin embed.FS

//go:embed demo
var demo embed.FS

// Template is the ledger that `boxbook start` writes.
//
//go:embed template.boxbook
var Template string

// Builtin gives the shipped definitions, one ledger file each.
func Builtin() fs.FS { return sub(builtin, "builtin") }

// Demo gives the demo's ledger files.
func Demo() fs.FS { return sub(demo, "demo") }

// sub cannot fail: the folders are part of the program.
func sub(files embed.FS, folder string) fs.FS {
	inner, err := fs.Sub(files, folder)
	if err != nil {
		panic(err)
	}
	return inner
}

// Methods is the help page on how things are worked out.
//
//go:embed help/methods.txt
var Methods string

// Language is the help page on the ledger language, itself a ledger.
//
//go:embed help/language.boxbook
var Language string

// Specification is the help page on the whole of the ledger language; its tables
// are filled in by report/words.
//
//go:embed help/specification.txt
var Specification string

// Changes is the help page on what changed for users, a part a version, the
// newest first.
//
//go:embed help/changes.txt
var Changes string

// Money is the help page on the club's money, from paper to the page of the year.
//
//go:embed help/money.txt
var Money string

// Editors is the help page on boxbook in an editor.
//
//go:embed help/editors.txt
var Editors string

// Sources is the help page on what the numbers rest on; its lists are filled in
// by report/words.
//
//go:embed help/sources.txt
var Sources string

// Kinds are the help pages on the kinds of diagnostic: behind a line "=== CODE"
// each one's. They are made from the cases of the diagnostics, by
// `go test ./season/ledger -run TestHelpOfKinds -update`.
//
//go:embed help/kinds.txt
var Kinds string

//go:embed syntax/boxbook.vim
var vimSyntax string

//go:embed syntax/boxbook.tmLanguage.json
var textmateSyntax string

// SyntaxNames are the editors for which a syntax file is shipped.
func SyntaxNames() []string { return []string{"vim", "textmate"} }

// Syntax is the file with which an editor colours ledgers.
func Syntax(name string) (string, bool) {
	text, ok := map[string]string{"vim": vimSyntax, "textmate": textmateSyntax}[name]
	return text, ok
}
