package report

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
)

// WriteJSON writes the document's Data as JSON, indented by two spaces, with
// the characters <, > and & as they are, and a line feed at the end. It fails
// where there is no Data or it cannot be marshalled, and then writes nothing.
func WriteJSON(w io.Writer, d Document) error {
	if d.Data == nil {
		return errors.New("the document has no data to write as JSON")
	}
	var out bytes.Buffer
	encoder := json.NewEncoder(&out)
	encoder.SetEscapeHTML(false)
	encoder.SetIndent("", "  ")
	if err := encoder.Encode(d.Data); err != nil {
		return fmt.Errorf("write JSON: %w", err)
	}
	_, err := w.Write(out.Bytes())
	return err
}
