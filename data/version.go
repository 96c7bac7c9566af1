package data

import (
	_ "embed"
	"runtime"
	"runtime/debug"
	"strings"
	"time"
)

// version is what the program calls itself: the one place that says it.
//
//go:embed version.txt
var version string

// Version is the version of the program, such as 1.0.0.
func Version() string { return strings.TrimSpace(version) }

// Notices are the licences of everything that is linked into the program. They
// are made from the modules themselves, by `go test ./data -run TestNotices -update`.
//
//go:embed notices.txt
var Notices string

// What a release stamps into the program (.ci/release): the revision it is made
// of, and that revision's day as YYYY-MM-DD.
var revision, date string

// Build says what a program was made of.
type Build struct {
	// Revision is the whole name of the revision, Date its day (YYYY-MM-DD); ""
	// where it is not known.
	Revision, Date string
	// Changed says that files were changed after that revision.
	Changed bool
	// System and Toolchain are what it was made for and by: linux/amd64, go1.26.10.
	System, Toolchain string
}

// BuildOf is what this program was made of: as the release stamped it, else as the
// toolchain noted it beside the program.
func BuildOf() Build {
	b := Build{Revision: revision, Date: date}
	if info, ok := debug.ReadBuildInfo(); ok && revision == "" {
		b = noted(info)
	}
	b.System, b.Toolchain = runtime.GOOS+"/"+runtime.GOARCH, runtime.Version()
	return b
}

// noted is what the toolchain notes of the revision where it builds in a clone.
func noted(info *debug.BuildInfo) Build {
	var b Build
	for _, s := range info.Settings {
		switch s.Key {
		case "vcs.revision":
			b.Revision = s.Value
		case "vcs.time":
			if at, err := time.Parse(time.RFC3339, s.Value); err == nil {
				b.Date = at.UTC().Format(time.DateOnly)
			}
		case "vcs.modified":
			b.Changed = s.Value == "true"
		}
	}
	return b
}
