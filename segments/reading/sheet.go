package reading

import (
	"math"
	"strings"

	"gonum.org/v1/gonum/mat"

	"hubrule/render/request"
	"hubrule/segments/strict"
)

// Sheet is the printed sheet that a sketch was drawn on. It needs no camera: four points of the paper are known.
type Sheet struct {
	Paper  request.Paper
	Framed bool     // it has a frame
	Ends   [4]Point // inner ends of the centring marks: left, top, right, bottom
	Bar    []Point  // ends of the check bar; none where it was not marked

	toPaper matrix // pixels to millimetres from the middle of the paper
}

// prepare finds how the picture shows the paper. It reports failure where three of the marks lie on a line.
func (s *Sheet) prepare() bool {
	ends := s.Paper.CentringEnds(s.Framed)
	var from, to [4]vec
	for i := range ends {
		from[i] = vec{float64(s.Ends[i].X), float64(s.Ends[i].Y)}
		to[i] = vec{float64(ends[i].X - s.Paper.Width/2), float64(ends[i].Y - s.Paper.Height/2)}
	}
	var ok bool
	s.toPaper, ok = homographyThrough(from, to)
	return ok && convex(from)
}

// convex reports whether four points go round in one sense, by more than a hair.
func convex(p [4]vec) bool {
	for i := range p {
		a, b := p[(i+1)%4].sub(p[i]), p[(i+2)%4].sub(p[(i+1)%4])
		if a.cross(b) <= 1e-3*a.len()*b.len() {
			return false
		}
	}
	return true
}

// homographyThrough returns the homography that takes four points to four others, and whether there is one.
func homographyThrough(from, to [4]vec) (matrix, bool) {
	a, b := mat.NewDense(8, 8, nil), mat.NewVecDense(8, nil)
	for i := range from {
		p, q := from[i], to[i]
		a.SetRow(2*i, []float64{p.x, p.y, 1, 0, 0, 0, -p.x * q.x, -p.y * q.x})
		a.SetRow(2*i+1, []float64{0, 0, 0, p.x, p.y, 1, -p.x * q.y, -p.y * q.y})
		b.SetVec(2*i, q.x)
		b.SetVec(2*i+1, q.y)
	}
	var h mat.VecDense
	if failed(h.SolveVec(a, b)) {
		return matrix{}, false
	}
	v := h.RawVector().Data
	return matrix{{v[0], v[1], v[2]}, {v[3], v[4], v[5]}, {v[6], v[7], 1}}, true
}

// flatten returns where on the paper a point of the picture lies, and a deviation there, in millimetres.
func (s *Sheet) flatten(at Point, sd float64) (vec, float64) {
	p := vec{float64(at.X), float64(at.Y)}
	q := s.toPaper.apply(p)
	j := s.toPaper.derivative(p, q)
	return q, sd * math.Sqrt(math.Abs(j[0][0]*j[1][1]-j[0][1]*j[1][0]))
}

// sheet reads the sheet under a sketch.
func (r *marksReader) sheet() {
	v, ok := r.top.Get("on-sheet")
	if !ok {
		return
	}
	t := v.Table("key", []string{"paper", "portrait", "frame", "left", "top", "right", "bottom", "bar"})
	s := &Sheet{}
	if name, ok := t.Need("paper", "paper: A3 or another name"); ok {
		text, _ := name.Scalar()
		if s.Paper, ok = request.FindPaper(text); !ok {
			var names []string
			for _, p := range request.Papers() {
				names = append(names, p.Name)
			}
			name.Choice("paper", names)
		}
	}
	if p, ok := t.Get("portrait"); ok {
		if upright, _ := p.Bool(); upright {
			s.Paper = s.Paper.Portrait()
		}
	}
	if f, ok := t.Get("frame"); ok {
		s.Framed, _ = f.Bool()
	}
	for i, side := range []string{"left", "top", "right", "bottom"} {
		if end, ok := t.Need(side, side+": [x, y], the inner end of the centring mark on that side"); ok {
			s.Ends[i], _ = r.point(end)
		}
	}
	if bar, ok := t.Get("bar"); ok {
		items, _ := bar.Items(2, 2)
		for _, item := range items {
			p, _ := r.point(item)
			s.Bar = append(s.Bar, p)
		}
	}
	r.file.Marks.Sheet, r.file.sheet = s, v
	switch {
	case r.doc().Err() != nil:
	case !s.prepare():
		v.Problem("the centring marks make no page; want left, top, right and bottom as the page shows them, upright")
	default:
		s.checkPaper(&r.file.Marks, v, t.At("bar"))
	}
}

// doc is the file that is being read.
func (r *marksReader) doc() *strict.Document { return r.file.doc }

// point reads [x, y].
func (r *marksReader) point(v strict.Value) (Point, bool) {
	items, ok := v.Items(2, 2)
	if !ok {
		return Point{}, false
	}
	for _, item := range items {
		switch text, _ := item.Scalar(); {
		case text == "x" || text == "y": // as a new marks file has them
			v.Problem("[x, y] stands for the mark; want two numbers, pixels from the picture's top left corner")
			return Point{}, false
		case strings.HasSuffix(text, "%"):
			item.Want("pixels from the picture's top left corner")
			return Point{}, false
		}
	}
	const far = 100_000 // whether it lies in the picture is judged when its size is known
	x, one := items[0].Number(-far, far)
	y, two := items[1].Number(-far, far)
	if r.files.IsClosed() {
		x, y = rounded(x), rounded(y)
	}
	return Point{X: Pixel(x), Y: Pixel(y)}, one && two
}
