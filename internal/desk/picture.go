package desk

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"image"
	"net/http"
	"runtime/debug"
	"strings"
	"time"

	"hubrule/internal/draw"
	"hubrule/internal/job"
	"hubrule/internal/picture"
	"hubrule/internal/slice"
	"hubrule/render"
	"hubrule/render/format"
	"hubrule/render/photo"
	"hubrule/segments/reading"
	"hubrule/segments/strict"
)

// The bounds of a call that brings a picture along: its bytes, in base 64 four for three and the marks besides; and how many are read at a
// time, of which one is worked on. All judged by eye.
const (
	mostPicture     = 40_000_000
	mostPixels      = 100_000_000
	mostPictureBody = mostPicture/3*4 + mostBody
	pictureWait     = 2 * time.Minute
	mostPictures    = 2
)

// pictures limits how many calls with a picture are read at once.
type pictures struct{ reading, working chan struct{} }

func newPictures() pictures {
	return pictures{make(chan struct{}, mostPictures), make(chan struct{}, 1)}
}

// errTooLarge is the error for a body whose call may not be that large.
var errTooLarge = fmt.Errorf("the body is larger than %d bytes", mostBody)

// bringsPicture reports whether the body of a call may be as large as a picture.
func bringsPicture(r *http.Request) bool {
	return r.URL.Path == "/keep" && (r.ContentLength > mostBody || r.ContentLength < 0)
}

// heldBack limits how many calls with a picture are read at once.
func (d *Desk) heldBack(w http.ResponseWriter, r *http.Request, answer func()) {
	if !bringsPicture(r) || r.ContentLength > mostPictureBody {
		answer()
		return
	}
	leave, err := take(r.Context(), d.pictures.reading)
	if err != nil {
		w.Header().Set("Connection", "close") // the body was not read
		refuseBusy(w, err)
		return
	}
	defer debug.FreeOSMemory()
	defer leave()
	answer()
}

// take waits for a place for a while, and returns what leaves it.
func take(ctx context.Context, places chan struct{}) (leave func(), err error) {
	ctx, cancel := context.WithTimeout(ctx, workWait)
	defer cancel()
	select {
	case places <- struct{}{}:
		return func() { <-places }, nil
	case <-ctx.Done():
		return nil, errFull
	}
}

// verbatim is a value where it stands in a body.
type verbatim struct{ text []byte }

func (v *verbatim) UnmarshalJSON(text []byte) error { v.text = text; return nil }

// apart takes the picture out of a body, whose other keys it returns: large bodies are held once.
func apart(body []byte) (rest, picture []byte) {
	var keys map[string]verbatim
	if json.Unmarshal(body, &keys) != nil || keys["picture"].text == nil {
		return body, nil
	}
	var fields [][]byte
	for key, value := range keys {
		if key != "picture" {
			name, _ := json.Marshal(key) // a text
			fields = append(fields, fmt.Appendf(nil, "%s:%s", name, value.text))
		}
	}
	return fmt.Appendf(nil, "{%s}", bytes.Join(fields, []byte(","))), keys["picture"].text
}

// servePicture answers with the bytes of the picture that the desk was opened with.
func (d *Desk) servePicture(w http.ResponseWriter, r *http.Request) {
	if !d.admits(w, r) {
		return
	}
	if d.picture == "" {
		refuse(w, http.StatusNotFound, "the desk was opened without a picture")
		return
	}
	f, header, err := picture.OpenFile(d.picture)
	if err != nil {
		refuse(w, http.StatusNotFound, err.Error())
		return
	}
	defer f.Close()
	w.Header().Set("Content-Type", "image/"+strings.ToLower(header.Format))
	http.ServeContent(w, r, "", time.Time{}, f)
}

// pixels decodes the picture of a call. Its size by its header is what the marks say.
func pixels(text []byte, m *reading.Marks) (*image.RGBA, error) {
	if text == nil {
		return nil, nil
	}
	wrong := func(format string, args ...any) error { return misplaced{"picture", fmt.Sprintf(format, args...)} }
	var data []byte
	if json.Unmarshal(text, &data) != nil {
		return nil, wrong("want a picture in the base64 of RFC 4648, 4")
	}
	header, err := picture.HeaderOf(data)
	switch {
	case len(data) > mostPicture:
		return nil, wrong("larger than %d MB", mostPicture/1_000_000)
	case err != nil:
		return nil, wrong("%v", err)
	case header.Width*header.Height > mostPixels:
		return nil, wrong("%d x %d pixels; want at most %d million", header.Width, header.Height, mostPixels/1_000_000)
	case reading.Pixel(header.Width) != m.Width || reading.Pixel(header.Height) != m.Height:
		return nil, wrong("%d x %d pixels, but the marks have the size [%g, %g]",
			header.Width, header.Height, float64(m.Width), float64(m.Height))
	}
	pixels, err := picture.DecodeBytes(data)
	if err != nil {
		return nil, wrong("%v", err)
	}
	return pixels, nil
}

// markFormats are what marks are kept as, besides the formats of sheets.
var markFormats = []string{"yaml", "profile"}

// keepMarks answers with a file of marks, or of what was read from them.
func (d *Desk) keepMarks(ctx context.Context, body []byte) (any, error) {
	rest, text := apart(body)
	if len(rest) > mostBody || len(body)-len(text) > 2*mostBody {
		return nil, errTooLarge
	}
	var in struct {
		marked
		Format  string          `json:"format"`
		Against json.RawMessage `json:"against"`
	}
	if err := decode(rest, &in); err != nil {
		return nil, err
	}
	kind, known := format.Find(in.Format)
	if !known && in.Format != "yaml" && in.Format != "profile" {
		return nil, misplaced{"format", strict.Unknown("format", in.Format, append(format.Names("", format.Any), markFormats...))}
	}
	f, err := d.marks(in.marked)
	if err != nil {
		return nil, err
	}
	out := file{f.Marks.Name + "." + in.Format, mimes[in.Format], nil}
	if in.Format == "yaml" {
		out.data = []byte(f.YAML())
		return out, nil
	}
	r, err := f.Reading()
	if err != nil {
		return nil, err
	}
	if in.Format == "profile" {
		text, _, err := draw.ReadingProfile(r)
		return file{f.Marks.Name + "-profile.yaml", mimes["yaml"], []byte(text)}, err
	}
	held, err := d.against(in.Against)
	if err != nil {
		return nil, err
	}
	s := photo.Sheet{Reading: r, Against: held.plan, Name: held.name, Differences: held.differences(r)}
	if s.Pixels, err = pixels(text, &f.Marks); err != nil {
		return nil, err
	}
	out.data, err = photoFile(ctx, s, held.path, kind)
	return out, err
}

// photoFile draws a photo sheet as a file.
func photoFile(ctx context.Context, s photo.Sheet, against string, kind format.Format) ([]byte, error) {
	j := job.Default()
	pages := func(yield func(render.Page, error) bool) { yield(s.Page(j.Setting, "")) }
	doc := draw.PhotoDocument([]reading.Reading{s.Reading}, against)
	files, _, err := draw.Render(doc, until(ctx, pages), kind, j)
	if err != nil {
		return nil, err
	}
	return files[0], nil
}

// markCommand answers with a line that draws the photo sheet of marks.
func (d *Desk) markCommand(body []byte) (any, error) {
	var in struct {
		marked
		Against json.RawMessage `json:"against"`
	}
	if err := decode(body, &in); err != nil {
		return nil, err
	}
	file, err := d.marks(in.marked)
	if err != nil {
		return nil, err
	}
	held, err := d.against(in.Against)
	if err != nil {
		return nil, err
	}
	name := file.Marks.Name
	if strings.HasPrefix(name, "-") { // no flag
		name = "./" + name
	}
	words := []string{"hubrule", "read", name + ".yaml"}
	if held.path != "" {
		words = append(words, "--against", held.path)
	}
	words = append(words, "-o", name+".pdf")
	return map[string]string{"line": strings.Join(slice.Map(words, shellWord), " ")}, nil
}
