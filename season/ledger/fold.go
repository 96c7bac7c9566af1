package ledger

import (
	"fmt"

	"boxbook/report/display"
)

// root is what one slip is known by wherever it shows: diagnostics of one root are
// one message with a count. No root folds nothing.
type root struct {
	code Code
	of   any    // the panel, the sequence, or the sort of name
	what string // the name, or what the lines have instead
}

// rooted says that a diagnostic shows a slip that may show on other lines too.
func (d *Diagnostic) rooted(of any, what string) *Diagnostic {
	d.root = &root{d.Code, of, what}
	return d
}

// foldList keeps the first of the diagnostics that one slip gives and says on how
// many more lines it shows. An edit that mends it is made on all of those that
// stand in its file.
func foldList(list List) List {
	first := map[root]int{}
	var more []int
	kept := list[:0]
	for _, d := range list {
		if d.root == nil {
			kept, more = append(kept, d), append(more, 0)
			continue
		}
		i, known := first[*d.root]
		if !known {
			first[*d.root] = len(kept)
			kept, more = append(kept, d), append(more, 0)
			continue
		}
		if kept[i].Line != d.Line || kept[i].order != d.order {
			more[i]++
			with := kept[i].besides()
			with.alike = append(with.alike, d)
		}
		if kept[i].order == d.order && len(kept[i].Fixes) > 0 {
			kept[i].Fixes = append(kept[i].Fixes, d.Fixes...)
		}
	}
	for i, n := range more {
		if n > 0 {
			kept[i].Message += fmt.Sprintf(" (and on %s)", display.Counted(n, "more line", "more lines"))
		}
	}
	return kept
}
