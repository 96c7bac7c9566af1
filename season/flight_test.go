package season_test

import (
	"testing"

	"boxbook/season"

	"github.com/stretchr/testify/assert"
)

func TestMomentText(t *testing.T) {
	for moment, want := range map[season.Moment]string{0: "0:00", 72: "1:12", 3599: "59:59", 3600: "1:00:00", 3723: "1:02:03"} {
		assert.Equal(t, want, moment.String())
	}
}
