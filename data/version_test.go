package data

import (
	"regexp"
	"runtime/debug"
	"testing"

	"github.com/stretchr/testify/require"
)

// TestVersion: three numbers, and the newest version is what `help changes` begins
// with.
func TestVersion(t *testing.T) {
	require.Regexp(t, `^[0-9]+\.[0-9]+\.[0-9]+$`, Version())
	newest := regexp.MustCompile(`(?m)^VERSION (\S+)$`).FindStringSubmatch(Changes)
	require.NotNil(t, newest)
	require.Equal(t, Version(), newest[1])
}

// TestBuildNoted reads what the toolchain notes of a clone: the day counts in UTC.
func TestBuildNoted(t *testing.T) {
	note := func(settings ...string) *debug.BuildInfo {
		info := &debug.BuildInfo{}
		for i := 0; i < len(settings); i += 2 {
			info.Settings = append(info.Settings, debug.BuildSetting{Key: settings[i], Value: settings[i+1]})
		}
		return info
	}
	require.Equal(t, Build{}, noted(note("GOOS", "linux")))
	require.Equal(t, Build{Revision: "abc", Date: "2026-11-29"},
		noted(note("vcs", "git", "vcs.revision", "abc", "vcs.time", "2026-11-29T01:30:00Z", "vcs.modified", "false")))
	require.Equal(t, Build{Revision: "abc", Date: "2026-11-28", Changed: true},
		noted(note("vcs.revision", "abc", "vcs.time", "2026-11-29T00:30:00+01:00", "vcs.modified", "true")))
	require.Equal(t, Build{Revision: "abc"}, noted(note("vcs.revision", "abc", "vcs.time", "yesterday")))
}

// TestBuildStamped: what a release stamps goes before what the toolchain noted.
func TestBuildStamped(t *testing.T) {
	defer func(r, d string) { revision, date = r, d }(revision, date)
	revision, date = "f00", "2026-11-29"
	b := BuildOf()
	require.Equal(t, "f00", b.Revision)
	require.Equal(t, "2026-11-29", b.Date)
	require.False(t, b.Changed)
	require.Regexp(t, `^\w+/\w+$`, b.System)
	require.Contains(t, b.Toolchain, "go1.")
}
