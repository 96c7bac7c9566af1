package display

import (
	"regexp"
	"strings"
	"sync"
)

// ShellWord is a text as one word of a shell's command line, in single quotes where a
// shell would read anything of it otherwise.
func ShellWord(text string) string {
	if text = OneLine(text); plainWord().MatchString(text) {
		return text
	}
	return "'" + strings.ReplaceAll(text, "'", `'\''`) + "'"
}

var plainWord = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`^[\pL\pN._/:+-]+$`) })
