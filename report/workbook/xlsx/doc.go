// Package xlsx writes spreadsheet files: it is where the library for them is
// known, with all its corners. A Book holds sheets; a sheet's cells wait in a grid
// and are written row by row, each formula with the value that it comes to beside
// it, so that a reader that does not calculate shows the same numbers.
//
// Tables are laid out before anything is written, and formulas, charts and lines
// in cells name columns by key, never by heading: {key}, {from:to}, {Table.key}.
// What the library leaves out of a file or gets wrong is put right when its parts
// are packed (charts' values and intervals, lines in cells), and the parts stand
// in one order and are dated alike, so that the same cells give the same bytes.
//
// The package knows nothing of flying.
package xlsx
