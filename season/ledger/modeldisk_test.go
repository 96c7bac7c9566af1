package ledger

import (
	"fmt"
	"io/fs"
	"maps"
	"path/filepath"
	"slices"
	"strings"
	"time"
)

// modelDisk is a file system of one folder in memory that knows what a power cut
// can take. What was written is on the disk once its file was synced, what a name
// stands for once the folder was; until then each step may have reached the disk
// or not, on its own, and a write in part. This is what POSIX promises and no
// more: real file systems lose less.
type modelDisk struct {
	now     map[string]*node // what each name stands for
	durable map[string]*node // what of that is on the disk for certain
	pending []nameStep       // what is not
	watch   func(*modelDisk) // called after each step; nil for nobody
	deaf    int              // the number of the sync that does nothing, 0 for none
	syncs   int
	said    map[string]bool // files whose change was said to be made
	renames bool            // files cannot change places
}

// node is a file.
type node struct {
	synced string
	writes []string // since the last sync, each behind the one before
	mode   fs.FileMode
	time   time.Time
}

func (n *node) text() string { return n.synced + strings.Join(n.writes, "") }

// nameStep is a change of names that may not have reached the disk: what each name
// stands for after it; nil for nothing.
type nameStep map[string]*node

// state is what a power cut leaves: texts by name.
type state map[string]string

func newModelDisk(files map[string]string) *modelDisk {
	d := &modelDisk{now: map[string]*node{}, durable: map[string]*node{}, said: map[string]bool{}}
	for name, text := range files {
		d.now[name] = &node{synced: text, mode: 0o644, time: time.Unix(1, 0)}
		d.durable[name] = d.now[name]
	}
	return d
}

// step ends every step.
func (d *modelDisk) step() {
	if d.watch != nil {
		d.watch(d)
	}
}

// set changes names, as one step.
func (d *modelDisk) set(names nameStep) {
	for name, n := range names {
		if n == nil {
			delete(d.now, name)
		} else {
			d.now[name] = n
		}
	}
	d.pending = append(d.pending, names)
	d.step()
}

// heard counts a sync and reports whether it does anything.
func (d *modelDisk) heard() bool {
	d.syncs++
	return d.syncs != d.deaf
}

// afterCut gives every state that a power cut can leave now: any choice among the
// changes of names that are under way, and of each file any choice among its
// writes, the last of those in part.
func (d *modelDisk) afterCut(each func(state)) {
	for choice := range 1 << len(d.pending) {
		names := maps.Clone(d.durable)
		for i, step := range d.pending {
			if choice&(1<<i) == 0 {
				continue
			}
			for name, n := range step {
				if n == nil {
					delete(names, name)
				} else {
					names[name] = n
				}
			}
		}
		textsOf(slices.Sorted(maps.Keys(names)), names, state{}, each)
	}
}

// textsOf gives the states of some names, for each text that their files may have.
func textsOf(left []string, names map[string]*node, so state, each func(state)) {
	if len(left) == 0 {
		each(maps.Clone(so))
		return
	}
	for _, text := range names[left[0]].left() {
		so[left[0]] = text
		textsOf(left[1:], names, so, each)
	}
	delete(so, left[0])
}

// left are the texts that a cut can leave of a file.
func (n *node) left() []string {
	all := map[string]bool{}
	for choice := range 1 << len(n.writes) {
		text, last := n.synced, ""
		for i, write := range n.writes {
			if choice&(1<<i) != 0 {
				text, last = text+write, write
			}
		}
		all[text] = true
		if last != "" {
			all[text[:len(text)-len(last)/2]] = true // torn
			all[text[:len(text)-1]] = true
			all[strings.Repeat("\x00", len(text))] = true // its length alone
		}
	}
	return slices.Sorted(maps.Keys(all))
}

// The file system as a change sees it.

func (d *modelDisk) resolve(path string) (string, error) {
	if d.now[path] == nil {
		return "", &fs.PathError{Op: "find", Path: path, Err: fs.ErrNotExist}
	}
	return path, nil
}

func (d *modelDisk) lock(string, time.Duration) (func(), error) { return func() {}, nil }

func (d *modelDisk) list(string) ([]fs.DirEntry, error) {
	var all []fs.DirEntry
	for _, name := range slices.Sorted(maps.Keys(d.now)) {
		all = append(all, fs.FileInfoToDirEntry(modelInfo{filepath.Base(name), d.now[name]}))
	}
	return all, nil
}

func (d *modelDisk) read(path string) (string, fs.FileInfo, error) {
	info, err := d.stat(path)
	if err != nil {
		return "", nil, err
	}
	return d.now[path].text(), info, nil
}

func (d *modelDisk) stat(path string) (fs.FileInfo, error) {
	if d.now[path] == nil {
		return nil, &fs.PathError{Op: "stat", Path: path, Err: fs.ErrNotExist}
	}
	return modelInfo{filepath.Base(path), d.now[path]}, nil
}

func (d *modelDisk) same(one, other fs.FileInfo) bool {
	a, ok := one.(modelInfo)
	b, ok2 := other.(modelInfo)
	return ok && ok2 && a.node == b.node
}

func (d *modelDisk) openFolder(string) (folder, error) { return modelFolder{d}, nil }

func (d *modelDisk) create(path string) (tempFile, error) {
	if d.now[path] != nil {
		return nil, fmt.Errorf("%s is there", path)
	}
	n := &node{mode: 0o600, time: time.Unix(2, 0)}
	d.set(nameStep{path: n})
	return &modelTemp{d, n}, nil
}

func (d *modelDisk) link(from, to string) error {
	if d.now[to] != nil {
		return fs.ErrExist
	}
	d.set(nameStep{to: d.now[from]})
	return nil
}

func (d *modelDisk) rename(from, to string) error {
	d.set(nameStep{to: d.now[from], from: nil})
	return nil
}

func (d *modelDisk) exchange(one, other string) error {
	if d.renames {
		return errNoExchange
	}
	d.set(nameStep{one: d.now[other], other: d.now[one]})
	return nil
}

func (d *modelDisk) remove(path string) error {
	if d.now[path] != nil {
		d.set(nameStep{path: nil})
	}
	return nil
}

func (d *modelDisk) reached(string) {}

type modelFolder struct{ d *modelDisk }

func (f modelFolder) Sync() error {
	if f.d.heard() {
		f.d.durable, f.d.pending = maps.Clone(f.d.now), nil
	}
	f.d.step()
	return nil
}

func (modelFolder) Close() error { return nil }

type modelTemp struct {
	d *modelDisk
	n *node
}

func (t *modelTemp) WriteString(text string) (int, error) {
	half := len(text) / 2 // two writes, as a system may make of one
	for _, part := range []string{text[:half], text[half:]} {
		t.n.writes = append(t.n.writes, part)
		t.d.step()
	}
	return len(text), nil
}

func (*modelTemp) likeOwner(fs.FileInfo) error     { return nil }
func (t *modelTemp) likeMode(of fs.FileInfo) error { t.n.mode = of.Mode(); return nil }
func (*modelTemp) likeExtras(string) (bool, error) { return true, nil }
func (*modelTemp) Close() error                    { return nil }
func (t *modelTemp) Sync() error {
	if t.d.heard() {
		t.n.synced, t.n.writes = t.n.text(), nil
	}
	t.d.step()
	return nil
}

// modelInfo are the facts of a file.
type modelInfo struct {
	name string
	*node
}

func (i modelInfo) Name() string       { return i.name }
func (i modelInfo) Size() int64        { return int64(len(i.text())) }
func (i modelInfo) Mode() fs.FileMode  { return i.mode }
func (i modelInfo) ModTime() time.Time { return i.time }
func (i modelInfo) IsDir() bool        { return false }
func (i modelInfo) Sys() any           { return nil }

// modelFiles reads ledgers of a model.
type modelFiles struct{ d *modelDisk }

func (f modelFiles) Read(path string) (string, error) {
	text, _, err := f.d.read(path)
	return text, err
}

func (f modelFiles) Locate(path string) (string, error) { return f.d.resolve(path) }
