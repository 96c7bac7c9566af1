package entry

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"boxbook/report/display"
	"boxbook/season"
)

// FromFlags makes the addition that flags give whole, and gives the answers that are in
// it: as they were read, with what they imply. The error is a *Refusal where the flags
// do not, or one of the host's.
func FromFlags(k *Kind, given Answers, host Host) (Addition, Answers, error) {
	result, err := host.Read()
	if err != nil {
		return Addition{}, nil, err
	}
	given = k.onlyOnes(given, result.Ledger)
	if missing := k.missing(given); len(missing) > 0 {
		return Addition{}, nil, k.refuse(missing)
	}
	given, missing := k.imply(given, result.Ledger, host)
	if len(missing) > 0 {
		return Addition{}, nil, k.refuse(missing)
	}
	if given, err = k.Read(given, result.Ledger); err != nil {
		return Addition{}, nil, err
	}
	add, err := k.Write(k.sceneOf(given, result.Ledger, host))
	return add, given, err
}

// refuse says which flags are missing.
func (k *Kind) refuse(missing []string) error {
	return &Refusal{
		"missing: --" + strings.Join(missing, ", --"), "at a terminal they are asked for; see boxbook log " + k.Name + " --help",
	}
}

// onlyOnes adds what was not given and can only be one in a ledger, its pilot.
func (k *Kind) onlyOnes(given Answers, l *season.Ledger) Answers {
	all := maps.Clone(given)
	for _, f := range k.Fields {
		if f.Only == nil || given.Has(f.Name) {
			continue
		}
		if answer := f.Only(l); answer != "" {
			all[f.Name] = []string{answer}
		}
	}
	return all
}

// imply adds what others imply and names what they do not.
func (k *Kind) imply(given Answers, l *season.Ledger, host Host) (all Answers, missing []string) {
	all = maps.Clone(given)
	for _, f := range k.Fields {
		if f.Implied == nil || given.Has(f.Name) || !given.Has(f.ImpliedBy) {
			continue
		}
		if answer := f.Implied(k.sceneOf(given, l, host)); answer != "" {
			all[f.Name] = []string{answer}
		} else {
			missing = append(missing, f.Name)
		}
	}
	return all, missing
}

// Meant gives flags' values as they can only be meant, where they are written
// otherwise, and says what each was taken for.
func (k *Kind) Meant(given Answers) (meant Answers, said []string) {
	meant = maps.Clone(given)
	for _, f := range k.Fields {
		if f.Meant == nil {
			continue
		}
		meant[f.Name] = slices.Clone(given[f.Name])
		for i, value := range meant[f.Name] {
			text := f.Meant(strings.TrimSpace(value))
			if meant[f.Name][i] = text; text != strings.TrimSpace(value) {
				said = append(said, fmt.Sprintf("--%s %s: taken as %s", f.Name, display.OneLine(value), text))
			}
		}
	}
	return meant, said
}

// Read reads flags' values as a person's answers are read. The error is a
// *Refusal.
func (k *Kind) Read(given Answers, l *season.Ledger) (Answers, error) {
	read := Answers{}
	for _, f := range k.Fields {
		for _, value := range given[f.Name] {
			if strings.TrimSpace(value) == "" && f.Lines == nil {
				continue // nothing was said
			}
			answer, problem := f.read(value, l)
			if problem != "" {
				return nil, &Refusal{Text: "--" + f.Name + ": " + problem}
			}
			read[f.Name] = append(read[f.Name], answer)
		}
	}
	return read, nil
}

// sceneOf is the scene of what flags gave alone.
func (k *Kind) sceneOf(given Answers, l *season.Ledger, host Host) Scene {
	s := Scene{Answers: Answers{}, Ledger: l, Given: given, host: host}
	maps.Copy(s.Answers, k.Fixed)
	maps.Copy(s.Answers, given)
	return s
}

// Check says what is wrong with the way flags were given: twice what stands
// once, or what does not go together. The error is a *Refusal.
func (k *Kind) Check(given Answers) error {
	for _, f := range k.Fields {
		if len(given[f.Name]) > 1 && !f.Repeat {
			return &Refusal{Text: "--" + f.Name + " is given twice, and it can stand only once"}
		}
	}
	if k.Conflict != nil {
		if problem := k.Conflict(given); problem != "" {
			return &Refusal{Text: problem}
		}
	}
	return nil
}

// FlagOf is the flag whose value has words of a line that was written from flags; ""
// where it is none or may be several, unless the line begins with one's name.
func (k *Kind) FlagOf(given Answers, line, words string) string {
	found := []string(nil)
	begins, _, _ := strings.Cut(strings.TrimSpace(line), " ")
	for _, f := range k.Fields {
		switch {
		case !slices.ContainsFunc(given[f.Name], func(value string) bool { return hasWords(value, words) }):
		case f.Name == begins:
			return f.Name
		default:
			found = append(found, f.Name)
		}
	}
	switch {
	case len(found) == 1:
		return found[0]
	case len(found) == 0 && k.field(begins) != nil && given.Has(begins):
		return begins
	default:
		return ""
	}
}

// hasWords reports whether words stand in a text one behind the other.
func hasWords(text, words string) bool {
	in := func(text string) string {
		return " " + strings.Join(strings.Fields(strings.ReplaceAll(text, `"`, " ")), " ") + " "
	}
	return strings.TrimSpace(in(words)) != "" && strings.Contains(in(text), in(words))
}

// missing names the fields that are needed and were not given, nor can be implied.
func (k *Kind) missing(given Answers) []string {
	var names []string
	for _, f := range k.Fields {
		if !f.Optional && !f.NoFlag && f.Lines == nil && !given.Has(f.Name) && !given.Has(f.ImpliedBy) {
			names = append(names, f.Name)
		}
	}
	return names
}

// keyedValue is the value that begins with a line's key, without it.
func keyedValue(values []string, key string) (string, bool) {
	for _, value := range values {
		if first, rest, _ := strings.Cut(strings.TrimSpace(value), " "); first == key {
			return strings.TrimSpace(rest), true
		}
	}
	return "", false
}

// unplaced refuses a flag's values for which there is no line: none of them is
// dropped without a word.
func unplaced(st step, lines []Line) error {
	values, f := st.scene.Given[st.field.Name], st.field
	if !f.Keyed {
		if len(values) > len(lines) {
			return &Refusal{Text: fmt.Sprintf("--%s is given %d times, and there %s for it", f.Name, len(values), display.Plural(len(lines), "is 1 line", fmt.Sprintf("are %d lines", len(lines))))}
		}
		return nil
	}
	keys := namesOf(lines, func(l Line) string { return l.Key })
	seen := map[string]bool{}
	for _, value := range values {
		first, _, _ := strings.Cut(strings.TrimSpace(value), " ")
		if !slices.Contains(keys, first) || seen[first] {
			return &Refusal{Text: fmt.Sprintf("--%s %q is for none of %s", f.Name, value, strings.Join(keys, ", "))}
		}
		seen[first] = true
	}
	return nil
}
