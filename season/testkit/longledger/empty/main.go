//go:build speed

// Command empty does nothing, with the libraries of boxbook: what their starting
// costs is what no command of boxbook can go below.
package main

import (
	_ "encoding/csv"
	_ "encoding/json"
	_ "html/template"
	_ "math/big"
	_ "os/exec"
	_ "regexp"

	_ "github.com/agext/levenshtein"
	_ "github.com/clipperhouse/uax29/v2/graphemes"
	_ "github.com/gofrs/flock"
	_ "github.com/google/renameio/v2/maybe"
	_ "github.com/jedib0t/go-pretty/v6/table"
	_ "github.com/mattn/go-runewidth"
	_ "github.com/rogpeppe/go-internal/diff"
	_ "github.com/spf13/cobra"
	_ "github.com/xuri/excelize/v2"
	_ "golang.org/x/term"
	_ "golang.org/x/text/currency"
	_ "golang.org/x/text/encoding/charmap"
	_ "golang.org/x/text/width"
	_ "gonum.org/v1/gonum/lapack/lapack64"
	_ "gonum.org/v1/gonum/mat"
	_ "gonum.org/v1/gonum/stat/combin"
	_ "gonum.org/v1/gonum/stat/distuv"
)

func main() {}
