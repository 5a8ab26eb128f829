package handout

import (
	"io"
	"strings"

	"hubrule/render"
	"hubrule/render/class"
	"hubrule/render/pdf"
)

// Sheets is a PDF of students' sheets.
type Sheets struct {
	Pages  int // written so far, with empty backs
	pdf    *pdf.Writer
	byPage bool
	duplex bool
	last   int // student whose pages were written last
	run    int // pages of that student since they began
}

// NewSheets begins a PDF. For printing on both sides, units have backs.
func NewSheets(w io.Writer, set class.Set, duplex bool) *Sheets {
	return &Sheets{pdf: pdf.New(w, set.Title, About(set, 0)), byPage: set.ByPage, duplex: duplex, last: -1}
}

// Add writes the sheets of the next unit.
func (s *Sheets) Add(p Packed) error {
	if s.byPage || p.Student != s.last {
		if s.duplex && s.run%2 == 1 {
			s.Pages++
			if err := s.pdf.AddPacked(p.Back); err != nil {
				return err
			}
		}
		s.run = 0
	}
	s.run += len(p.Sheets)
	s.Pages += len(p.Sheets)
	s.last = p.Student
	return addAll(s.pdf, p.Sheets)
}

// Close ends the PDF.
func (s *Sheets) Close() error { return s.pdf.Close() }

// Key is the PDF of the key.
type Key struct{ pdf *pdf.Writer }

// NewKey begins a key: cover, contents, and the answers that all share. It returns those pages too.
func NewKey(w io.Writer, set class.Set) (Key, []render.Page, error) {
	k := Key{pdf.New(w, strings.TrimPrefix(set.Title+", key", ", "), About(set, 0))}
	front := append(set.KeyFront(), set.SharedAnswers()...)
	for _, page := range front {
		if err := k.pdf.AddPage(page); err != nil {
			return k, nil, err
		}
	}
	return k, front, nil
}

// Add writes the answers of the next unit.
func (k Key) Add(p Packed) error { return addAll(k.pdf, p.Answers) }

// Close ends the PDF.
func (k Key) Close() error { return k.pdf.Close() }

func addAll(w *pdf.Writer, pages []pdf.Packed) error {
	for _, p := range pages {
		if err := w.AddPacked(p); err != nil {
			return err
		}
	}
	return nil
}
