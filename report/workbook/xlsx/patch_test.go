package xlsx

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestChartsNeedWhatIsCorrected(t *testing.T) {
	_, err := ChartValues{}.patch("chart", []byte("<chartSpace></chartSpace>"))
	require.ErrorContains(t, err, "nothing to correct")
}

func TestSparklinesNeedASheet(t *testing.T) {
	out, err := putSparklines("part", []byte("<worksheet></worksheet>"), []sparkline{{at: "B1", area: "Runs!C1:C2"}})
	require.NoError(t, err)
	require.Contains(t, string(out), "<xm:f>Runs!C1:C2</xm:f><xm:sqref>B1</xm:sqref>")
	require.True(t, strings.HasSuffix(string(out), "</extLst></worksheet>"))
	_, err = putSparklines("part", []byte("<worksheet>"), []sparkline{{at: "B1", area: "Runs!C1:C2"}})
	require.ErrorContains(t, err, "no end of the sheet")
}
