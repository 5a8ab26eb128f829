package reading

import (
	"slices"
	"strings"

	"hubrule/internal/slice"
	"hubrule/segments/strict"
)

// points reads the marks.
func (r *marksReader) points() {
	v, _ := r.top.Need("marks", "marks: a table of names, each with its points in pixels")
	r.file.table = v
	if v.IsNothing() && r.files != nil { // a new file: the page begins with it
		return
	}
	if !v.IsTable() {
		v.Want("a table of names, each with its points in pixels, like nose: [419, 1049]")
		return
	}
	names := slice.Map(Names(), Name.String)
	for _, f := range v.Table("mark", names).Fields {
		n := Name(slices.Index(names, f.Name))
		r.file.at[n] = f.Value
		r.name(n, f.Value)
	}
}

// hidden reads which marks the picture does not show.
func (r *marksReader) hidden() {
	v, ok := r.top.Get("hidden")
	if !ok {
		return
	}
	items, _ := v.Items(0, int(nameCount))
	m, names := &r.file.Marks, slice.Map(Names(), Name.String)
	for _, item := range items {
		text, ok := item.Choice("mark", names)
		n := Name(slices.Index(names, text))
		switch {
		case !ok:
		case slices.Contains(m.Hidden, n):
			item.Problem("%s stands twice; want it once", n)
		case n.Info().Most == 1 && len(m.Points[n]) > 0:
			item.Problem("%s is marked; want it hidden or marked", n)
		default:
			m.Hidden = append(m.Hidden, n)
		}
	}
}

// name reads the points of one name: a list of them, or the only one.
func (r *marksReader) name(n Name, v strict.Value) {
	info := n.Info()
	items := []strict.Value{v}
	if info.Most > 1 && !isPoint(v) {
		var ok bool
		if items, ok = v.Items(info.Least, info.Most); !ok {
			return
		}
	} else if info.Least > 1 {
		v.Problem("one point; want %d: %s", info.Least, info.Where)
		return
	} else if v.First().First() != (strict.Value{}) {
		v.Problem("a list of points; want one: %s", info.Where)
		return
	}
	for _, item := range items {
		mark, ok := r.mark(n, item)
		if !ok {
			continue
		}
		r.file.Marks.Points[n] = append(r.file.Marks.Points[n], mark)
		r.file.marks[n] = append(r.file.marks[n], item)
	}
	if marks, values := r.file.Marks.Points[n], r.file.marks[n]; slices.Contains([]Name{APillar, FrontLamp, RearLamp}, n) &&
		len(marks) == 2 && marks[0].At.Y < marks[1].At.Y { // the lower one counts first, in whichever order they stand
		slices.Reverse(marks)
		slices.Reverse(values)
	}
}

// isPoint reports whether v is one point and no list of points.
func isPoint(v strict.Value) bool {
	if v.IsTable() {
		return true
	}
	text, _ := v.First().Scalar()
	return strings.Trim(text, "0123456789") != text
}

// mark reads one point: [x, y], or a table with at, pm and inboard.
func (r *marksReader) mark(n Name, v strict.Value) (Mark, bool) {
	at, mark := v, Mark{}
	if v.IsTable() {
		keys := []string{"at", "pm", "inboard"}
		if n < firstOfBody {
			keys = keys[:2]
		}
		t := v.Table("key", keys)
		at, _ = t.Need("at", "at: [x, y]")
		pm := 0.
		t.Number("pm", .1, 200, &pm)
		mark.PM = Pixel(pm)
		if inboard, ok := t.Get("inboard"); ok {
			w := r.wheels(inboard, -.2, 2)
			mark.Inboard = &w
		}
	}
	var ok bool
	mark.At, ok = r.point(at)
	return mark, ok
}
