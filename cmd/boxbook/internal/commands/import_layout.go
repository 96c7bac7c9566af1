package commands

import (
	"encoding/json"
	"errors"
	"io/fs"
	"maps"
	"slices"

	"boxbook/season"
	"boxbook/season/ledger"

	"github.com/google/renameio/v2/maybe"
)

// sheetLayout is what an office's sheets need given, remembered by name.
type sheetLayout struct {
	Columns      string `json:"columns,omitempty"`
	Sheet        string `json:"sheet,omitempty"`
	OfficialFrom string `json:"official-from,omitempty"`
}

// layoutsPath is where a ledger's layouts are kept: beside it, as its drafts are.
func layoutsPath(ledgerPath string) string {
	return ledger.Beside(ledgerPath, ".layouts")
}

// loadLayouts reads the layouts of a ledger, none where nothing was remembered.
func loadLayouts(ledgerPath string) (map[string]sheetLayout, error) {
	path := layoutsPath(ledgerPath)
	data, err := ledger.Disk{}.Read(path)
	if errors.Is(err, fs.ErrNotExist) {
		return map[string]sheetLayout{}, nil
	}
	layouts := map[string]sheetLayout{}
	if err == nil {
		err = json.Unmarshal([]byte(data), &layouts)
	}
	if err != nil {
		return nil, &fileError{"read " + shownName(path), err}
	}
	return layouts, nil
}

// useLayout fills in what a remembered layout says and no flag does.
func (o *importFlags) useLayout(ledgerPath string) error {
	if o.layout == "" {
		return nil
	}
	layouts, err := loadLayouts(ledgerPath)
	if err != nil {
		return err
	}
	kept, ok := layouts[o.layout]
	if !ok {
		return unknown("layout", o.layout, slices.Sorted(maps.Keys(layouts)))
	}
	for _, part := range []struct {
		flag *string
		kept string
	}{{&o.columns, kept.Columns}, {&o.worksheet, kept.Sheet}, {&o.officialFrom, kept.OfficialFrom}} {
		if *part.flag == "" {
			*part.flag = part.kept
		}
	}
	return nil
}

// checkRemember reports a name that is none, and nothing to remember.
func (o *importFlags) checkRemember() error {
	switch {
	case o.remember == "":
		return nil
	case !season.IsHandle(o.remember):
		return &usageError{text: "--remember takes a name of letters, digits and hyphens, such as county-office"}
	case o.columns == "" && o.worksheet == "" && o.officialFrom == "":
		return &usageError{text: "--remember has nothing to remember: give --columns, --sheet or --official-from with it"}
	default:
		return nil
	}
}

// keepLayout remembers how a sheet was read that came out whole.
func (o *importFlags) keepLayout(ledgerPath string) error {
	if o.remember == "" {
		return nil
	}
	layouts, err := loadLayouts(ledgerPath)
	if err != nil {
		return err
	}
	layouts[o.remember] = sheetLayout{Columns: o.columns, Sheet: o.worksheet, OfficialFrom: o.officialFrom}
	data, err := json.MarshalIndent(layouts, "", "  ")
	if err != nil {
		return err
	}
	path := layoutsPath(ledgerPath)
	if err := maybe.WriteFile(path, append(data, '\n'), 0o600); err != nil {
		return &fileError{"write " + shownName(path), err}
	}
	return nil
}
