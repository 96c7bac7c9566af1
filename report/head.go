package report

import (
	"encoding/json"
	"slices"
	"strings"
)

// Head says what a document rests on. Every writer writes it; a document whose
// Head is the zero value has none.
type Head struct {
	// Program and Version are what made the document, AsOf the day that counted
	// as today (YYYY-MM-DD), Ledger the file as the person named it.
	Program, Version, AsOf, Ledger string
	// Chosen is what was asked about, in the order in which it is said.
	Chosen []Choice
}

// Choice is one thing that was chosen.
type Choice struct {
	// Key and Value are what programs read: a name and a text or a whole number.
	// A choice without a Key is for people alone.
	Key   string
	Value any
	// Words are what people read; a choice without is for programs alone.
	Words string
}

// None reports whether there is no head.
func (h Head) None() bool { return h.Program == "" }

// Words say what was chosen, the choices of some keys left out: "Ines Halloran,
// season 2026"; "" where nothing was.
func (h Head) Words(without ...string) string {
	var words []string
	for _, c := range h.Chosen {
		if c.Words != "" && !slices.Contains(without, c.Key) {
			words = append(words, c.Words)
		}
	}
	return strings.Join(words, ", ")
}

// Imprint says what made the document, and as of when.
func (h Head) Imprint() string {
	words := strings.TrimSpace(h.Program + " " + h.Version)
	if h.AsOf != "" {
		words += ", as of " + h.AsOf
	}
	return words
}

// Line is the whole head for people, "" where there is none.
func (h Head) Line() string {
	if h.None() {
		return ""
	}
	if words := h.Words(); words != "" {
		return words + " · " + h.Imprint()
	}
	return h.Imprint()
}

// MarshalJSON writes version, asof, ledger and the selection, its keys in the
// order of the choices.
func (h Head) MarshalJSON() ([]byte, error) {
	selection := []byte("{")
	for _, c := range h.Chosen {
		if c.Key == "" {
			continue
		}
		key, err := json.Marshal(c.Key)
		if err != nil {
			return nil, err
		}
		value, err := plainJSON(c.Value)
		if err != nil {
			return nil, err
		}
		if len(selection) > 1 {
			selection = append(selection, ',')
		}
		selection = append(append(append(selection, key...), ':'), value...)
	}
	return plainJSON(struct {
		Version   string          `json:"version"`
		AsOf      string          `json:"asof"`
		Ledger    string          `json:"ledger"`
		Selection json.RawMessage `json:"selection"`
	}{h.Version, h.AsOf, h.Ledger, append(selection, '}')})
}
