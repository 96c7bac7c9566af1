package entry

import (
	"os"
	"path/filepath"
	"time"
)

// Left is a draft that waits beside a ledger: of which kind of entry, and when it was
// last typed in.
type Left struct {
	Kind  string
	Typed time.Time
}

// Drafts are those that `log` would offer to go on with, in the order of the kinds. The
// ledger's folder is looked at once; where that cannot be, there are none.
func Drafts(ledgerPath string) []Left {
	files, err := os.ReadDir(filepath.Dir(ledgerPath))
	if err != nil {
		return nil
	}
	found := map[string]os.DirEntry{}
	for _, file := range files {
		if filepath.Ext(file.Name()) == draftSuffix {
			found[file.Name()] = file
		}
	}
	if len(found) == 0 {
		return nil
	}
	var left []Left
	for _, k := range Kinds() {
		file := found[filepath.Base(draftPath(ledgerPath, k.Name))]
		if file == nil {
			continue
		}
		if info, err := file.Info(); err == nil && info.Mode().IsRegular() {
			left = append(left, Left{k.Name, info.ModTime()})
		}
	}
	return left
}
