//go:build unix

package main

import (
	"fmt"
	"os"
	"strings"
	"testing"
)

// grips are the eleven grips, and by how many pixels each is dragged: down or right, and back.
var grips = []struct {
	figure string
	dx, dy float64
}{
	{"height", 0, 14}, {"belt", 0, -10}, {"sill", 0, -6}, {"clearance", 0, -6}, {"front-overhang", -12, 0}, {"rear-overhang", 14, 0},
	{"glass-end", -16, 0}, {"wheels-between", 22, 0}, {"arch-gap", 0, -5}, {"pillar-rake", 16, 4}, {"pillar-aim", 0, -8},
}

// dragAll drags each grip: its figure moves and is pinned, one step of undo each, and nothing clashes, whatever the way.
func (v view) dragAll() {
	v.t.Helper()
	for i, g := range grips {
		before := v.value(g.figure)
		b, err := v.box(`#desk-grips [data-grip="` + g.figure + `"]`)
		v.must(err)
		x, y := b.middle()
		var scrolled float64
		v.must(v.drag(x, y, g.dx, g.dy, nil))
		v.wait(fmt.Sprintf(`JSON.parse(localStorage.getItem("hubrule-desk-1")).past.length === %d`, i+1))
		v.wait(fmt.Sprintf(`document.querySelector('[data-figure=%q][role=slider]').getAttribute("aria-valuenow") != %g`, g.figure, before))
		v.settle()
		if _, is := v.kept().Job.Pin[g.figure]; !is {
			v.t.Errorf("%s is not pinned after a drag: %v", g.figure, v.kept().Job.Pin)
		}
		v.must(v.eval("scrollX", &scrolled))
		if alert := v.says("desk-alert"); alert != "" || scrolled != 0 {
			v.t.Errorf("%s: after a drag the page scrolled by %g and says %q", g.figure, scrolled, alert)
		}
	}
}

func TestDragByMouse(t *testing.T) {
	v := visit(t, desktop)
	v.dragAll()
	for range grips {
		v.press("#desk-undo")
		v.settle()
	}
	if k := v.kept(); len(k.Job.Pin) > 0 || len(k.Past) > 0 || len(k.Future) != len(grips) {
		t.Errorf("undone to the start: pins %v, %d steps back, %d forward", k.Job.Pin, len(k.Past), len(k.Future))
	}
}

// TestADragStops: the belt cannot come below the arches. It stops there, the reason stands at the grip, and nothing clashes.
func TestADragStops(t *testing.T) {
	v := visit(t, desktop)
	b, err := v.box(`#desk-grips [data-grip="belt"]`)
	v.must(err)
	x, y := b.middle()
	held := ""
	v.must(v.drag(x, y, 0, 320, func() { v.wait(`document.querySelector("p.stop")`); held = v.stopWords() }))
	v.settle()
	v.wait(`document.querySelector('[data-figure=belt][role=slider]').getAttribute("aria-valuenow") < 1.2`)
	if want := "arch"; !strings.Contains(held, want) || !strings.Contains(v.stopWords(), want) {
		t.Errorf("at the stop %q, after letting go %q; want both to name the %s", held, v.stopWords(), want)
	}
	if got := v.value("belt"); got < 1.05 || got > 1.2 {
		t.Errorf("belt stopped at %g; want just over the arch", got)
	}
	if alert := v.says("desk-alert"); alert != "" {
		t.Errorf("the drag clashed: %s", alert)
	}
	// Escape takes a drag back, and a press that moves nothing leaves no pin.
	steps := len(v.kept().Past)
	b, err = v.box(`#desk-grips [data-grip="height"]`)
	v.must(err)
	x, y = b.middle()
	v.must(v.drag(x, y, 0, 20, func() { v.must(v.keys("Escape")) }))
	v.must(v.drag(x, y, 0, 0, nil))
	v.settle()
	if k := v.kept(); len(k.Past) != steps || k.Job.Pin["height"] != "" {
		t.Errorf("a drag that Escape ended left %v after %d steps; want none of the roof after %d", k.Job.Pin, len(k.Past), steps)
	}
}

// TestARefusedRoom: where the program cannot say how far a figure may go, the grip is let go, and the next one can be dragged.
func TestARefusedRoom(t *testing.T) {
	v := visit(t, desktop)
	v.must(v.eval(`{ const fetched = window.fetch; window.fetch = (to, ...more) => String(to).includes("/solve")
		? Promise.resolve(new Response('{"problems":[{"where":"","text":"no"}]}', {status: 422, headers: {"Content-Type": "application/json"}}))
		: fetched(to, ...more); window.restoreFetch = () => { window.fetch = fetched } }`, nil))
	b, err := v.box(`#desk-grips [data-grip="height"]`)
	v.must(err)
	x, y := b.middle()
	v.must(v.drag(x, y, 0, 14, nil))
	v.settle()
	if k := v.kept(); len(k.Past) != 0 {
		t.Errorf("a drag without a room left %d steps", len(k.Past))
	}
	v.must(v.eval("restoreFetch()", nil))
	v.must(v.drag(x, y, 0, 14, nil))
	v.wait(`JSON.parse(localStorage.getItem("hubrule-desk-1")).past.length === 1`)
}

func (v view) stopWords() string {
	v.t.Helper()
	var out string
	v.must(v.eval(`document.querySelector("p.stop")?.textContent || ""`, &out))
	return out
}

func TestDragByTouch(t *testing.T) {
	v := visit(t, tablet)
	ways := []float64{1}
	if os.Getenv("HUBRULE_ORACLE") != "" {
		ways = append(ways, -1)
	}
	for _, much := range ways {
		for _, g := range grips {
			before, steps := v.value(g.figure), len(v.kept().Past)
			b, err := v.box(`#desk-grips [data-grip="` + g.figure + `"]`)
			v.must(err)
			x, y := b.middle()
			// 40 pixels: on the elements of an SVG a browser would have taken the finger for scrolling long before.
			long := 40 / max(abs(g.dx), abs(g.dy)) * much
			v.must(v.drag(x, y, g.dx*long, g.dy*long, nil))
			v.wait(fmt.Sprintf(`document.querySelector('[data-figure=%q][role=slider]').getAttribute("aria-valuenow") != %g || document.querySelector("p.stop")`,
				g.figure, before))
			v.settle()
			var scrolled float64
			v.must(v.eval("scrollY + scrollX", &scrolled))
			after := v.value(g.figure)
			if stopped := v.stopWords(); after == before && stopped == "" || len(v.kept().Past) == steps && stopped == "" {
				t.Errorf("%s: dragged by %g, %g pixels it went from %g to %g, and says %q", g.figure, g.dx*long, g.dy*long, before, after, stopped)
			}
			if scrolled != 0 && before == after {
				t.Errorf("%s: the finger scrolled the page", g.figure)
			}
			if len(v.kept().Past) > steps {
				v.press("#desk-undo")
				v.settle()
			}
		}
	}
}

func abs(x float64) float64 { return max(x, -x) }
