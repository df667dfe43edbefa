package sheet

import (
	"bytes"
	"encoding/json"
)

// JSON writes a sheet as one object with the keys of the package comment, line
// ending included.
func JSON(s Sheet) ([]byte, error) {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	if err := e.Encode(s); err != nil {
		return nil, err
	}
	return b.Bytes(), nil
}
