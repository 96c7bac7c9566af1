package report

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
)

// cautionKey is what the caution is called where it has a name: its field in
// JSON, its section in CSV.
const cautionKey = "caution"

// WriteJSON writes the document's Data as JSON, indented by two spaces, with
// the characters <, > and & as they are, and a line feed at the end; a Caution
// is the last field of the object. It fails where there is no Data, where it
// cannot be marshalled, and where a Caution finds no object or one that has such
// a field; then it writes nothing.
func WriteJSON(w io.Writer, d Document) error {
	if d.Data == nil {
		return errors.New("the document has no data to write as JSON")
	}
	out, err := indented(d.Data)
	if err == nil && d.Caution != "" {
		out, err = withCaution(out, d.Caution)
	}
	if err != nil {
		return fmt.Errorf("write JSON: %w", err)
	}
	_, err = w.Write(append(out, '\n'))
	return err
}

// indented is a value as JSON, without a line feed at the end.
func indented(value any) ([]byte, error) {
	var out bytes.Buffer
	encoder := json.NewEncoder(&out)
	encoder.SetEscapeHTML(false)
	encoder.SetIndent("", "  ")
	if err := encoder.Encode(value); err != nil {
		return nil, err
	}
	return bytes.TrimSuffix(out.Bytes(), []byte("\n")), nil
}

// withCaution adds the caution behind the last field of an indented object.
func withCaution(object []byte, caution string) ([]byte, error) {
	var fields map[string]json.RawMessage
	if err := json.Unmarshal(object, &fields); err != nil || fields == nil {
		return nil, errors.New("a caution needs an object to be a field of")
	}
	if _, ok := fields[cautionKey]; ok {
		return nil, errors.New("the data has a caution of its own")
	}
	words, err := indented(caution)
	if err != nil {
		return nil, err
	}
	body := bytes.TrimRight(bytes.TrimSuffix(object, []byte("}")), "\n")
	if len(fields) > 0 {
		body = append(body, ',')
	}
	return fmt.Appendf(body, "\n  %q: %s\n}", cautionKey, words), nil
}
