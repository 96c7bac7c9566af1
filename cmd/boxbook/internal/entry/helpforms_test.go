package entry

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// The help of a fault says which file takes it, that of an ended drill its form.
func TestHelpSaysFileAndForm(t *testing.T) {
	assert.Contains(t, faultKind().Long, "boxbook log review")
	assert.Contains(t, endedKind().Fields[0].Asks, "DATE/PILOT/TARGET")
}
