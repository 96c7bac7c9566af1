package workbook

import (
	"regexp"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"boxbook/report/words"
)

// wideDigit is how wide a column is for each of its digits, in points, in the widest font
// that is taken for Calibri (DejaVu Sans). A row is as high as Calibri makes it: no program
// has both.
const wideDigit = 6.35

var printArea = regexp.MustCompile(`\$A\$1:\$([A-Z]+)\$(\d+)$`)

// lettersOf is how large the usual letters of a sheet are on paper, in points: it is made
// as narrow as a page and, where it has one page alone, as high.
func lettersOf(t *testing.T, book opened, sheet string) float64 {
	t.Helper()
	var area []string
	for _, name := range book.GetDefinedName() {
		if name.Name == "_xlnm.Print_Area" && name.Scope == sheet {
			area = printArea.FindStringSubmatch(name.RefersTo)
		}
	}
	require.Len(t, area, 3, sheet)
	columns, err := excelize.ColumnNameToNumber(area[1])
	require.NoError(t, err)
	rows, err := strconv.Atoi(area[2])
	require.NoError(t, err)
	wide, tall := 0.0, 0.0
	for i := range columns {
		name, err := excelize.ColumnNumberToName(i + 1)
		require.NoError(t, err)
		width, err := book.GetColWidth(sheet, name)
		require.NoError(t, err)
		wide += width * wideDigit
	}
	for row := 1; row <= rows; row++ {
		height, err := book.GetRowHeight(sheet, row)
		require.NoError(t, err)
		tall += height
	}
	layout, err := book.GetPageLayout(sheet)
	require.NoError(t, err)
	across, down := 784.0, 515.0
	if *layout.Orientation == "portrait" {
		across, down = 537, 762
	}
	scale := min(1, across/wide)
	if *layout.FitToHeight == 1 {
		scale = min(scale, down/tall)
	}
	return 11 * scale
}

// The treasurer's workbook and the page of the gates can be read on paper.
func TestPrintedLettersAreLargeEnough(t *testing.T) {
	l := load(t, demoLedger)
	club := open(t, clubFile(t, l, 2026))
	for _, sheet := range clubSheets {
		require.GreaterOrEqual(t, lettersOf(t, club, sheet), 7.4, sheet)
	}
	for _, pilot := range []string{"ines", "tobias", "yuki"} {
		require.GreaterOrEqual(t, lettersOf(t, workbookOf(t, l, pilot), words.ReadySheet), 7.0, pilot)
	}
}

// Sheets of one page, of however many rows, are printed as large as the page can hold
// them: upright where that is larger.
func TestFullSheetsArePrintedAsLargeAsTheyCanBe(t *testing.T) {
	l := load(t, demoLedger)
	for _, pilot := range []string{"ines", "tobias", "yuki"} {
		book := workbookOf(t, l, pilot)
		for sheet, least := range map[string]float64{words.SeasonSheet: 5.3, words.FamiliesSheet: 5.0, words.RemarksSheet: 5.3, words.FaultsSheet: 6.2} {
			require.GreaterOrEqual(t, lettersOf(t, book, sheet), least, "%s %s", pilot, sheet)
		}
	}
}
