package entry

import (
	"cmp"
	"fmt"
	"path/filepath"
	"strings"

	"boxbook/report/display"
)

// own has the draft's name for this conversation alone. Where another one that is
// under way has it, this one has a draft of its own.
func (t *Talk) own() error {
	path := cmp.Or(t.from, t.draft.path)
	letGo, free := claim(path)
	switch {
	case free:
		t.letGo = letGo
	case t.from != "":
		return &Refusal{Text: fmt.Sprintf("another boxbook log %s is going on with %s", t.kind.Name, display.OneLine(path))}
	default:
		t.apart = true
		t.draft.path, t.letGo = freeBehind(path)
		t.term.say("another boxbook log %s is under way here and has the draft; the draft of", t.kind.Name)
		t.term.say("this one is %s", display.OneLine(filepath.ToSlash(t.draft.path)))
	}
	return nil
}

// takeUp offers the draft that is there. One that cannot be understood is set
// aside.
func (t *Talk) takeUp(given Answers) error {
	if err := t.own(); err != nil || t.apart {
		return err
	}
	if t.from != "" {
		old, err := draftAside(t.from, t.kind.Name)
		if err == nil {
			t.draft = old
			t.term.say("the draft: %s", t.summary(old))
		}
		return err
	}
	t.nameAsides()
	old, ok, err := readDraft(t.path, t.kind.Name)
	switch {
	case err != nil || old == nil:
		return err
	case ok:
		return t.offer(old, given)
	default:
		t.term.say("there is a draft that cannot be read")
		_, err := t.setAside(old)
		return err
	}
}

// nameAsides says how drafts that were set aside are taken up, since nothing else shows
// them.
func (t *Talk) nameAsides() {
	found := asides(t.draft.path)
	if len(found) == 0 {
		return
	}
	said, which := "a draft was set aside", "it is"
	if len(found) > 1 {
		said, which = fmt.Sprintf("%d drafts were set aside", len(found)), "the last is"
	}
	t.term.say("%s; %s taken up by:", said, which)
	t.term.whole("    boxbook log " + t.kind.Name + " --draft " + display.ShellWord(filepath.ToSlash(found[len(found)-1])))
	t.term.say("  (delete the file where it is not wanted any more)")
}

// setAside keeps a draft that is not gone on with, and says where.
func (t *Talk) setAside(old *draft) (path string, err error) {
	path, err = old.setAside()
	if err == nil {
		t.term.say("the draft is set aside as %s", display.OneLine(filepath.ToSlash(path)))
	}
	return path, err
}

// offer asks whether to go on with a draft. Enter goes on with it, unless flags say
// that another entry is meant.
func (t *Talk) offer(old *draft, given Answers) error {
	t.term.say("there is a draft: %s", t.summary(old))
	question, otherwise := "continue with it? (yes, no) [yes]: ", true
	if name, value := t.meansAnother(old, given); name != "" {
		question, otherwise = "continue with it? (yes, no) [no]: ", false
		t.term.say("  it is of another entry: --%s says %s", name, display.OneLine(value))
	}
	for {
		answer, err := t.term.read(question, "", false)
		if err != nil {
			return err
		}
		yes, ok := yesNo(answer)
		switch {
		case yes, answer == "" && otherwise:
			t.draft = old
			return nil
		case answer == "", ok && strings.HasPrefix("no", strings.ToLower(answer)):
			path, err := t.setAside(old)
			if err == nil {
				t.term.say("  taken up again by:")
				t.term.whole("    boxbook log " + t.kind.Name + " --draft " + display.ShellWord(filepath.ToSlash(path)))
				t.term.say("  (delete the file where it is not wanted any more)")
			}
			return err
		}
		t.term.say("  yes continues with it, no sets it aside")
	}
}

// meansAnother is a flag that says otherwise what a draft says of the entry that it is,
// its day or its pilot, and what it says; "" where none does.
func (t *Talk) meansAnother(old *draft, given Answers) (name, value string) {
	for _, f := range t.kind.Fields {
		value, was := strings.TrimSpace(given.One(f.Name)), cmp.Or(old.Answers[f.Name], old.Given.One(f.Name))
		if f.Optional || f.NoFlag || f.Lines != nil || value == "" || was == "" {
			continue
		}
		if meant := t.meant(f, value); meant != t.meant(f, was) {
			return f.Name, meant
		}
	}
	return "", ""
}

// meant is a flag's value as it would be kept, as far as it can be said without the
// answers before it.
func (t *Talk) meant(f Field, value string) string {
	if f.Meant != nil {
		value = f.Meant(value)
	}
	if value = handleOf(f.Name, value, t.base); f.Propose != nil && !f.Open {
		if name, ok := choose(value, f.Propose(t.base)); ok {
			return name
		}
	}
	if f.Full != nil {
		if full, err := f.Full(Scene{Ledger: t.base, host: t.host}, value); err == nil {
			return full
		}
	}
	return value
}

// summary says what a draft is about: what is needed first, and how far its
// rows have come.
func (t *Talk) summary(d *draft) string {
	var words []string
	rows, lines := 0, false
	for _, f := range t.kind.Fields {
		if answer := cmp.Or(d.Answers[f.Name], d.Given.One(f.Name)); !f.Optional && !f.NoFlag && f.Lines == nil && answer != "" {
			words = append(words, answer)
		}
		if f.Lines != nil {
			rows += d.rows(f.Name)
			lines = true
		}
	}
	text := cmp.Or(strings.Join(words, " "), fmt.Sprintf("answers so far: %d", len(d.Answers)))
	switch {
	case !lines:
		return text
	case rows == 1:
		return text + ", 1 row"
	case rows == 0:
		return text + ", no rows"
	default:
		return fmt.Sprintf("%s, %d rows", text, rows)
	}
}
