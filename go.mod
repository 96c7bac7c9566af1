module boxbook

go 1.26.0

require (
	github.com/agext/levenshtein v1.2.3
	github.com/clipperhouse/uax29/v2 v2.2.0
	github.com/jedib0t/go-pretty/v6 v6.8.3
	github.com/mattn/go-runewidth v0.0.31
	github.com/stretchr/testify v1.12.1
	golang.org/x/term v0.48.0
	golang.org/x/text v0.44.0
	pgregory.net/rapid v1.3.0
)

require (
	go.yaml.in/yaml/v3 v3.0.5 // indirect
	golang.org/x/sys v0.50.0 // indirect
)
