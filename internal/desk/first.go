package desk

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"unicode/utf8"

	"hubrule/internal/fault"
	"hubrule/internal/picture"
	"hubrule/segments"
	"hubrule/segments/reading"
	"hubrule/segments/strict"
)

// place is where a page begins.
type place string

const (
	onUnderlay place = "underlay"
	onPhoto    place = "photo"
	onHandout  place = "handout"
)

// firstJob is what a page begins with: a job, and where the command line names a picture, marks or a class, those.
type firstJob struct {
	Place place           `json:"place"`
	Job   json.RawMessage `json:"job"`
	Name  string          `json:"name"` // of the file; "" where there is none
	Marks json.RawMessage `json:"marks,omitempty"`
	Class json.RawMessage `json:"class,omitempty"`
}

// openPhoto takes in the picture or the marks file that the command line names, and returns the segment of the job to begin with; the name
// itself where it is neither.
func (d *Desk) openPhoto(nameOrPath string) (string, error) {
	isFile := !segments.IsName(nameOrPath) && !segments.IsStream(nameOrPath)
	if !isFile {
		_, isSegment := segments.Find(nameOrPath)
		_, err := os.Stat(nameOrPath)
		switch {
		case isSegment == nil || segments.IsStream(nameOrPath):
			return nameOrPath, nil
		case err != nil && filepath.Ext(nameOrPath) != "": // no segment's name has an ending
			return "", fmt.Errorf("%s: %w", nameOrPath, fault.Plain(err))
		case err != nil:
			return nameOrPath, nil
		}
	}
	first := segments.Names()[0]
	if !isFile || isPicture(nameOrPath) {
		return first, d.openPicture(nameOrPath)
	}
	doc, err := strict.Load(nameOrPath)
	if err != nil {
		return nameOrPath, nil // whoever reads it as a vehicle says what is wrong
	}
	if kindOf(doc) != "marks" {
		return nameOrPath, nil
	}
	file, err := reading.ReadMarks(d.files, nameOrPath, doc)
	if err != nil {
		return "", err
	}
	d.first.Place, d.first.Name, d.first.Marks = onPhoto, filepath.Base(nameOrPath), marksJSON(file)
	if d.folder = segments.FolderOf(nameOrPath); file.Marks.Picture != "" {
		d.picture = file.Marks.PicturePath()
	}
	if like := file.Marks.Like; like != nil && slices.Contains(segments.Names(), like.Name) {
		first = like.Name
	}
	return first, nil
}

// openPicture takes in a picture that nothing is marked on.
func (d *Desk) openPicture(path string) error {
	header, err := picture.Open(path)
	if err != nil {
		return fmt.Errorf("%s: %w", path, err)
	}
	marks := struct {
		Picture string  `json:"picture"`
		Size    [2]int  `json:"size"`
		Focal   float64 `json:"focal,omitempty"`
	}{filepath.Base(path), [2]int{header.Width, header.Height}, header.Focal}
	d.picture, d.folder = path, filepath.Dir(path)
	d.first.Place, d.first.Name = onPhoto, marks.Picture
	d.first.Marks, err = json.Marshal(marks)
	return err
}

// isPicture reports whether a file is no text. One that is not there, or no regular file, is none.
func isPicture(path string) bool {
	info, err := os.Stat(path)
	if err != nil || !info.Mode().IsRegular() {
		return false
	}
	f, err := os.Open(path)
	if err != nil {
		return false
	}
	defer f.Close()
	start := make([]byte, 512)
	n, err := io.ReadFull(f, start)
	for cut := 0; cut < utf8.UTFMax && n > 0 && !utf8.Valid(start[:n]); cut++ { // a letter may be cut in two
		n--
	}
	return (err == nil || errors.Is(err, io.ErrUnexpectedEOF)) && (bytes.IndexByte(start[:n], 0) >= 0 || !utf8.Valid(start[:n]))
}

// kindOf returns what kind of file a document says it is.
func kindOf(doc *strict.Document) string {
	v, _ := doc.Peek("kind")
	kind, _ := v.Scalar()
	return strings.TrimSpace(kind)
}

// marksJSON writes marks in the one form that equal marks share.
func marksJSON(file *reading.File) json.RawMessage {
	doc := strict.Parse("marks.yaml", []byte(file.YAML()))
	return doc.Top().JSON("kind")
}
