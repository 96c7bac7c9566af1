package entry

import (
	"cmp"
	"encoding/json"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"time"

	"boxbook/season/ledger"
)

// Left is a draft that waits beside a ledger: of which kind of entry, and when it was
// last typed in.
type Left struct {
	Kind  string
	Typed time.Time
	// Pilot, Date and Flight are what it says so far of whose entry it is, "" each where
	// it does not.
	Pilot, Date, Flight string
	// Aside says that it was set aside: it is gone on with by its file alone.
	Aside bool
}

// Drafts are those that `log` would offer to go on with, in the order of the kinds, and
// behind them those that were set aside. The ledger's folder is looked at once; where that
// cannot be, there are none.
func Drafts(ledgerPath string) []Left {
	files, err := os.ReadDir(filepath.Dir(ledgerPath))
	if err != nil {
		return nil
	}
	var left, aside []Left
	for _, k := range Kinds() {
		path := draftPath(ledgerPath, k.Name)
		for _, file := range files {
			if file.Name() == filepath.Base(path) {
				left = append(left, waiting(k.Name, path)...)
			}
		}
		for _, path := range behind(path, files) {
			if isFree(path) {
				aside = append(aside, waiting(k.Name, path)...)
			}
		}
	}
	for i := range aside {
		aside[i].Aside = true
	}
	return append(left, aside...)
}

// waiting is the draft that a file is, none where it is no file.
func waiting(kind, path string) []Left {
	info, err := os.Lstat(path)
	if err != nil || !info.Mode().IsRegular() {
		return nil
	}
	left, d := Left{Kind: kind, Typed: info.ModTime()}, draft{}
	if raw, err := (ledger.Disk{}).Read(path); err == nil && json.Unmarshal([]byte(raw), &d) == nil {
		says := func(field string) string { return cmp.Or(d.Answers[field], d.Given.One(field)) }
		left.Pilot, left.Date, left.Flight = says("pilot"), says("date"), says("flight")
	}
	return []Left{left}
}

// behind are those of a folder's files that have a draft's name and a number behind it, by
// their numbers.
func behind(draft string, files []os.DirEntry) []string {
	numbers := []int{}
	for _, file := range files {
		text, is := strings.CutPrefix(file.Name(), filepath.Base(draft)+".")
		if n, err := strconv.Atoi(text); is && err == nil && n > 0 && strconv.Itoa(n) == text {
			numbers = append(numbers, n)
		}
	}
	slices.Sort(numbers)
	var paths []string
	for _, n := range numbers {
		paths = append(paths, draft+"."+strconv.Itoa(n))
	}
	return paths
}

// isFree reports that no conversation goes on with a draft. Nothing is written to know it:
// without a lock beside it nobody does.
func isFree(path string) bool {
	if !ledger.Locked(path) {
		return true
	}
	letGo, free := claim(path)
	if free {
		letGo()
	}
	return free
}
