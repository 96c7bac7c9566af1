package xlsx

import (
	"archive/zip"
	"bytes"
	"compress/flate"
	"errors"
	"fmt"
	"hash/crc32"
	"io"
	"io/fs"
	"regexp"
	"runtime"
	"slices"
	"sync"
	"sync/atomic"
)

// packer is the zip archive that a workbook is, with its parts in one order and
// dated alike, and with what the library leaves out put in: by itself it gives no
// two equal files.
type packer struct {
	out    io.Writer
	sparks map[string][]sparkline // by part
	charts []ChartValues
	names  []string
	parts  map[string]*bytes.Buffer
}

// firstDay is the date of every part, 1980-01-01 as a zip archive states it: the
// first that it can.
const firstDay = 1<<5 | 1

func newPacker(out io.Writer, sparks map[string][]sparkline, charts []ChartValues) *packer {
	return &packer{out: out, sparks: sparks, charts: charts, parts: map[string]*bytes.Buffer{}}
}

// Create begins a part.
func (p *packer) Create(name string) (io.Writer, error) {
	p.names = append(p.names, name)
	p.parts[name] = new(bytes.Buffer)
	return p.parts[name], nil
}

// AddFS is not used by the library when it saves.
func (p *packer) AddFS(fs.FS) error { return errors.New("a workbook holds no folders") }

// Close writes all parts, each finished and compressed beside the others. The
// list of content types comes first, as other programs have it.
func (p *packer) Close() error {
	slices.Sort(p.names)
	archive := zip.NewWriter(p.out)
	for _, part := range p.packed() {
		if part.err != nil {
			return part.err
		}
		out, err := archive.CreateRaw(&part.header)
		if err != nil {
			return err
		}
		if _, err := out.Write(part.data); err != nil {
			return err
		}
	}
	return archive.Close()
}

// squeezing is how hard parts are compressed: a third of the way costs half the
// time and makes a season's workbook a seventh larger.
const squeezing = 3

// packedPart is a part as the archive holds it.
type packedPart struct {
	header zip.FileHeader
	data   []byte
	err    error
}

// packed are all parts in their order. Each of the processor's cores has one
// compressor, which takes most of a megabyte.
func (p *packer) packed() []packedPart {
	packed := make([]packedPart, len(p.names))
	var next atomic.Int64
	var all sync.WaitGroup
	for range min(runtime.GOMAXPROCS(0), len(p.names)) {
		all.Go(func() {
			squeeze, err := flate.NewWriter(io.Discard, squeezing)
			for i := next.Add(1) - 1; int(i) < len(p.names); i = next.Add(1) - 1 {
				if packed[i].err = err; err == nil {
					packed[i] = p.pack(p.names[i], squeeze)
				}
			}
		})
	}
	all.Wait()
	return packed
}

func (p *packer) pack(name string, squeeze *flate.Writer) packedPart {
	data, err := p.finish(name, p.parts[name].Bytes())
	if err != nil {
		return packedPart{err: err}
	}
	var small bytes.Buffer
	small.Grow(len(data) / 8)
	squeeze.Reset(&small)
	if _, err := squeeze.Write(data); err != nil {
		return packedPart{err: err}
	}
	if err := squeeze.Close(); err != nil {
		return packedPart{err: err}
	}
	header := zip.FileHeader{
		Name: name, Method: zip.Deflate, CRC32: crc32.ChecksumIEEE(data),
		CompressedSize64: uint64(small.Len()), UncompressedSize64: uint64(len(data)),
	}
	//lint:ignore SA1019 a part that is handed over compressed gets no date from Modified
	header.ModifiedDate = firstDay
	return packedPart{header: header, data: small.Bytes()}
}

// filtered is what the library says of a sheet with filters: that rows are
// filtered out, and none are.
var filtered = []byte(` filterMode="true"`)

// missing is a formula's value that is not available, which the library stores
// as a text.
var missing = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(` t="str">(<f>[^<]*NA\(\)[^<]*</f><v>#N/A</v>)`) })

// finish puts into a part what the library leaves out.
func (p *packer) finish(name string, data []byte) ([]byte, error) {
	if lines, sheet := p.sparks[name]; sheet {
		head, rest, found := bytes.Cut(data, filtered)
		if found {
			data = slices.Concat(head, rest)
		}
		if bytes.Contains(data, []byte(NotAvailable.Text)) {
			data = missing().ReplaceAll(data, []byte(` t="e">$1`))
		}
		return putSparklines(name, data, lines)
	}
	for i, chart := range p.charts {
		if name == fmt.Sprintf("xl/charts/chart%d.xml", i+1) {
			return chart.patch(name, data)
		}
	}
	return data, nil
}
