package reading

import (
	"cmp"
	"errors"
	"io"
	"io/fs"
	"path/filepath"

	"hubrule/internal/geom"
	"hubrule/internal/picture"
	"hubrule/segments"
	"hubrule/segments/strict"
)

// File is a marks file as it was read: the marks, and where each stands in it.
type File struct {
	Marks   Marks
	doc     *strict.Document
	picture strict.Value // its path
	sheet   strict.Value // under a sketch
	table   strict.Value // of all marks
	at      [nameCount]strict.Value
	marks   [nameCount][]strict.Value
	inputs  []string
}

// PictureProblem returns what is wrong with the picture as a problem at its place in the marks file.
func (f *File) PictureProblem(err error) error {
	f.picture.Problem("%v", err)
	return f.doc.Err()
}

// LoadMarks reads a marks file; [strict.Stdin] is read from in. The error is a *strict.Problems with everything that is wrong inside, or
// about a file that cannot be read.
func LoadMarks(path string, in io.Reader) (*File, error) {
	doc, err := strict.LoadFrom(path, in)
	if err != nil {
		return nil, err
	}
	return ReadMarks(nil, path, doc)
}

// ReadMarks reads the marks of a document; paths in it start from path's folder. Files, which may be nil, keep what was read for a page,
// which may set the marks yet. Where they are closed the marks came from there: no picture is opened, its size is in the marks, and points
// are as exact as YAML writes them.
func ReadMarks(files *segments.Files, path string, doc *strict.Document) (*File, error) {
	want := "kind: marks"
	if files.IsClosed() {
		want = ""
	}
	if !doc.Is("marks", want) {
		return nil, doc.Err()
	}
	r := marksReader{file: &File{doc: doc}, files: files, folder: segments.FolderOf(path)}
	m := &r.file.Marks
	m.Path, m.Name = path, segments.Stem(path)
	r.top = doc.Top().Table("key", markKeys)
	r.picture()
	r.vehicle()
	r.camera()
	r.sheet()
	r.points()
	r.hidden()
	if segments.IsStream(path) {
		m.Name = cmp.Or(stemOf(m.Picture), "marks")
	}
	if err := errors.Join(doc.Err(), r.nested); err != nil {
		return nil, err
	}
	return r.file, nil
}

// Reading reads the marks. What is wrong with them is reported where it stands: the error is a *strict.Problems.
func (f *File) Reading() (Reading, error) {
	r, err := f.Marks.Reading()
	return r, f.placed(err)
}

// Inputs lists the files that the marks file names: picture and profile.
func (f *File) Inputs() []string { return f.inputs }

// placed reports a refusal where its marks stand.
func (f *File) placed(err error) error {
	var refusal *Refusal
	if !errors.As(err, &refusal) {
		return err
	}
	for _, fault := range refusal.Faults {
		place := f.doc.Top()
		switch {
		case fault.onSheet:
			place = f.sheet
		case fault.Name < nameCount && fault.Index >= 0 && fault.Index < len(f.marks[fault.Name]):
			place = f.marks[fault.Name][fault.Index]
		case fault.Name < nameCount && len(f.marks[fault.Name]) > 0:
			place = f.at[fault.Name]
		case fault.Name < nameCount:
			place, fault.Text = f.table, fault.Name.String()+": "+fault.Text
		}
		place.Problem("%s", fault.Text)
	}
	return f.doc.Err()
}

// marksReader reads one file step by step; whatever is wrong is gathered in its document.
type marksReader struct {
	file   *File
	files  *segments.Files
	folder string
	top    strict.Table
	focal  float64 // from the picture's header; 0 if none
	nested error   // the error in the profile that it names
	noTyre bool    // the tyre is wrong: what needs it is not reported again
}

// Bounds of what marks files say.
const (
	leastSide, mostSide = 100, picture.MaxSide
	longestName         = 80
	longestPath         = 400
)

// picture reads what is about the picture.
func (r *marksReader) picture() {
	m := &r.file.Marks
	r.top.Text("student", longestName, &m.Student)
	m.studentPlace = m.Path
	if v, ok := r.top.Get("student"); ok {
		m.studentPlace = v.Place()
	}
	if v, ok := r.top.Need("facing", "facing: left or right, where the nose points"); ok {
		way, _ := v.Choice("way", []string{"left", "right"})
		m.FacesRight = way == "right"
	}
	r.size()
	pm := 0.
	r.top.Number("pm", .1, 200, &pm)
	m.PM = Pixel(pm)
}

// size reads the picture's size from the file, or from the picture's header; where both have it they must agree.
func (r *marksReader) size() {
	m := &r.file.Marks
	size, sized := r.top.Get("size")
	if items, ok := size.Items(2, 2); sized && ok {
		width, _ := items[0].Number(leastSide, mostSide)
		height, _ := items[1].Number(leastSide, mostSide)
		m.Width, m.Height = Pixel(width), Pixel(height)
	}
	v, ok := r.top.Get("picture")
	if ok {
		m.Picture, ok = v.Text(longestPath)
	}
	switch _, named := r.top.Get("picture"); {
	case !sized && r.files.IsClosed():
		r.top.Need("size", "size: [width, height] of the picture in pixels")
	case !sized && !named:
		r.top.Need("size", "size: [width, height] of the picture in pixels, or picture: and its path")
	}
	if !ok || r.files.IsClosed() {
		return
	}
	r.file.inputs = append(r.file.inputs, m.PicturePath())
	r.file.picture = v
	header, err := picture.Open(m.PicturePath())
	switch w, h := Pixel(header.Width), Pixel(header.Height); {
	case errors.Is(err, fs.ErrNotExist):
		v.Problem("%s: %v", m.PicturePath(), err)
	case err != nil:
		v.Problem("%v", err)
	case sized && (w != m.Width || h != m.Height):
		size.Problem("[%s, %s], but %s has [%s, %s]; want the size of the upright "+
			"picture", number(m.Width), number(m.Height), m.Picture, number(w), number(h))
	default:
		m.Width, m.Height, r.focal = w, h, header.Focal
	}
}

// PicturePath returns where the picture lies: paths in a marks file start from its folder.
func (m *Marks) PicturePath() string {
	if filepath.IsAbs(m.Picture) {
		return m.Picture
	}
	return filepath.Join(segments.FolderOf(m.Path), m.Picture)
}

// vehicle reads what is known of the vehicle.
func (r *marksReader) vehicle() {
	m := &r.file.Marks
	r.parsed("tyre", func(text string) (err error) { m.Tyre, err = segments.ParseTyre(text); return err })
	r.parsed("rear-tyre", func(text string) (err error) { m.RearTyre, err = segments.ParseTyre(text); return err })
	_, shod := r.top.Get("tyre")
	r.noTyre = shod && m.Tyre.Diameter == 0
	if v, ok := r.top.Get("rear-tyre"); ok && !shod {
		v.Problem("a rear tyre alone; want tyre as well, the front one")
	}
	if v, ok := r.top.Get("like"); ok {
		if text, ok := v.Text(longestPath); ok {
			var inside *strict.Problems
			path := segments.PathFrom(r.folder, text)
			if !segments.IsName(path) {
				r.file.inputs = append(r.file.inputs, path)
			}
			like, err := segments.Library{Files: r.files}.Find(path)
			if m.Like = like; errors.As(err, &inside) {
				r.nested = err
			} else if err != nil {
				v.Problem("%v", err)
			}
		}
	}
	m.HalfWidth = r.wheels(r.top.At("half-width"), .5, 2.5)
	m.Track = r.wheels(r.top.At("track"), .8, 4.8)
	m.Wheelbase = m.wheelsToMM(r.length("wheelbase", 1000, 12000))
	round := r.top.At("round")
	if round.IsTable() {
		t := round.Table("end", []string{"nose", "tail", "crown"})
		for _, f := range t.Fields {
			w := r.wheels(f.Value, 0, 1)
			*map[string]**geom.Wheels{"nose": &m.Round.Nose, "tail": &m.Round.Tail, "crown": &m.Round.Crown}[f.Name] = &w
		}
	} else {
		round.Want("a table like {nose: 0.25w, tail: 0.12w, crown: 0.06w}")
	}
}

// camera reads what is known of where the picture was taken from.
func (r *marksReader) camera() {
	m := &r.file.Marks
	r.top.Number("focal", picture.MinFocal, picture.MaxFocal, &m.Focal)
	m.Distance = r.length("distance", 500, 1_000_000)
	m.EyeHeight = r.length("eye-height", 100, 10_000)
	if v, ok := r.top.Get("cropped"); ok {
		m.Cropped, _ = v.Bool()
	}
	if m.Focal == 0 && !m.Cropped { // what a camera says holds for the whole picture
		m.Focal = r.focal
	}
	m.OnCircles = r.top.Choice("stands-on", "way to stand", []string{"circles"}) != ""
}

// parsed reads the text of a key.
func (r *marksReader) parsed(key string, parse func(string) error) {
	if v, ok := r.top.Get(key); ok {
		text, _ := v.Scalar()
		if err := parse(text); err != nil {
			v.Problem("%v", err)
		}
	}
}

// wheels reads a length in wheels from lo to hi; 0 where there is none.
func (r *marksReader) wheels(v strict.Value, lo, hi float64) geom.Wheels {
	text, ok := v.Scalar()
	if !ok {
		v.Want("a length in w, like 1.4w")
		return 0
	}
	l, err := segments.ParseLength(text)
	switch b := (strict.Bounds{Lo: lo, Hi: hi, Unit: "w"}); {
	case err != nil:
		v.Problem("%v", err)
	case l.Unit != "w":
		v.Want("a length in w, like 1.4w")
	case !b.Contain(l.Value):
		v.Want("%s", b)
	default:
		return geom.Wheels(l.Value)
	}
	return 0
}

// length reads the length of a key, in any unit, from lo to hi millimetres; without a unit where there is none. Wheels need the tyre.
func (r *marksReader) length(key string, lo, hi float64) segments.Measure {
	v, ok := r.top.Get(key)
	if !ok {
		return segments.Measure{}
	}
	text, _ := v.Scalar()
	l, err := segments.ParseLength(text)
	wheel := cmp.Or(r.file.Marks.Tyre.Diameter, usualTyre)
	switch b := (strict.Bounds{Lo: lo, Hi: hi, Unit: "mm"}); {
	case err != nil:
		v.Problem("%v", err)
	case !b.Contain(float64(l.MM(wheel))):
		v.Want("%s", b)
	case l.Unit != "w" && r.file.Marks.Tyre.Diameter == 0 && key != "eye-height" && !r.noTyre:
		v.Problem("a length on the vehicle without a tyre to measure it with; want tyre: as well, or %s in w", key)
	default:
		return l
	}
	return segments.Measure{}
}

// wheelsToMM returns a length in millimetres; 0 without a unit.
func (m *Marks) wheelsToMM(l segments.Measure) geom.MM {
	if l.Unit == "" {
		return 0
	}
	return l.MM(m.Tyre.Diameter)
}

// stemOf returns a file's name without its ending; "" of no name.
func stemOf(path string) string {
	if path == "" {
		return ""
	}
	return segments.Stem(path)
}
