package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"path/filepath"

	"github.com/google/renameio/v2/maybe"
)

// draft is a conversation under way: what was answered so far, kept in a file
// beside the ledger after every answer, so that an interruption loses nothing.
type draft struct {
	Kind string `json:"kind"`
	// Answers by question; a question that is here is not asked again.
	Answers map[string]string `json:"answers"`
	// Given are the flags' values of what can be said several times, and of
	// what is not asked for.
	Given map[string][]string `json:"given,omitempty"`
	// Blocks are what the flight needed and the ledger lacked.
	Blocks []string `json:"blocks"`
	// Typing is the line under the cursor when the conversation stopped.
	Typing string `json:"typing,omitempty"`

	path string
}

// draftPath is where a ledger's draft of one kind of entry is kept.
func draftPath(ledgerPath, kind string) string {
	return filepath.Join(filepath.Dir(ledgerPath), "."+filepath.Base(ledgerPath)+"."+kind+".draft")
}

// readDraft reads the draft of a ledger; nil where there is none, or none that
// can be read.
func readDraft(ledgerPath, kind string) (*draft, error) {
	path := draftPath(ledgerPath, kind)
	raw, err := os.ReadFile(path)
	if errors.Is(err, os.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, &fileError{"read " + path, err}
	}
	d := newDraft(ledgerPath, kind)
	if err := json.Unmarshal(raw, d); err != nil || d.Answers == nil {
		return nil, nil
	}
	return d, nil
}

func newDraft(ledgerPath, kind string) *draft {
	return &draft{Kind: kind, Answers: map[string]string{}, Given: map[string][]string{}, path: draftPath(ledgerPath, kind)}
}

// save keeps the draft.
func (d *draft) save() error {
	raw, err := json.MarshalIndent(d, "", "  ")
	if err != nil {
		return err
	}
	if err := maybe.WriteFile(d.path, append(raw, '\n'), 0o600); err != nil {
		return &fileError{"keep the draft " + d.path, err}
	}
	return nil
}

// setAside keeps the draft under a name that no conversation uses, and gives
// that name.
func (d *draft) setAside() (string, error) {
	for n := 1; ; n++ {
		path := fmt.Sprintf("%s.%d", d.path, n)
		if _, err := os.Lstat(path); err == nil {
			continue
		}
		if err := os.Rename(d.path, path); err != nil {
			return "", &fileError{"set the draft aside as " + path, err}
		}
		return path, nil
	}
}

// remove forgets the draft.
func (d *draft) remove() error {
	if err := os.Remove(d.path); err != nil && !errors.Is(err, os.ErrNotExist) {
		return &fileError{"remove the draft " + d.path, err}
	}
	return nil
}
