package report

import (
	"bytes"
	"errors"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestWriteJSON(t *testing.T) {
	type figure struct {
		Label string `json:"label"`
		Mean  Number `json:"mean,omitzero"`
	}
	var out bytes.Buffer
	err := WriteJSON(&out, Document{Title: "not in the contract", Data: struct {
		Flight  string   `json:"flight"`
		Figures []figure `json:"figures"`
	}{"Longmere <known> & 山田", []figure{{"loop", Float(7.5)}, {"spin", Number{}}}}})
	require.NoError(t, err)
	assert.Equal(t, `{
  "flight": "Longmere <known> & 山田",
  "figures": [
    {
      "label": "loop",
      "mean": 7.5
    },
    {
      "label": "spin"
    }
  ]
}
`, out.String())
}

func TestWriteJSONFailsBeforeItWrites(t *testing.T) {
	for name, data := range map[string]any{"no data": nil, "not to be marshalled": []any{1, func() {}}} {
		t.Run(name, func(t *testing.T) {
			var out bytes.Buffer
			require.Error(t, WriteJSON(&out, Document{Data: data}))
			assert.Empty(t, out.String())
		})
	}
}

// full is a writer with no room left.
type full struct{}

var errFull = errors.New("no room")

func (full) Write([]byte) (int, error) { return 0, errFull }

func TestWritersPassOnTheErrorOfTheWriter(t *testing.T) {
	document := Document{Title: "Season", Data: 1}
	assert.ErrorIs(t, WriteJSON(full{}, document), errFull)
	assert.ErrorIs(t, WriteText(full{}, document, TextOptions{}), errFull)
}
