package words

import (
	"fmt"

	"boxbook/report/answers"
)

// Program says which program this is, in two lines.
func Program(p answers.Program) string {
	from := "revision not known"
	if p.Revision != "" {
		from = "revision " + p.Revision
	}
	if p.Date != "" {
		from += " of " + p.Date
	}
	if p.Changed {
		from += ", changed since"
	}
	return fmt.Sprintf("boxbook %s for %s (%s)\n%s\n", p.Version, p.System, p.Toolchain, from)
}
