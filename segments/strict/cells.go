package strict

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"strings"
	"unicode/utf8"
)

// Cell is one field of a CSV file, without the blanks around it. It knows its place.
type Cell struct {
	Text         string
	Line, Column int // from 1; the column counts characters
	doc          *Document
}

// Problem reports a mistake of c: where it is, and text.
func (c Cell) Problem(format string, args ...any) { c.doc.report(c.Line, c.Column, format, args...) }

// Want reports that c is not what is allowed: "found; want allowed".
func (c Cell) Want(format string, args ...any) {
	c.Problem("%s; want %s", Excerpt(c.Text), fmt.Sprintf(format, args...))
}

// ParseCSV reads a CSV file with commas, semicolons or tabs; file is the name used in messages. The first row names the columns. A row with
// more or fewer cells is reported and left out; one of empty cells, which spreadsheets leave at the end, is left out. What is wrong waits
// in the document.
func ParseCSV(file string, data []byte) (rows [][]Cell, doc *Document) {
	doc = &Document{file: file}
	data = bytes.TrimPrefix(data, []byte("\ufeff")) // which spreadsheets write first
	if !doc.plainText(data, true) {
		return nil, doc
	}
	head, _, _ := bytes.Cut(data, []byte("\n"))
	reader := csv.NewReader(bytes.NewReader(data))
	reader.FieldsPerRecord = -1
	for _, separator := range ";\t" {
		if bytes.ContainsRune(head, separator) {
			reader.Comma = separator
		}
	}
	reader.TrimLeadingSpace = reader.Comma != '\t' // which is a blank too
	lines := bytes.Split(data, []byte("\n"))
	place := func(line, column int) (int, int) { // the reader counts bytes
		before := lines[line-1]
		return line, utf8.RuneCount(before[:min(column-1, len(before))]) + 1
	}
	for {
		fields, err := reader.Read()
		var wrong *csv.ParseError
		switch {
		case err == io.EOF:
			if rows == nil {
				doc.report(1, 1, "empty; want a first row that names the columns")
			}
			return rows, doc
		case errors.As(err, &wrong):
			line, column := place(wrong.Line, wrong.Column)
			doc.report(line, column, "not CSV: %v", wrong.Err)
			return rows, doc
		case strings.TrimSpace(strings.Join(fields, "")) == "":
			continue
		}
		row := make([]Cell, len(fields))
		for i, text := range fields {
			row[i] = Cell{Text: strings.TrimSpace(text), doc: doc}
			row[i].Line, row[i].Column = place(reader.FieldPos(i))
		}
		if rows != nil && len(row) != len(rows[0]) {
			row[0].Problem("%d cells; want %d, as on line %d", len(row), len(rows[0]), rows[0][0].Line)
			continue
		}
		rows = append(rows, row)
	}
}
