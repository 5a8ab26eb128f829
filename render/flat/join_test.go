package flat

import (
	"testing"

	"hubrule/layout/view"
)

// A shut line that all but meets another is carried on to it; one that ends far from any and a loop stay as they are.
func TestJoin(t *testing.T) {
	t.Parallel()
	line := func(kind view.LineKind, points ...view.ImagePoint) visibleLine {
		return visibleLine{view.Line{Kind: kind}, [][]view.ImagePoint{points}}
	}
	at := func(x, y view.ImageLength) view.ImagePoint { return view.ImagePoint{X: x, Y: y} }
	lines := []visibleLine{
		line(view.GlassLine, at(-1, 0), at(1, 0)),
		line(view.DetailLine, at(.5, 1), at(.5, .1)),
		line(view.DetailLine, at(0, 1), at(0, .2)),
		line(view.DetailLine, at(.7, .1), at(.8, .1), at(.8, .3), at(.7, .1)),
	}
	lines = append(lines, line(view.DetailLine, at(-.5, .1), at(-.5, .5), at(-.9, .5), at(-.9, .1)))
	join(lines, nil)
	if last := lines[4].runs[0]; last[0] != at(-.5, 0) || last[len(last)-1] != at(-.9, 0) {
		t.Errorf("a line of which both ends are near another one runs from %v to %v", last[0], last[len(last)-1])
	}
	for i, want := range []view.ImagePoint{at(1, 0), at(.5, 0), at(0, .2), at(.7, .1)} {
		run := lines[i].runs[0]
		if got := run[len(run)-1]; got.Sub(want).Len() > 1e-9 {
			t.Errorf("line %d ends at %v; want %v", i, got, want)
		}
	}
}
