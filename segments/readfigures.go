package segments

import (
	"fmt"
	"iter"
	"math"
	"strings"

	"hubrule/internal/geom"
	"hubrule/segments/strict"
)

// figures reads the figures block over what is inherited, and asks for every figure the form has.
func (r *profileReader) figures() {
	p := r.profile
	p.SetTyres(p.Wheel, p.RearWheel)
	if block, ok := r.top.Get("figures"); ok {
		var given [FigureCount]bool
		for f, field := range readFigureTable(block, r.misplaced) {
			given[f] = true
			if f.Info().Role == Derived {
				r.pin(f, field.Value)
			} else {
				r.figure(f, field.Value)
			}
		}
		r.missing(block, given)
	} else if r.extends {
		r.missing(r.top.Value, [FigureCount]bool{})
	}
	for f := range FigureCount {
		if p.Form != "" && !p.Form.Has(f) {
			p.Figures[f] = Entry{}
		}
	}
}

// readFigureTable goes through the figures of a table. Refusal says why a figure may not stand in it, "" where it may;
// those that may not are reported and left out.
func readFigureTable(v strict.Value, refusal func(Figure) string) iter.Seq2[Figure, strict.Field] {
	return func(yield func(Figure, strict.Field) bool) {
		allowed, others := figuresWithout(refusal)
		for _, field := range v.Table("figure", allowed, withHints(others)...).Fields {
			f, known := Lookup(field.Name)
			if why := refusal(f); !known {
				field.Problem("%s", UnknownFigure(field.Name, allowed))
			} else if why != "" {
				field.Problem("%s", why)
			} else if !yield(f, field) {
				return
			}
		}
	}
}

// figuresWithout names the figures for which there is no refusal, and the others.
func figuresWithout(refusal func(Figure) string) (allowed, others []string) {
	for f := range FigureCount {
		if refusal(f) != "" {
			others = append(others, f.String())
		} else {
			allowed = append(allowed, f.String())
		}
	}
	return allowed, others
}

// atTop reports whether f has a key of its own outside the figures block.
func atTop(f Figure) bool { return f == Wheel || f == RearWheel || f == formFigure }

// misplaced says why a figure may not stand in the figures block.
func (r *profileReader) misplaced(f Figure) string {
	if atTop(f) {
		return f.String() + " stands at the top of the file, not among the figures"
	}
	return r.profile.Form.lacks(f)
}

// lacks says that form m has no figure f; "" where it has one or is not known.
func (m Form) lacks(f Figure) string {
	if m == "" || m.Has(f) {
		return ""
	}
	return fmt.Sprintf("a %s has no %s; want it left out", m, f)
}

// missing names all figures that had to be given in the table v and are not: those of the form that nothing was inherited for.
func (r *profileReader) missing(v strict.Value, given [FigureCount]bool) {
	p := r.profile
	if p.Form == "" || r.blind() || !v.IsTable() {
		return // another mistake, reported already, is the reason
	}
	var names []string
	for f := range FigureCount {
		known := given[f] || r.inherits(f) || atTop(f) || f == Rim && p.Wheel.RimDiameter > 0
		if f.Info().Role != Derived && p.Form.Has(f) && !known {
			names = append(names, f.String())
		}
	}
	if len(names) > 0 {
		v.Problem("no %s; want every figure of a %s", strings.Join(names, ", "), p.Form)
	}
}

// figure reads one figure: a value alone, or a table of value, range and basis. What is left out is inherited.
func (r *profileReader) figure(figure Figure, v strict.Value) {
	e := r.profile.Figures[figure]
	t, at := strict.Table{Value: v}, v
	if v.IsTable() {
		t = v.Table("key", []string{"value", "range", "basis"})
		if value, ok := t.Get("value"); ok {
			at = value
		} else if !r.inherits(figure) && !r.blind() {
			v.Problem("no value; want one")
			return
		}
	}
	valued := true
	if at != v || !v.IsTable() {
		e.Value, valued = r.quantity(figure, at)
	}
	e.Range = r.figureRange(figure, t, e.Range)
	e.Basis = r.basis(figure, t, e.Basis)
	if valued && e.Range != (Range{}) && !e.Range.contains(e.Value) {
		r.outside(figure, t, at, e)
	}
	r.profile.Figures[figure] = e
}

// figureRange reads a figure's range: two quantities, the smaller first. A declared figure needs one, its own or an inherited one.
func (r *profileReader) figureRange(figure Figure, t strict.Table, inherited Range) Range {
	v, ok := t.Get("range")
	if !ok {
		if inherited == (Range{}) && figure.Info().Role == Declared && !r.blind() {
			t.Value.Problem("no range; want {value: …, range: [from, to], basis: …}")
		}
		return inherited
	}
	items, ok := v.Items(2, 2)
	if !ok {
		return Range{}
	}
	lo, ok1 := r.quantity(figure, items[0])
	hi, ok2 := r.quantity(figure, items[1])
	if !ok1 || !ok2 {
		return Range{}
	}
	if lo >= hi {
		v.Problem("%s; want the smaller value first", figure.rangeText(Range{lo, hi}))
		return Range{}
	}
	return Range{lo, hi}
}

// basis reads where a figure comes from. Its first letter grades the source.
func (r *profileReader) basis(figure Figure, t strict.Table, inherited string) string {
	v, ok := t.Get("basis")
	if !ok {
		if inherited == "" && figure.Info().Role == Declared && t.Value.IsTable() && !r.blind() {
			t.Value.Problem("no basis; want basis: one line that says where the figure comes from")
		}
		return inherited
	}
	text, ok := v.Text(longestSentence)
	if ok && !strings.HasPrefix(text, "M ") && !strings.HasPrefix(text, "C ") && !strings.HasPrefix(text, "R ") {
		v.Want("M (measured), C (common practice) or R (remembered, by eye) and a sentence")
	}
	return text
}

// quantity reads a figure's value in its own unit, within what makes sense for any vehicle.
func (r *profileReader) quantity(f Figure, v strict.Value) (float64, bool) {
	bounds := f.bounds()
	if f.Info().Unit != InWheels {
		return v.Number(bounds.Lo, bounds.Hi)
	}
	l, ok := parseScalar(v, lengthForm, ParseLength)
	wheel := r.profile.Wheel.Diameter
	if !ok || l.Unit != "w" && wheel == 0 {
		return 0, false // the wheel's own mistake is reported already
	}
	x := float64(l.wheels(wheel))
	if !bounds.contains(x) {
		v.Want("%s", f.boundsText(l.Unit, wheel))
		return 0, false
	}
	return x, true
}

// bounds are what makes sense for any vehicle.
func (f Figure) bounds() Range { return Range{figureInfos[f].Lo, figureInfos[f].Hi} }

// boundsText writes the bounds of a length, and repeats them in millimetres if the length was written in another unit than wheels.
func (f Figure) boundsText(unit string, wheel geom.MM) string {
	b := f.bounds()
	if unit == "w" {
		return f.rangeText(b)
	}
	mm := func(w float64) string { return strict.FormatNumber(math.Round(w * float64(wheel))) }
	return fmt.Sprintf("%s (%smm to %smm)", f.rangeText(b), mm(b.Lo), mm(b.Hi))
}

// valueText writes a value for a message, with the unit it is written in.
func (f Figure) valueText(x float64) string {
	if f.Info().Unit == InWheels {
		return strict.FormatNumber(x) + "w"
	}
	return strict.FormatNumber(x)
}

func (f Figure) rangeText(r Range) string { return f.valueText(r.Lo) + " to " + f.valueText(r.Hi) }
