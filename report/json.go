package report

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"slices"
	"unicode"
	"unicode/utf16"

	"boxbook/report/display"
)

// HeadKey is the field of an object that its Head is in, and the section of its
// rows; cautionKey is the same of a caution.
const (
	HeadKey    = "boxbook"
	cautionKey = "caution"
)

// WriteJSON writes the document's Data as JSON, indented by two spaces, with
// the characters <, > and & as they are, and a line feed at the end. Its Head
// is the first field of the object, as "boxbook", a Caution the last. It fails
// where there is no Data, where it cannot be marshalled, and where a Head or a
// Caution finds no object or one that has such a field; then it writes nothing.
func WriteJSON(w io.Writer, d Document) error {
	if d.Data == nil {
		return errors.New("the document has no data to write as JSON")
	}
	raw, err := plainJSON(d.Data)
	if err == nil && !d.Head.None() {
		raw, err = withField(raw, HeadKey, d.Head, inFront)
	}
	if err == nil && d.Caution != "" {
		raw, err = withField(raw, cautionKey, d.Caution, behind)
	}
	var out bytes.Buffer
	if err == nil {
		err = json.Indent(&out, raw, "", "  ")
	}
	if err != nil {
		return fmt.Errorf("write JSON: %w", err)
	}
	out.WriteByte('\n')
	_, err = w.Write(seenJSON(out.Bytes()))
	return err
}

// seenJSON writes what is not shown as itself as escapes. They mean the same to
// whoever reads the JSON, and do nothing to a terminal. Such characters stand in
// strings alone.
func seenJSON(raw []byte) []byte {
	hidden := func(r rune) bool { return r > unicode.MaxASCII && !display.Seen(r) }
	if !bytes.ContainsFunc(raw, hidden) {
		return raw
	}
	var out bytes.Buffer
	for _, r := range string(raw) {
		switch {
		case !hidden(r):
			out.WriteRune(r)
		case r > 0xFFFF:
			high, low := utf16.EncodeRune(r)
			fmt.Fprintf(&out, "\\u%04x\\u%04x", high, low)
		default:
			fmt.Fprintf(&out, "\\u%04x", r)
		}
	}
	return out.Bytes()
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

// inFront and behind put a field in front of an object's fields, or behind them.
func inFront(field, fields []byte) [][]byte { return [][]byte{field, fields} }
func behind(field, fields []byte) [][]byte  { return [][]byte{fields, field} }

// withField adds a field to an object, at the place that order gives it.
func withField(object []byte, key string, value any, order func(field, fields []byte) [][]byte) ([]byte, error) {
	var known map[string]json.RawMessage
	if err := json.Unmarshal(object, &known); err != nil || known == nil {
		return nil, fmt.Errorf("data that is no object has no place for a field %s", key)
	}
	if _, ok := known[key]; ok {
		return nil, fmt.Errorf("the data has a field %s of its own", key)
	}
	field, err := plainJSON(map[string]any{key: value})
	if err != nil || len(known) == 0 {
		return field, err
	}
	inside := func(object []byte) []byte {
		return bytes.TrimSuffix(bytes.TrimPrefix(object, []byte("{")), []byte("}"))
	}
	return slices.Concat([]byte("{"), bytes.Join(order(inside(field), inside(object)), []byte(",")), []byte("}")), nil
}
