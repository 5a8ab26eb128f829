package photo

import (
	"math"
	"strconv"

	"hubrule/internal/geom"
	"hubrule/render"
	"hubrule/render/counting"
	"hubrule/render/draft"
	"hubrule/render/request"
	"hubrule/segments"
)

// countedWheel is a wheel that counts, whole or from lo to hi only, along the ground or up.
type countedWheel struct {
	guide  request.Guide
	id     string
	x, y   geom.Wheels // of its centre
	lo, hi geom.Wheels
	up     bool
	text   string // its numeral; "" is none
}

// countedWheels lists them as a side view's sheet has them: between the tyres from the front one, on the rear tyre up to the roof, and from
// each tyre to nose and tail.
func (d *drawing) countedWheels() (out []countedWheel) {
	rear := d.base + d.q/2
	row := func(guide request.Guide, prefix string, from, to geom.Wheels) {
		for k := 0; from+geom.Wheels(k)+counting.LeastRest < to; k++ {
			lo := from + geom.Wheels(k)
			w := countedWheel{guide: guide, id: prefix + strconv.Itoa(k+1), x: lo + .5, y: .5, lo: lo, hi: min(lo+1, to)}
			w.text = numeral(k+1, to-lo)
			out = append(out, w)
		}
	}
	row("between", "counted-", .5, d.base-d.q/2)
	if height, ok := d.length(segments.Height); ok {
		for k := 1; geom.Wheels(k)+counting.LeastRest < height; k++ {
			y := geom.Wheels(k)
			out = append(out, countedWheel{"stack", "stacked-" + strconv.Itoa(k+1), d.base, y + .5, y, min(y+1, height), true,
				numeral(k+1, height-y)})
		}
	}
	if x, ok := d.length(segments.RearOverhang); ok {
		for k := geom.Wheels(0); k < x; k++ {
			lo := rear + k
			out = append(out, countedWheel{"overhangs", "overhang-rear" + again(k), lo + .5, .5, lo, min(lo+1, rear+x), false, ""})
		}
	}
	if x, ok := d.length(segments.FrontOverhang); ok {
		for k := geom.Wheels(0); k < x; k++ {
			hi := -.5 - k
			out = append(out, countedWheel{"overhangs", "overhang-front" + again(k), hi - .5, .5, max(hi-1, -.5-x), hi, false, ""})
		}
	}
	return out
}

// numeral is what stands in wheel n, of which so much is there: its number, or the left-over.
func numeral(n int, there geom.Wheels) string {
	if there >= 1-counting.LeastRest {
		return strconv.Itoa(n)
	}
	return draft.FormatFixed(float64(there), 2)
}

// again tells the ids of several wheels over one overhang apart.
func again(k geom.Wheels) string {
	if k == 0 {
		return ""
	}
	return "-" + strconv.Itoa(int(k)+1)
}

// counted draws them: dashed what counts, dotted the rest.
func (d *drawing) counted() {
	for _, w := range d.countedWheels() {
		middle, turn := w.x, 0.
		if w.up {
			middle, turn = w.y, math.Pi/2
		}
		draw := func(k draft.LineStyle, id string, from, to float64) {
			d.arc(k.For(w.guide, id), arc{w.x, w.y, .5, from + turn, to + turn})
		}
		angle := func(at geom.Wheels) float64 { return math.Acos(min(max(float64(at-middle)/.5, -1), 1)) }
		const hair = 1e-6
		switch {
		case w.hi-w.lo >= 1-hair:
			d.circle(counting.CountedLine().For(w.guide, w.id), w.x, w.y, .5)
		case w.lo > middle-.5+hair: // it counts from its right edge
			a := angle(w.lo)
			draw(counting.CountedLine(), w.id, -a, a)
			draw(counting.SpareLine(), "", a, 2*math.Pi-a)
		default:
			a := angle(w.hi)
			draw(counting.CountedLine(), w.id, a, 2*math.Pi-a)
			draw(counting.SpareLine(), "", -a, a)
		}
	}
}

// numerals counts the wheels, each number in the upper half of its wheel where it is clear of lines.
func (d *drawing) numerals() {
	for _, w := range d.countedWheels() {
		if w.text == "" {
			continue
		}
		word := draft.Count(w.text)
		if len(w.text) > 1 {
			word = draft.Value(w.text)
		}
		l := draft.OneLine(word)
		var places []draft.PlacedLabel
		for _, up := range []geom.Wheels{.22, .1, -.2, .3, -.3, 0, -.4} {
			for _, along := range []geom.Wheels{0, .15, -.15, .3, -.3} {
				at := d.at((w.lo+w.hi)/2+along, w.y+up, 0)
				if w.up {
					at = d.at(w.x+along, min(w.y+up, w.hi-.1), 0)
				}
				places = append(places, l.MiddleAt(at.X, at.Y, render.Middle))
			}
		}
		for _, p := range places {
			if d.Free(p.Box(), .6) && d.box.Contains(p.Box()) {
				d.Write("labels", p)
				break
			}
		}
	}
}
