// Package report writes plans, clashes and readings for other programs and for people: their JSON, a clash and a reading in words, and what
// gave way. Every command, and every call of the desk, says them in these words.
package report

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"strconv"

	"hubrule/segments"
)

// Number writes a number as files carry it: a fixed count of decimals, no exponent, no "-0".
func Number(v float64, decimals int) string {
	s := strconv.FormatFloat(v, 'f', decimals, 64)
	if f, _ := strconv.ParseFloat(s, 64); f == 0 {
		s = strconv.FormatFloat(0, 'f', decimals, 64)
	}
	return s
}

// Value writes a value of a figure for a table: three decimals, degrees one, millimetres none.
func Value(v float64, u segments.Unit) string {
	switch u {
	case segments.InWheels:
		return Number(v, 3) + "w"
	case segments.InMM:
		return Number(v, 0) + " mm"
	case segments.InDegrees:
		return Number(v, 1) + "°"
	}
	return Number(v, 3)
}

// Six and Three write a number for JSON, with so many decimals.
func Six(v float64) json.Number   { return json.Number(Number(v, 6)) }
func Three(v float64) json.Number { return json.Number(Number(v, 3)) }

// Members is a JSON object whose keys keep their order, which encoding/json does not offer.
type Members []Member

// Member is one key of an object and its value.
type Member struct {
	Key   string
	Value any
}

// MarshalJSON returns the object.
func (m Members) MarshalJSON() ([]byte, error) {
	var list [][]byte
	for _, one := range m {
		value, err := json.Marshal(one.Value)
		if err != nil {
			return nil, err
		}
		list = append(list, fmt.Appendf(nil, "%q:%s", one.Key, value))
	}
	return fmt.Appendf(nil, "{%s}", bytes.Join(list, []byte(","))), nil
}

// WriteJSON writes a value for other programs.
func WriteJSON(w io.Writer, value any) error {
	e := json.NewEncoder(w)
	e.SetIndent("", "  ")
	return e.Encode(value)
}
