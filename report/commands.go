package report

import (
	"regexp"
	"sync"
)

// suggested is a command that a page suggests: its name, then its words.
var suggested = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`boxbook ([a-z]+)(?: [^\s;,]+)*`) })

// RewriteCommands puts what rewrite gives in place of each whole command, such as
// "boxbook season ines --all", that the document's suggestions name.
func (d Document) RewriteCommands(rewrite func(command string) string) {
	for _, section := range d.Sections {
		for _, block := range section.Blocks {
			if p, ok := block.(*Paragraph); ok && p.Command {
				p.Text = suggested().ReplaceAllStringFunc(p.Text, rewrite)
			}
		}
	}
}
