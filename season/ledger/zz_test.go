package ledger

import (
	"fmt"
	"regexp"
	"strings"
	"testing"
)

var posRe = regexp.MustCompile(`(?m)^((?:[^\s:]+:)?\d+:\d+: (?:error|warning)).*$`)

func TestZZ(t *testing.T) {
	for _, name := range caseFiles[2:] {
		for _, c := range readCases(t, casePath(name)) {
			_, got := c.diagnose(t)
			if got == c.want {
				continue
			}
			p := func(s string) string {
				var out []string
				for _, m := range posRe.FindAllStringSubmatch(s, -1) {
					out = append(out, m[1])
				}
				return strings.Join(out, "|")
			}
			mark := "WORDS"
			if p(got) != p(c.want) {
				mark = "PLACE"
			}
			fmt.Printf("#%s %s / %s\n%s\n- %s\n+ %s\n", mark, name, c.name, c.rule, strings.ReplaceAll(c.want, "\n", "\n  "), strings.ReplaceAll(got, "\n", "\n  "))
		}
	}
}
