//go:build unix

package main

import (
	_ "embed"
	"fmt"
	"os"
	"testing"
)

//go:embed axe/axe.min.js
var axe string

// everything is set in make oracle: all devices and all cases, of which make test takes those that differ most.
var everything = os.Getenv("HUBRULE_ORACLE") == "1"

// TestAccessibility: axe-core finds nothing of any weight, in light, dark and forced colours, from a phone to 4K, plain, with pictures open
// and in a clash; and no page scrolls sideways.
func TestAccessibility(t *testing.T) {
	for _, tc := range []struct {
		device
		pictures, clash bool
		often           bool
	}{
		{device: desktop, pictures: true, clash: true, often: true}, {device: device{width: 1440, height: 900, dark: true}, clash: true},
		{device: device{width: 1440, height: 900, forced: true}}, {device: tablet, clash: true},
		{device: device{width: 390, height: 844, touch: true, dark: true}, pictures: true, often: true},
		{device: device{width: 360, height: 640, touch: true, still: true}}, {device: device{width: 3840, height: 2160}},
	} {
		if !tc.often && !everything {
			continue
		}
		t.Run(fmt.Sprintf("%dx%d dark %v forced %v", tc.width, tc.height, tc.dark, tc.forced), func(t *testing.T) {
			v := visit(t, tc.device)
			v.settle()
			v.inspect("plain")
			if tc.pictures {
				v.press("[data-word=segment]")
				v.wait(`document.querySelector("#desk-tray input[type=radio]")`)
				v.inspect("pictures")
				v.must(v.keys("Escape"))
				v.press("[data-word=lines]")
				v.wait(`document.querySelector("#desk-tray .guides")`)
				v.inspect("lines")
				v.must(v.keys("Escape"))
			}
			if tc.clash {
				v.clash()
				v.settle()
				v.inspect("clash")
			}
		})
	}
}

// TestPhotoAccessibility: nor does it find anything where photographs are read, empty, marked and with a tray open.
func TestPhotoAccessibility(t *testing.T) {
	for i, tc := range []struct {
		device
		whole bool // empty, and with a tray too
	}{
		{desktop, true}, {device{width: 390, height: 844, touch: true, dark: true}, true},
		{device{width: 1440, height: 900, forced: true}, false}, {device{width: 1024, height: 768, touch: true, dark: true}, false},
		{device{width: 360, height: 640, touch: true, still: true}, false},
	} {
		if i > 0 && !everything { // as in TestHandoutAccessibility
			continue
		}
		t.Run(fmt.Sprintf("%dx%d dark %v forced %v", tc.width, tc.height, tc.dark, tc.forced), func(t *testing.T) {
			v := visit(t, tc.device)
			v.photos()
			if tc.whole {
				v.inspect("empty")
			}
			v.openSchool("averle")
			v.opens(school+"bontry.jpg", school+"bontry.yaml")
			v.wait(`document.querySelector("#photo-norms")?.textContent.includes("2")`)
			v.inspect("marked")
			if tc.whole {
				v.press("[data-word=kind]")
				v.wait(`document.querySelector("#desk-tray input[type=radio]")`)
				v.inspect("tray")
			}
		})
	}
}

// inspect runs axe-core over the page as it is.
func (v view) inspect(what string) {
	v.t.Helper()
	var loaded bool
	v.must(v.eval(`"axe" in window`, &loaded))
	if !loaded {
		v.must(v.eval(axe+";0", nil))
	}
	var found []struct {
		ID, Impact, Help string
		Nodes            []struct{ HTML string }
	}
	v.must(v.eval(`axe.run(document, {runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"], resultTypes: ["violations"]}).then(r =>
		r.violations.map(x => ({ID: x.id, Impact: x.impact, Help: x.help, Nodes: x.nodes.slice(0, 2).map(n => ({HTML: n.html.slice(0, 160) + " " + (n.any[0]?.message || "")}))})))`, &found))
	for _, f := range found {
		v.t.Errorf("%s: axe-core finds %s (%s): %s: %v", what, f.ID, f.Impact, f.Help, f.Nodes)
	}
	var over float64
	v.must(v.eval("document.documentElement.scrollWidth - innerWidth", &over))
	if over > 0 {
		v.t.Errorf("%s: the page scrolls sideways by %g pixels", what, over)
	}
}
