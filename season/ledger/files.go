package ledger

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"path/filepath"
	"strings"

	"boxbook/report/display"
)

// Files reads ledger text by path. A file over the limit is a *TooLargeError.
type Files interface {
	// Read gives the whole text of a path.
	Read(path string) (string, error)
	// Locate gives the one name by which a path is known, links resolved.
	Locate(path string) (string, error)
}

// TooLargeError says that a file is over the language's limit.
type TooLargeError struct{ Path string }

// Error names the file and the limit.
func (e *TooLargeError) Error() string {
	return fmt.Sprintf("%s is larger than %d MiB", display.OneLine(e.Path), maxFile>>20)
}

// Disk reads from the file system.
type Disk struct{}

// Read gives the whole text of a regular file. What is none, a pipe or a device,
// is refused without waiting for it.
func (Disk) Read(path string) (string, error) {
	f, err := openNow(path)
	if err != nil {
		return "", err
	}
	defer f.Close()
	info, err := f.Stat()
	switch {
	case err != nil:
		return "", err
	case info.IsDir():
		return "", &fs.PathError{Op: "read", Path: path, Err: errors.New("it is a folder, not a ledger")}
	case !info.Mode().IsRegular():
		return "", &fs.PathError{Op: "read", Path: path, Err: ErrNotRegular}
	}
	return ReadText(f, path, info.Size())
}

// Locate resolves links.
func (Disk) Locate(path string) (string, error) {
	resolved, err := filepath.EvalSymlinks(path)
	if err != nil {
		return "", err
	}
	return filepath.Abs(resolved)
}

// ReadText reads a text of at most the language's limit. size is a guess of
// its length, 0 where nothing is known.
func ReadText(r io.Reader, name string, size int64) (string, error) {
	if size > maxFile {
		return "", &TooLargeError{name}
	}
	var b strings.Builder
	b.Grow(int(size))
	n, err := io.Copy(&b, io.LimitReader(r, maxFile+1))
	if err != nil {
		return "", err
	}
	if n > maxFile {
		return "", &TooLargeError{name}
	}
	return b.String(), nil
}

// Memory is a set of texts by path, for text that is not on disk.
type Memory map[string]string

// Read gives the text of a path.
func (m Memory) Read(path string) (string, error) {
	text, ok := m[filepath.ToSlash(filepath.Clean(path))]
	if !ok {
		return "", &fs.PathError{Op: "open", Path: path, Err: fs.ErrNotExist}
	}
	return text, nil
}

// Locate cleans a path.
func (m Memory) Locate(path string) (string, error) {
	if _, err := m.Read(path); err != nil {
		return "", err
	}
	return filepath.Clean(path), nil
}
