// Package early runs a command line before the rest of the program starts. The
// library that writes workbooks, and what it is made of, take a third of the
// time in which boxbook starts, in every process that links them; the language
// starts packages one at a time, always the first by import path of those whose
// own imports have started (The Go Programming Language Specification, "Program
// initialization"), and boxbook stands before golang.org, gonum.org and what
// github.com has after it. Where that order should ever be another, the command
// line is only run later.
package early

import "boxbook/cmd/boxbook/internal/commands"

func init() { commands.RunEarly() }
