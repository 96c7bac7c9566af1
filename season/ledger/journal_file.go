package ledger

import (
	"crypto/sha256"
	"encoding/binary"
	"encoding/hex"
	"encoding/json"
	"errors"
	"hash/crc32"
	"slices"
	"strings"
	"time"
)

// The bounds of a journal.
const (
	MaxUndo      = 20      // changes
	MaxUndoBytes = 4 << 20 // bytes of what takes changes back, as they are written
	maxSums      = 200_000 // lines whose sums are kept, over all files
)

// journalFormat is the number of what a journal looks like.
const journalFormat = 1

// errNoJournal says that a file is none that this program wrote.
var errNoJournal = errors.New("it is not a journal of this version")

// journalFile is what a journal holds.
type journalFile struct {
	Format  int          `json:"format"`
	Changes []keptChange `json:"changes"` // oldest first
	// Undone are changes that were taken back, the latest last, each the other way
	// round: what it has of a file makes the text that the change had left.
	Undone []keptChange `json:"undone,omitempty"`
	// Left is how the program left each file of these changes, the latest
	// change's first: only to say what another program changed.
	Left []leftFile `json:"left"`
}

// keptChange is one command's change of a ledger.
type keptChange struct {
	Command string     `json:"command"` // in words
	At      time.Time  `json:"at"`
	Files   []keptFile `json:"files"`
	// TooLarge says that what takes it back is not there.
	TooLarge bool `json:"tooLarge,omitempty"`
}

// keptFile takes a text back to the one before: so many bytes from a place on
// give way to those that were there. It holds for one text alone, the one with
// the sum.
type keptFile struct {
	File   string `json:"file"`   // from the folder of the ledger's main file
	Before string `json:"before"` // SHA-256 of the former text, hexadecimal
	After  string `json:"after"`  // and of the text that the change left
	Place  int    `json:"place"`  // bytes that stay before
	Gone   int    `json:"gone"`   // bytes of the new text that go
	Was    []byte `json:"was"`    // bytes that come back
}

// leftFile is a file's text as the program left it.
type leftFile struct {
	File string `json:"file"`
	Text string `json:"text"` // SHA-256, hexadecimal
	Sums []byte `json:"sums"` // CRC-32 of each line with its end, 4 bytes each, big-endian
}

// sumOf is a text's SHA-256.
func sumOf(text string) string {
	sum := sha256.Sum256([]byte(text))
	return hex.EncodeToString(sum[:])
}

// differ is what takes a file from one text back to the one before.
func differ(file, was, is string) keptFile {
	head := commonHead(was, is)
	tail := commonTail(was[head:], is[head:])
	return keptFile{
		File: file, Before: sumOf(was), After: sumOf(is),
		Place: head, Gone: len(is) - head - tail, Was: []byte(was[head : len(was)-tail]),
	}
}

// commonHead counts the bytes with which both texts begin.
func commonHead(a, b string) int {
	n := min(len(a), len(b))
	for i := range n {
		if a[i] != b[i] {
			return i
		}
	}
	return n
}

// commonTail counts the bytes with which both texts end.
func commonTail(a, b string) int {
	n := min(len(a), len(b))
	for i := range n {
		if a[len(a)-1-i] != b[len(b)-1-i] {
			return i
		}
	}
	return n
}

// former is the text before the change; not ok where what is kept does not make
// the very text that was there.
func (f keptFile) former(is string) (was string, ok bool) {
	if f.Place < 0 || f.Gone < 0 || f.Place > len(is) || f.Gone > len(is)-f.Place {
		return "", false
	}
	was = is[:f.Place] + string(f.Was) + is[f.Place+f.Gone:]
	return was, sumOf(was) == f.Before
}

// size is about how many bytes a change takes in the journal.
func (c keptChange) size() int {
	const fixed = 256 // names, numbers and sums
	n := fixed + len(c.Command)
	for _, f := range c.Files {
		n += fixed + len(f.File) + (len(f.Was)+2)/3*4
	}
	return n
}

// bounded is a change that the journal has room for.
func (c keptChange) bounded() keptChange {
	if c.size() <= MaxUndoBytes {
		return c
	}
	c.TooLarge, c.Files = true, slices.Clone(c.Files)
	for i := range c.Files {
		c.Files[i].Was = nil
	}
	return c
}

// with is the journal with one change more.
func (j journalFile) with(c keptChange) journalFile {
	j.Changes = joinedBy(j.Changes, c)
	return j
}

// withUndone is the journal with one more change that was taken back. One that was cut
// off, of which the rest is taken back now, stays whole.
func (j journalFile) withUndone(c keptChange) *journalFile {
	undone := slices.Clone(j.Undone)
	if at := slices.IndexFunc(undone, c.partOf); at >= 0 {
		c = undone[at]
		undone = slices.Delete(undone, at, at+1)
	}
	j.Undone = joinedBy(undone, c)
	return &j
}

// partOf reports whether another one has all of a change.
func (c keptChange) partOf(o keptChange) bool {
	return o.At.Equal(c.At) && o.Command == c.Command && !slices.ContainsFunc(c.Files, func(f keptFile) bool {
		return !slices.ContainsFunc(o.Files, f.same)
	})
}

// joinedBy are changes with one more, without the oldest where they are too many or too
// much. A change of nothing is none.
func joinedBy(changes []keptChange, c keptChange) []keptChange {
	if len(c.Files) == 0 {
		return changes
	}
	c = c.bounded()
	size, first := c.size(), len(changes)
	for first > 0 && len(changes)-first+1 < MaxUndo && size+changes[first-1].size() <= MaxUndoBytes {
		first--
		size += changes[first].size()
	}
	return append(slices.Clone(changes[first:]), c)
}

// same reports whether two take the same text of a file to the same.
func (f keptFile) same(o keptFile) bool {
	return f.File == o.File && f.Before == o.Before && f.After == o.After
}

// first is the journal with so many of its oldest changes alone.
func (j journalFile) first(n int) *journalFile {
	j.Changes = j.Changes[:n]
	return &j
}

// left keeps how the program leaves a file.
func (j *journalFile) left(file, text string) {
	lines := strings.SplitAfter(text, "\n")
	all := []leftFile{{File: file, Text: sumOf(text), Sums: sumsOf(lines)}}
	room := maxSums - len(lines)
	if room < 0 {
		all[0].Sums = nil
	}
	for _, f := range j.Left {
		if n := len(f.Sums) / sumSize; f.File != file && n <= room {
			all, room = append(all, f), room-n
		}
	}
	j.Left = all
}

// leftAs is how the program left a file, where it left it with that sum.
func (j *journalFile) leftAs(file, sum string) (sums []byte, ok bool) {
	i := slices.IndexFunc(j.Left, func(f leftFile) bool { return f.File == file && f.Text == sum && len(f.Sums) > 0 })
	if i < 0 {
		return nil, false
	}
	return j.Left[i].Sums, true
}

// sumSize is the bytes of one line's sum.
const sumSize = crc32.Size

// sumsOf are the sums of lines.
func sumsOf(lines []string) []byte {
	sums := make([]byte, 0, sumSize*len(lines))
	for _, line := range lines {
		sums = binary.BigEndian.AppendUint32(sums, crc32.ChecksumIEEE([]byte(line)))
	}
	return sums
}

// firstOther gives the number, from 1, of the first line that is another than
// the one whose sum was kept, and what it is now; gone where the text ends
// before it.
func firstOther(sums []byte, text string) (n int, line string, gone bool) {
	lines := strings.SplitAfter(text, "\n")
	now := sumsOf(lines)
	at := commonHead(string(sums), string(now)) / sumSize
	if at >= len(lines) {
		return at + 1, "", true
	}
	return at + 1, strings.TrimRight(lines[at], "\r\n"), at == len(lines)-1 && lines[at] == ""
}

// text is the journal as it is written.
func (j journalFile) text() (string, error) {
	raw, err := json.Marshal(j)
	return string(raw) + "\n", err
}

// parseJournal reads what text writes.
func parseJournal(text string) (*journalFile, error) {
	var j journalFile
	if err := json.Unmarshal([]byte(text), &j); err != nil || j.Format != journalFormat {
		return nil, errNoJournal
	}
	return &j, nil
}
