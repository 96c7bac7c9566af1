package sheetfile_test

import (
	"archive/zip"
	"bytes"
	"compress/flate"
	"flag"
	"fmt"
	"hash/crc32"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"boxbook/report/sheetfile"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// What any file may cost, whatever is in it.
const (
	mostTime   = 2 * time.Second // of a processor
	mostMemory = 256 << 10       // KiB
)

const (
	damaged    = "FILE is a damaged workbook: "
	farMore    = "FILE has far more in it than a score sheet"
	manyCells  = "FILE has more than 50000 cells, far more than a score sheet"
	notTheRows = "1 errors" // no row of headings
)

// fill repeats a text up to so many bytes.
func fill(text string, size int) string { return strings.Repeat(text, size/len(text)) }

const (
	mega    = 1 << 20
	maxPart = 16 * mega
)

// hostile are files made to cost time or memory: what they are called, how they
// are made, and what is said.
var hostile = []struct {
	name string
	make func(t *testing.T) []byte
	said string
}{
	{"a large text", func(*testing.T) []byte { return []byte(fill("1,8.5\n", 9*mega)) }, "FILE has 9 MB; a score sheet of more than 8 MB is not read"},
	{"commas alone", func(*testing.T) []byte { return []byte(fill(",", 8*mega)) }, manyCells},
	{"lines alone", func(*testing.T) []byte { return []byte(fill("\n", 8*mega)) }, manyCells},
	{"quotes alone", func(*testing.T) []byte { return []byte(fill(`"`, 8*mega)) }, "1 cells, " + notTheRows},
	{"one long cell", func(*testing.T) []byte { return []byte(fill("8", 8*mega)) }, "1 cells, " + notTheRows},
	{"letters of many bytes", func(*testing.T) []byte { return []byte(fill("é", 8*mega)) }, "1 cells, " + notTheRows},
	{"as many cells as there may be", func(*testing.T) []byte { return []byte("fig,A,B\n" + fill("1,8.7,x\n", 16_000*8)) }, "48003 cells, 4 errors"},
	{"a wide table of grades", func(*testing.T) []byte { return []byte(fill(fill("7,8,9,10,", 9*20)+"1\n", 600*182)) }, "48600 cells, " + notTheRows},
	{"as many headings", func(*testing.T) []byte { return []byte(fill("fig,"+fill("Anna,", 5*950)+"\n", 50*(4+5*950+1))) }, "47550 cells, 1 errors"},

	{"a part that unpacks to much", func(t *testing.T) []byte {
		return packed(t, with(sheetBook("", ""), "xl/media/image1.png", fill("\x00", maxPart+1)))
	}, "FILE has a part that unpacks to more than 16 MB"},
	{"parts that unpack to much together", func(t *testing.T) []byte {
		parts := sheetBook("", "")
		for i := range 5 {
			parts[fmt.Sprintf("xl/media/image%d.png", i)] = fill("\x00", maxPart-1)
		}
		return packed(t, parts)
	}, "FILE unpacks to more than 64 MB"},
	{"a part that lies about its size", func(t *testing.T) []byte {
		return lying(t, sheetBook(fill("<row></row>", maxPart*4), ""), "xl/worksheets/sheet1.xml", 1000)
	}, damaged + "its parts cannot be read"},
	{"very many parts", func(t *testing.T) []byte {
		parts := sheetBook("", "")
		for i := range 60_000 {
			parts[fmt.Sprint(i)] = ""
		}
		return packed(t, parts)
	}, "FILE has more than 2000 parts, far more than a score sheet"},

	{"cells in the last column", func(t *testing.T) []byte {
		var b strings.Builder
		for n := 1; n <= 24_000; n++ {
			fmt.Fprintf(&b, `<row r="%d"><c r="XFD%d"><v>8</v></c></row>`, n, n)
		}
		return packed(t, sheetBook(b.String(), ""))
	}, "24000 cells, " + notTheRows},
	{"rows as wide as they can be", func(t *testing.T) []byte {
		return packed(t, sheetBook(fill("<row>"+fill("<c><v>8</v></c>", 15*16384)+"</row>", 60*(11+15*16384)), ""))
	}, manyCells},
	{"very many cells", func(t *testing.T) []byte {
		return packed(t, sheetBook("<row>"+fill("<c/>", 2*mega)+"</row>", ""))
	}, damaged + "row 1 has more cells than a sheet has columns"},
	{"very many rows", func(t *testing.T) []byte { return packed(t, sheetBook(fill("<row/>", 2*mega), "")) }, manyCells},
	{"very many tags that mean nothing", func(t *testing.T) []byte { return packed(t, sheetBook(fill("<x/>", maxPart-1000), "")) }, farMore},
	{"tags within tags", func(t *testing.T) []byte {
		return packed(t, sheetBook(fill("<x>", maxPart/2), ""))
	}, farMore},
	{"remarks", func(t *testing.T) []byte { return packed(t, sheetBook(fill("<!---->", maxPart-1000), "")) }, farMore},
	{"a tag of very many attributes", func(t *testing.T) []byte {
		return packed(t, sheetBook("<row "+fill(`a="" `, maxPart-1000)+"/>", ""))
	}, farMore},
	{"tags of many attributes", func(t *testing.T) []byte {
		return packed(t, sheetBook(fill("<x "+fill(`a="" `, 200_000)+"/>", maxPart-1000), ""))
	}, farMore},
	{"one long text", func(t *testing.T) []byte {
		return packed(t, sheetBook(`<row><c t="str"><v>`+fill("8", maxPart-1000)+"</v></c></row>", ""))
	}, farMore},
	{"one long remark", func(t *testing.T) []byte {
		return packed(t, sheetBook("<!--"+fill("< ", maxPart-1000)+"-->", ""))
	}, "0 cells, " + notTheRows},
	{"shared texts", func(t *testing.T) []byte {
		return packed(t, with(sheetBook("", ""), "xl/sharedStrings.xml", "<sst>"+fill("<si><t>a</t></si>", maxPart-1000)+"</sst>"))
	}, farMore},
	{"long shared texts", func(t *testing.T) []byte {
		text := "<si><t>" + fill("é&amp;", 30_000) + "</t></si>"
		return packed(t, with(sheetBook(fill(`<row><c t="s"><v>0</v></c></row>`, 32*24_000), ""), "xl/sharedStrings.xml", "<sst>"+fill(text, maxPart-1000)+"</sst>"))
	}, "24000 cells, " + notTheRows},
	{"styles", func(t *testing.T) []byte {
		return packed(t, with(sheetBook("", ""), "xl/styles.xml", "<styleSheet><cellXfs>"+fill(`<xf numFmtId="14"/>`, maxPart-1000)+"</cellXfs></styleSheet>"))
	}, farMore},
	{"merged cells", func(t *testing.T) []byte {
		return packed(t, sheetBook("", "<mergeCells>"+fill(`<mergeCell ref="A1:XFD1048576"/>`, 2*mega)+"</mergeCells>"))
	}, "FILE has more than 10000 merged areas, far more than a score sheet"},
	{"hidden columns before the first", func(t *testing.T) []byte {
		return packed(t, sheetBook(`<row><c><v>8</v></c></row>`, `<cols><col min="-9000000000000000000" max="5" hidden="1"/></cols>`))
	}, "1 cells, " + notTheRows},
	{"all columns hidden many times", func(t *testing.T) []byte {
		var b strings.Builder
		for n := 1; n <= 24_000; n++ {
			fmt.Fprintf(&b, `<row r="%d"><c r="XFD%d"><v>8</v></c></row>`, n, n)
		}
		return packed(t, sheetBook(b.String(), "<cols>"+strings.Repeat(`<col min="1" max="16384" hidden="1"/>`, 2000)+"</cols>"))
	}, "24000 cells, " + notTheRows},
	{"sheets", func(t *testing.T) []byte {
		return packed(t, with(sheetBook("", ""), "xl/workbook.xml", `<workbook xmlns:r="r"><sheets>`+fill(`<sheet name="a" r:id="s"/>`, 2*mega)+"</sheets></workbook>"))
	}, "FILE has more than 1000 sheets"},
	{"links", func(t *testing.T) []byte {
		return packed(t, with(sheetBook("", ""), "_rels/.rels", "<r>"+fill(`<Relationship Id="a" Type="b" Target="c"/>`, maxPart-1000)+"</r>"))
	}, farMore},
	{"every part as large as it may be", func(t *testing.T) []byte {
		parts := sheetBook(fill("<!--"+fill(" ", 200_000)+"-->", 12*mega), "")
		for _, name := range []string{"xl/sharedStrings.xml", "xl/styles.xml", "xl/workbook.xml"} {
			parts[name] = "<!--" + fill("<>", 15*mega) + "-->" + parts[name] + "<x/>"
		}
		return packed(t, parts)
	}, farMore},
}

// hostileAll is every case, not each third.
var hostileAll = flag.Bool("hostile-all", false, "read every hostile file")

// Whatever is in a file, reading it ends soon, takes little memory, and says in
// one sentence what is wrong.
func TestHostileFiles(t *testing.T) {
	if raceDetector {
		t.Skip("time and memory are measured without the race detector")
	}
	self, err := os.Executable()
	require.NoError(t, err)
	for i, c := range hostile {
		if i%3 > 0 && !*hostileAll {
			continue
		}
		t.Run(c.name, func(t *testing.T) {
			path := filepath.Join(t.TempDir(), "sheet")
			data := c.make(t)
			require.NoError(t, os.WriteFile(path, data, 0o600))
			child := exec.Command(self)
			child.Env = append(os.Environ(), childFile+"="+path)
			var complaint bytes.Buffer
			child.Stderr = &complaint
			out, err := child.Output()
			require.NoError(t, err, "%s", complaint.String())
			said := strings.ReplaceAll(strings.TrimSpace(string(out)), filepath.ToSlash(path), "FILE")
			assert.Equal(t, c.said, said)
			memory, err := strconv.Atoi(strings.TrimSpace(complaint.String()))
			require.NoError(t, err)
			used := child.ProcessState.UserTime() + child.ProcessState.SystemTime()
			t.Logf("%8d bytes: %5d ms, %3d MB: %s", len(data), used.Milliseconds(), memory>>10, said)
			assert.Less(t, used, mostTime)
			assert.Less(t, memory, mostMemory)
		})
	}
}

// The size is looked at before anything is read.
func TestLargeFileIsNotRead(t *testing.T) {
	path := filepath.Join(t.TempDir(), "sheet.csv")
	require.NoError(t, os.WriteFile(path, nil, 0o600))
	require.NoError(t, os.Truncate(path, 3<<40))
	_, err := sheetfile.Load(path, "")
	assert.ErrorContains(t, err, "sheet.csv has 3145728 MB; a score sheet of more than 8 MB is not read")
	require.NoError(t, os.Truncate(path, 8<<20+1))
	_, err = sheetfile.Load(path, "")
	assert.ErrorContains(t, err, "sheet.csv has 8.1 MB; a score sheet of more than 8 MB is not read")
}

// lying packs parts, and says of one of them that it unpacks to less.
func lying(t testing.TB, parts map[string]string, name string, size uint64) []byte {
	t.Helper()
	var out bytes.Buffer
	z := zip.NewWriter(&out)
	for part, text := range parts {
		var body bytes.Buffer
		w, err := flate.NewWriter(&body, flate.BestSpeed)
		require.NoError(t, err)
		_, err = w.Write([]byte(text))
		require.NoError(t, err)
		require.NoError(t, w.Close())
		head := zip.FileHeader{
			Name: part, Method: zip.Deflate, CRC32: crc32.ChecksumIEEE([]byte(text)),
			CompressedSize64: uint64(body.Len()), UncompressedSize64: uint64(len(text)),
		}
		if part == name {
			head.UncompressedSize64 = size
		}
		raw, err := z.CreateRaw(&head)
		require.NoError(t, err)
		_, err = raw.Write(body.Bytes())
		require.NoError(t, err)
	}
	require.NoError(t, z.Close())
	return out.Bytes()
}
