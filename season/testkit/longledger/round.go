//go:build speed

package longledger

import (
	"os"
	"regexp"
	"strconv"
	"syscall"
	"time"
)

// Round is one reading of an archive, by whichever program. Times are in seconds,
// Peak in bytes, Points what all rows of figures are worth, 0 where nobody asked.
type Round struct {
	Flights   int     `json:"flights"`
	Figures   int     `json:"figures"`
	Decided   int     `json:"decided,omitempty"`
	Points    float64 `json:"points,omitempty"`
	Seconds   float64 `json:"seconds"`
	Processor float64 `json:"cpu"`
	Peak      int64   `json:"peak"`
}

// ProcessorTime is what this process has used.
func ProcessorTime() time.Duration {
	var used syscall.Rusage
	if syscall.Getrusage(syscall.RUSAGE_SELF, &used) != nil {
		return 0
	}
	return time.Duration(used.Utime.Nano() + used.Stime.Nano())
}

// PeakMemory is the most memory that this process has had, as Linux says; 0
// elsewhere.
func PeakMemory() int64 {
	status, _ := os.ReadFile("/proc/self/status")
	found := regexp.MustCompile(`VmHWM:\s+(\d+)`).FindSubmatch(status)
	if found == nil {
		return 0
	}
	kib, _ := strconv.ParseInt(string(found[1]), 10, 64)
	return kib << 10
}
