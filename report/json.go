package report

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"slices"
)

// HeadKey is the field of an object that its Head is in, and the section of its
// rows.
const HeadKey = "boxbook"

// WriteJSON writes the document's Data as JSON, indented by two spaces, with
// the characters <, > and & as they are, and a line feed at the end. Its Head
// stands first in the object, as "boxbook". It fails where there is no Data, it
// cannot be marshalled, or it has a Head and is no object, and then writes
// nothing.
func WriteJSON(w io.Writer, d Document) error {
	if d.Data == nil {
		return errors.New("the document has no data to write as JSON")
	}
	raw, err := plainJSON(d.Data)
	if err == nil && !d.Head.None() {
		raw, err = withHead(raw, d.Head)
	}
	if err != nil {
		return fmt.Errorf("write JSON: %w", err)
	}
	var out bytes.Buffer
	if err := json.Indent(&out, raw, "", "  "); err != nil {
		return fmt.Errorf("write JSON: %w", err)
	}
	out.WriteByte('\n')
	_, err = w.Write(out.Bytes())
	return err
}

// plainJSON marshals a value with the characters <, > and & as they are.
func plainJSON(value any) ([]byte, error) {
	var out bytes.Buffer
	encoder := json.NewEncoder(&out)
	encoder.SetEscapeHTML(false)
	if err := encoder.Encode(value); err != nil {
		return nil, err
	}
	return bytes.TrimSuffix(out.Bytes(), []byte("\n")), nil
}

// withHead puts a head in front of an object's fields.
func withHead(object []byte, head Head) ([]byte, error) {
	fields, ok := bytes.CutPrefix(object, []byte("{"))
	if !ok {
		return nil, errors.New("a list has no place for a head")
	}
	raw, err := plainJSON(head)
	if err != nil {
		return nil, err
	}
	if !bytes.Equal(fields, []byte("}")) {
		raw = append(raw, ',')
	}
	return slices.Concat([]byte(`{"`+HeadKey+`":`), raw, fields), nil
}
