package lsp

import (
	"encoding/json"
	"flag"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/txtar"
	"github.com/stretchr/testify/require"
)

var update = flag.Bool("update", false, "write what the server answers into testdata/lsp")

// TestScripts plays testdata/lsp: each archive has the files of a ledger, a file
// `talk` with what an editor asks, a line a request, and `said` with the answers.
// A line is METHOD FILE, what is asked about in quotes with | at the cursor, and
// what else the method takes.
func TestScripts(t *testing.T) {
	scripts, err := filepath.Glob("../../../../testdata/lsp/*.txtar")
	require.NoError(t, err)
	require.NotEmpty(t, scripts)
	for _, script := range scripts {
		t.Run(strings.TrimSuffix(filepath.Base(script), ".txtar"), func(t *testing.T) { playScript(t, script) })
	}
}

func playScript(t *testing.T, script string) {
	archive, err := txtar.ParseFile(script)
	require.NoError(t, err)
	dir := t.TempDir()
	require.NoError(t, os.CopyFS(filepath.Join(dir, "demo"), os.DirFS("../../../../data/demo")))
	var talk string
	var said *txtar.File
	for i := range archive.Files {
		switch f := &archive.Files[i]; f.Name {
		case "talk":
			talk = string(f.Data)
		case "said":
			said = f
		default:
			path := filepath.Join(dir, f.Name)
			require.NoError(t, os.MkdirAll(filepath.Dir(path), 0o755))
			require.NoError(t, os.WriteFile(path, f.Data, 0o644))
		}
	}
	dir, err = filepath.EvalSymlinks(dir)
	require.NoError(t, err)
	p := &player{client: connect(t, dir, testOptions()), dir: dir, texts: map[string]string{}}
	for line := range strings.SplitSeq(strings.TrimSpace(talk), "\n") {
		if line != "" && line[0] != '#' {
			fmt.Fprintf(&p.out, "> %s\n", line)
			p.play(wordsOf(t, line))
		}
	}
	require.NoError(t, p.leave())
	if *update {
		if said == nil {
			archive.Files = append(archive.Files, txtar.File{Name: "said"})
			said = &archive.Files[len(archive.Files)-1]
		}
		said.Data = []byte(p.out.String())
		require.NoError(t, os.WriteFile(script, txtar.Format(archive), 0o644))
		return
	}
	require.NotNil(t, said, "-update writes the answers")
	require.Equal(t, string(said.Data), p.out.String())
}

// wordsOf splits a line of a script: words, and texts in single quotes.
func wordsOf(t *testing.T, line string) []string {
	t.Helper()
	var words []string
	for line = strings.TrimSpace(line); line != ""; line = strings.TrimSpace(line) {
		if line[0] == '\'' {
			text, rest, closed := strings.Cut(line[1:], "'")
			require.True(t, closed, line)
			words, line = append(words, strings.NewReplacer(`\n`, "\n", `\r`, "\r").Replace(text)), rest
			continue
		}
		word, rest, _ := strings.Cut(line, " ")
		words, line = append(words, word), rest
	}
	return words
}

// player plays a script.
type player struct {
	*client
	dir     string
	texts   map[string]string // open texts, by name
	version int
	out     strings.Builder
}

func (p *player) path(name string) string { return filepath.Join(p.dir, filepath.FromSlash(name)) }

// text is a file as the editor has it.
func (p *player) text(name string) string {
	if text, open := p.texts[name]; open {
		return text
	}
	raw, err := os.ReadFile(p.path(name))
	require.NoError(p.t, err)
	return string(raw)
}

// find is the place of a pattern's | in a text.
func (p *player) find(name, pattern string) position {
	text := p.text(name)
	before, after, _ := strings.Cut(pattern, "|")
	require.Equal(p.t, 1, strings.Count(text, before+after), "%s: %q", name, pattern)
	head := text[:strings.Index(text, before+after)+len(before)]
	line := strings.Count(head, "\n")
	head = head[strings.LastIndex(head, "\n")+1:]
	return position{line, toUnits(head, len(head))}
}

func (p *player) play(words []string) {
	name := words[1]
	path := p.path(name)
	here := func() map[string]any { return at(path, p.find(name, words[2])) }
	switch words[0] {
	case "open":
		p.texts[name] = p.text(name)
		p.open(path, p.texts[name])
		p.sayTold()
	case "change":
		require.Equal(p.t, 1, strings.Count(p.texts[name], words[2]), words[2])
		p.version++
		p.texts[name] = strings.Replace(p.texts[name], words[2], words[3], 1)
		p.change(path, p.texts[name], p.version)
		p.sayTold()
	case "close":
		delete(p.texts, name)
		p.notify("textDocument/didClose", of(path))
		p.sayTold()
	case "complete":
		for _, item := range ask[[]completionItem](p.client, "textDocument/completion", here()) {
			p.say("%s", strings.TrimSpace(item.Label+"  "+item.Detail))
			if item.TextEdit.NewText != item.Label {
				p.say("  put in as %q, %s", item.TextEdit.NewText, shown(item.TextEdit.Range))
			}
		}
	case "hover":
		h := ask[*hover](p.client, "textDocument/hover", here())
		if h == nil {
			p.say("nothing")
			return
		}
		p.say("%s", strings.ReplaceAll(h.Contents.Value, "\n\n", "\n"))
	case "define":
		p.sayPlaces(ask[[]location](p.client, "textDocument/definition", here()))
	case "references":
		params := here()
		params["context"] = map[string]any{"includeDeclaration": true}
		p.sayPlaces(ask[[]location](p.client, "textDocument/references", params))
	case "rename":
		params := here()
		params["newName"] = words[3]
		raw, err := p.call("textDocument/rename", params)
		if err != nil {
			p.say("%s", err)
			return
		}
		var edit workspaceEdit
		require.NoError(p.t, json.Unmarshal(raw, &edit))
		p.sayEdits(edit.Changes)
	case "format":
		p.sayEdits(map[string][]textEdit{uriOf(path): ask[[]textEdit](p.client, "textDocument/formatting", of(path))})
	case "fix":
		params, place := of(path), p.find(name, words[2])
		params["range"] = rng{place, place}
		for _, action := range ask[[]codeAction](p.client, "textDocument/codeAction", params) {
			p.say("%s", action.Title)
			p.sayEdits(action.Edit.Changes)
		}
	case "symbols":
		for _, s := range ask[[]documentSymbol](p.client, "textDocument/documentSymbol", of(path)) {
			p.say("%s %s (%d) %s", s.Detail, s.Name, s.Kind, shown(s.Range))
		}
	case "folds":
		for _, f := range ask[[]foldingRange](p.client, "textDocument/foldingRange", of(path)) {
			p.say("%d-%d", f.StartLine+1, f.EndLine+1)
		}
	case "hints":
		params := of(path)
		params["range"] = rng{position{0, 0}, position{100_000, 0}}
		for _, h := range ask[[]inlayHint](p.client, "textDocument/inlayHint", params) {
			p.say("%d:%d %s", h.Position.Line+1, h.Position.Character+1, h.Label)
		}
	default:
		require.Fail(p.t, "no such method", words[0])
	}
}

func (p *player) say(format string, args ...any) {
	fmt.Fprintln(&p.out, strings.TrimRight(fmt.Sprintf(format, args...), " "))
}

// shown is a range as people count, from 1.
func shown(r rng) string {
	return fmt.Sprintf("%d:%d-%d:%d", r.Start.Line+1, r.Start.Character+1, r.End.Line+1, r.End.Character+1)
}

// name is a URI's file in the script.
func (p *player) name(uri string) string {
	path, ok := pathOf(uri)
	require.True(p.t, ok, uri)
	rel, err := filepath.Rel(p.dir, path)
	require.NoError(p.t, err)
	return filepath.ToSlash(rel)
}

// sayTold waits until a change was answered, and says the diagnostics told.
func (p *player) sayTold() {
	clear(p.told)
	_, err := p.call("textDocument/foldingRange", of(p.dir))
	require.NoError(p.t, err)
	for _, uri := range slices.Sorted(maps.Keys(p.told)) {
		list := p.told[uri].Diagnostics
		if len(list) == 0 {
			p.say("%s: nothing", p.name(uri))
		}
		for _, d := range list {
			p.say("%s:%s %s (%d): %s", p.name(uri), shown(d.Range), d.Code, d.Severity, strings.ReplaceAll(d.Message, "\n", "; "))
		}
	}
}

func (p *player) sayPlaces(places []location) {
	if len(places) == 0 {
		p.say("nowhere")
	}
	for _, l := range places {
		p.say("%s:%s", p.name(l.URI), shown(l.Range))
	}
}

func (p *player) sayEdits(edits map[string][]textEdit) {
	for _, uri := range slices.Sorted(maps.Keys(edits)) {
		if len(edits[uri]) == 0 {
			p.say("%s: nothing", p.name(uri))
		}
		for _, e := range edits[uri] {
			p.say("%s:%s %q", p.name(uri), shown(e.Range), e.NewText)
		}
	}
}
