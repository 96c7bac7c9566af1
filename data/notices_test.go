package data

import (
	"bytes"
	"flag"
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

var update = flag.Bool("update", false, "make notices.txt from the modules that are linked into the program")

// released are the systems that .ci/release makes the program for.
var released = []string{"linux/amd64", "linux/arm64", "darwin/amd64", "darwin/arm64", "windows/amd64"}

// linked is a module that is linked into the program, and the packages of it that
// are, as folders beneath the module's.
type linked struct {
	name, dir string // name is path and version
	packages  []string
}

// linkedModules are those of the program for one system, by name.
func linkedModules(t *testing.T, system string) map[string]*linked {
	goos, arch, _ := strings.Cut(system, "/")
	list := exec.Command("go", "list", "-deps", "-f", "{{with .Module}}{{if not .Main}}{{.Path}} {{.Version}}\t{{.Dir}}\t{{$.Dir}}{{end}}{{end}}", "boxbook/cmd/boxbook")
	list.Env = append(os.Environ(), "GOOS="+goos, "GOARCH="+arch, "CGO_ENABLED=0")
	list.Stderr = os.Stderr
	out, err := list.Output()
	require.NoError(t, err, system)
	modules := map[string]*linked{}
	for line := range strings.Lines(string(out)) {
		field := strings.Split(strings.TrimSpace(line), "\t")
		if len(field) != 3 {
			continue
		}
		m := modules[field[0]]
		if m == nil {
			m = &linked{name: field[0], dir: field[1]}
			modules[field[0]] = m
		}
		below, err := filepath.Rel(field[1], field[2])
		require.NoError(t, err)
		m.packages = append(m.packages, filepath.ToSlash(below))
	}
	require.NotEmpty(t, modules, system)
	return modules
}

// legal is how files are called that say what may be done with a module.
var legal = regexp.MustCompile(`(?i)^((un)?licen[sc]e|copying|copyright|notice|patents)(\.(txt|md))?$|(?i)[-.]licen[sc]e$`)

// thirdParty is where a module keeps the licences of what it took from others.
const thirdParty = "THIRD_PARTY_LICENSES"

// legalFiles are the files of a module that say what may be done with it, those of
// the folders of its linked packages and of all above included.
func legalFiles(t *testing.T, module fs.FS, packages []string) []string {
	folders := []string{".", thirdParty}
	for _, p := range packages {
		for ; p != "."; p = path.Dir(p) {
			folders = append(folders, p)
		}
	}
	slices.Sort(folders)
	var files []string
	for _, folder := range slices.Compact(folders) {
		entries, err := fs.ReadDir(module, folder)
		if folder != thirdParty {
			require.NoError(t, err)
		}
		for _, e := range entries {
			if e.Type().IsRegular() && legal.MatchString(e.Name()) {
				files = append(files, path.Join(folder, e.Name()))
			}
		}
	}
	return files
}

// TestLegalFiles finds licences at a module's root, beside a linked package and
// above it, of third parties, and no others.
func TestLegalFiles(t *testing.T) {
	dir := t.TempDir()
	for _, name := range []string{
		"LICENSE", "NOTICE", "PATENTS", "licence.txt", "README.md", "license.go", "notices_test.go", "a/COPYING", "a/b/LICENSE.md", "a/c/LICENSE", "d/LICENSE",
		thirdParty + "/Sun-LICENSE", thirdParty + "/README",
	} {
		file := filepath.Join(dir, filepath.FromSlash(name))
		require.NoError(t, os.MkdirAll(filepath.Dir(file), 0o755))
		require.NoError(t, os.WriteFile(file, []byte(name), 0o644))
	}
	require.Equal(t, []string{"LICENSE", "NOTICE", "PATENTS", "licence.txt", thirdParty + "/Sun-LICENSE", "a/COPYING", "a/b/LICENSE.md"},
		legalFiles(t, os.DirFS(dir), []string{"a/b"}))
}

// notice is one text, and what it stands for.
type notice struct {
	text string
	of   []string // module and file
}

// gatherNotices are the names of everything linked, and its texts, each once, in
// the order of the first name that has it.
func gatherNotices(t *testing.T) (modules []string, notices []*notice) {
	all := map[string]*linked{}
	for _, system := range released {
		for name, m := range linkedModules(t, system) {
			if all[name] == nil {
				all[name] = m
			} else {
				all[name].packages = append(all[name].packages, m.packages...)
			}
		}
	}
	for name := range all {
		modules = append(modules, name)
	}
	slices.Sort(modules)
	byText := map[string]*notice{}
	add := func(name, file string, raw []byte) {
		text := tidyText(raw)
		require.NotEmpty(t, text, "%s of %s", file, name)
		n := byText[text]
		if n == nil {
			n = &notice{text: text}
			byText[text] = n
			notices = append(notices, n)
		}
		n.of = append(n.of, name+", "+file)
	}
	goFiles := os.DirFS(goRoot(t))
	for _, file := range []string{"LICENSE", "PATENTS"} {
		raw, err := fs.ReadFile(goFiles, file)
		require.NoError(t, err)
		add(goItself, file, raw)
	}
	for _, name := range modules {
		module := os.DirFS(all[name].dir)
		files := legalFiles(t, module, all[name].packages)
		require.NotEmpty(t, files, "%s has no licence", name)
		for _, file := range files {
			raw, err := fs.ReadFile(module, file)
			require.NoError(t, err)
			add(name, file, raw)
		}
	}
	return modules, notices
}

// goItself is what every Go program has in it.
const goItself = "Go, its runtime and standard library"

// goRoot is the toolchain's folder.
func goRoot(t *testing.T) string {
	out, err := exec.Command("go", "env", "GOROOT").Output()
	require.NoError(t, err)
	return strings.TrimSpace(string(out))
}

// tidyText is a text with line ends as here, and nothing that is not seen at the
// end of a line or of the text.
func tidyText(raw []byte) string {
	lines := strings.Split(string(bytes.TrimPrefix(raw, []byte("\uFEFF"))), "\n")
	for i, line := range lines {
		lines[i] = strings.TrimRight(line, " \t\r\f")
	}
	return strings.Trim(strings.Join(lines, "\n"), "\n")
}

const rule = "================================================================================"

// noticesText is the whole page.
func noticesText(modules []string, notices []*notice) string {
	var b strings.Builder
	fmt.Fprintf(&b, "WHAT BOXBOOK IS BUILT FROM\n\n")
	fmt.Fprintf(&b, "boxbook has in it, on one system or another, the following work of others. The\n")
	fmt.Fprintf(&b, "texts below are their licences and notices, word for word.\n\n")
	for _, name := range append([]string{goItself}, modules...) {
		fmt.Fprintf(&b, "  %s\n", name)
	}
	for _, n := range notices {
		fmt.Fprintf(&b, "\n%s\n%s\n%s\n\n%s\n", rule, strings.Join(n.of, "\n"), rule, n.text)
	}
	return b.String()
}

// TestNotices holds the notices to what is linked into the program on any system
// that it is released for: a module that is missing, one too many, another
// version, a text that is not the module's.
func TestNotices(t *testing.T) {
	modules, notices := gatherNotices(t)
	text := noticesText(modules, notices)
	if *update {
		require.NoError(t, os.WriteFile("notices.txt", []byte(text), 0o644))
		return
	}
	require.Equal(t, append([]string{goItself}, modules...), listedIn(Notices), "go test ./data -run TestNotices -update makes the list anew")
	require.True(t, text == Notices, "go test ./data -run TestNotices -update makes the texts anew")
	for _, name := range modules {
		require.Contains(t, Notices, "\n"+name+", ", "the text of %s", name)
	}
}

// listedIn are the names at the head of a page of notices.
func listedIn(page string) []string {
	head, _, _ := strings.Cut(page, rule)
	var names []string
	for line := range strings.Lines(head) {
		if name, ok := strings.CutPrefix(line, "  "); ok {
			names = append(names, strings.TrimSpace(name))
		}
	}
	return names
}
