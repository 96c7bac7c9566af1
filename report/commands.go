package report

import (
	"regexp"
	"slices"
	"strings"
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

// A command to run is told from one that a sentence only names by where it stands: at
// the beginning of a text, between backquotes, behind a colon or one of the words
// below, and behind another one that does, after a semicolon, a comma or "or". It goes
// on to the next of these signs, or to the full stop of its sentence. "but boxbook log
// asks" is none; that "boxbook log asks" at a beginning is none either is for whoever
// rewrites to see, who knows the commands.
const (
	piecesOfWord  = `\\.|'[^']*'|"[^"]*"|:[^\s;,)?'"` + "`" + `]`
	wordOfCommand = `(?: (?:` + piecesOfWord + `|[^\s;,:)?'"` + "`" + `])*(?:` + piecesOfWord + `|[^\s;,:)?'"` + "`" + `.]))`
	commandToRun  = `boxbook` + wordOfCommand + `+`
)

var (
	toRun = sync.OnceValue(func() *regexp.Regexp {
		return regexp.MustCompile("(?:^\\s*|: |`|\\b(?:see|did you mean|is|are|are in) )" + commandToRun + "(?:[;,] " + commandToRun + ")*")
	})
	// another begins the next command of a row: a word of the one before may be "or".
	another = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`(?:[;,]| or) boxbook `) })
)

// program begins every command.
const program = "boxbook "

// RewriteToRun puts what rewrite gives in place of each command to run in a text, such
// as "boxbook season ines --all".
func RewriteToRun(text string, rewrite func(command string) string) string {
	if !strings.Contains(text, program) {
		return text
	}
	return toRun().ReplaceAllStringFunc(text, func(row string) string {
		var b strings.Builder
		at := strings.Index(row, program)
		b.WriteString(row[:at])
		for _, next := range append(another().FindAllStringIndex(row, -1), []int{len(row), len(row)}) {
			command := row[at:next[0]]
			b.WriteString(rewrite(command) + row[at+len(command):next[0]])
			if at = next[1] - len(program); at > next[0] {
				b.WriteString(row[next[0]:at])
			}
		}
		return b.String()
	})
}

// runnable is the document with its commands to run as the reader may paste them, in
// paragraphs, facts and notes; nil: as they stand.
func (d Document) runnable(command func(string) string) Document {
	if command != nil {
		d.Sections = runnableSections(d.Sections, command)
	}
	return d
}

func runnableSections(sections []Section, command func(string) string) []Section {
	out := slices.Clone(sections)
	for i := range out {
		s := &out[i]
		s.Parts, s.Blocks = runnableSections(s.Parts, command), slices.Clone(s.Blocks)
		for j, block := range s.Blocks {
			s.Blocks[j] = runnableBlock(block, command)
		}
	}
	return out
}

func runnableBlock(block Block, command func(string) string) Block {
	switch b := block.(type) {
	case *Paragraph:
		lines := strings.Split(b.Text, "\n")
		for i := range lines {
			lines[i] = RewriteToRun(lines[i], command)
		}
		p := *b
		p.Text = strings.Join(lines, "\n")
		return &p
	case *Facts:
		f := *b
		f.Items = slices.Clone(f.Items)
		for i := range f.Items {
			f.Items[i].Value.text = RewriteToRun(f.Items[i].Value.text, command)
		}
		return &f
	case *Notes:
		n := *b
		n.Items = slices.Clone(n.Items)
		for i := range n.Items {
			n.Items[i].Text = RewriteToRun(n.Items[i].Text, command)
		}
		return &n
	default:
		return block
	}
}

// held stands for a blank within a command that is kept on one line. No text has it:
// what is printable has no such character.
const held = "\uFDD0"

// commands are a printable text with its commands to run as the reader may paste them,
// each on one line.
func (t *textWriter) commands(text string) string {
	return RewriteToRun(text, func(command string) string {
		if t.command != nil {
			command = t.command(command)
		}
		return strings.ReplaceAll(command, " ", held)
	})
}
