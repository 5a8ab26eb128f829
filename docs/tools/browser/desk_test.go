//go:build unix

package main

import (
	"bytes"
	"context"
	_ "embed"
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/chromedp"
)

// The program, the browser and a desk that all tests share: the desk keeps nothing, and the tests take turns in the browser.
var (
	program  string
	browsing context.Context
	shared   *desk
)

func TestMain(m *testing.M) { os.Exit(run(m)) }

func run(m *testing.M) int {
	if _, err := exec.LookPath("chromium"); err != nil {
		fmt.Println("chromium is missing; it is in the Debian package chromium")
		if os.Getenv("HUBRULE_STRICT") != "" {
			return 1
		}
		return 0
	}
	folder, err := os.MkdirTemp("", "desk")
	if err != nil {
		fmt.Println(err)
		return 1
	}
	defer os.RemoveAll(folder)
	if program, err = build(folder); err != nil {
		fmt.Println(err)
		return 1
	}
	if shared, err = start(program, "suv"); err != nil {
		fmt.Println(err)
		return 1
	}
	var end func()
	browsing, end, err = chromium()
	defer end()
	if err != nil {
		fmt.Println(err)
		return 1
	}
	code := m.Run()
	if err := shared.stop(); err != nil {
		fmt.Println("Ctrl-C:", err)
		return 1
	}
	return code
}

var (
	desktop = device{width: 1440, height: 900}
	tablet  = device{width: 1024, height: 768, touch: true}
	phone   = device{width: 390, height: 844, touch: true}
)

// view is a tab of one test.
type view struct {
	*tab
	t *testing.T
}

// visit opens the shared desk and waits for its first drawing. At the end no request may have left, and nothing may have been reported.
func visit(t *testing.T, d device) view {
	t.Helper()
	tab, err := open(browsing, shared.url, d, t.TempDir())
	v := view{tab, t}
	v.must(err)
	t.Cleanup(func() {
		for _, r := range v.elsewhere(shared.url) {
			t.Errorf("a request left the desk: %s", r)
		}
		for _, e := range v.errors {
			t.Errorf("the console says: %s", e)
		}
		v.close()
	})
	v.wait(`document.querySelector("#desk-figures [data-figure=height]")`)
	return v
}

func (v view) must(err error) {
	v.t.Helper()
	if err != nil {
		v.t.Fatal(err)
	}
}

func (v view) wait(expression string) { v.t.Helper(); v.must(v.until(expression)) }
func (v view) press(selector string)  { v.t.Helper(); v.must(v.tap(selector)) }

// job is what the page keeps of its state.
type job struct {
	Segment string
	Tweak   map[string]float64
	Pin     map[string]string
	Sheets  []string
}

type kept struct {
	Job        job
	Past       []job
	Future     []job
	Good, Held any
}

func (v view) kept() kept {
	v.t.Helper()
	var text string
	v.must(v.eval(`localStorage.getItem("hubrule-desk-1") || "{}"`, &text))
	var out kept
	v.must(json.Unmarshal([]byte(text), &out))
	return out
}

// value returns the value of a figure as its slider says it, in wheels, degrees or as a count.
func (v view) value(figure string) float64 {
	v.t.Helper()
	var out float64
	v.must(v.eval(fmt.Sprintf(`+document.querySelector('[data-figure=%q][role=slider]').getAttribute("aria-valuenow")`, figure), &out))
	return out
}

// says returns the words of the region that speaks.
func (v view) says(id string) string {
	v.t.Helper()
	var out string
	v.must(v.eval(`document.querySelector("#`+id+`").textContent`, &out))
	return out
}

// settle waits until no drawing is under way.
func (v view) settle() { time.Sleep(150 * time.Millisecond) }

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

// TestTyping: a value is typed in three units, relative to what it was, and as nonsense.
func TestTyping(t *testing.T) {
	v := visit(t, desktop)
	focus := `document.querySelector('#desk-figures [data-figure=height][role=slider]').focus()`
	for _, tc := range []struct {
		typed string
		want  float64
	}{{"2.3", 2.3}, {"1737mm", 1737 / 739.}, {"65in", 65 * 25.4 / 739}, {"-0.1", 65*25.4/739 - .1}} {
		v.must(v.eval(focus, nil))
		v.must(v.keys("Enter"))
		v.wait(`document.activeElement.tagName === "INPUT"`)
		v.must(v.keys(tc.typed, "Enter"))
		v.wait(fmt.Sprintf(`Math.abs(document.querySelector('[data-figure=height][role=slider]').getAttribute("aria-valuenow") - %g) < .002`, tc.want))
	}
	v.must(v.eval(focus, nil))
	v.must(v.keys("Enter"))
	v.wait(`document.activeElement.tagName === "INPUT"`)
	v.must(v.keys("tall", "Enter"))
	v.wait(`document.activeElement.tagName === "INPUT" && document.body.textContent.includes("tall")`)
	v.must(v.keys("Escape"))
	v.must(v.keys("p"))
	v.settle()
	if pin := v.kept().Job.Pin; len(pin) > 0 {
		t.Errorf("P releases; the job still pins %v", pin)
	}
}

// clash types a length that the pinned parts cannot have.
func (v view) clash() {
	v.t.Helper()
	v.typeAt("wheels-between", "3.2")
	for _, figure := range []string{"wheels-between", "front-overhang", "rear-overhang"} {
		if figure != "wheels-between" {
			v.must(v.eval(fmt.Sprintf(`document.querySelector('#desk-figures [data-figure=%q][role=slider]').focus()`, figure), nil))
			v.must(v.keys("p"))
		}
		v.wait(fmt.Sprintf(`%q in (JSON.parse(localStorage.getItem("hubrule-desk-1")).job.pin || {})`, figure))
		v.settle()
	}
	v.typeAt("length", "5.95")
	v.wait(`document.querySelector("#desk-clash button")`)
}

func (v view) typeAt(figure, text string) {
	v.t.Helper()
	v.must(v.eval(fmt.Sprintf(`document.querySelector('#desk-figures [data-figure=%q][role=slider]').focus()`, figure), nil))
	v.must(v.keys("Enter"))
	v.wait(`document.activeElement.tagName === "INPUT"`)
	v.must(v.keys(text, "Enter"))
}

// TestWaysOutOfAClash leaves a clash through each button that is offered, by mouse, by finger and by keys.
func TestWaysOutOfAClash(t *testing.T) {
	for name, d := range map[string]device{"mouse": desktop, "finger": tablet, "keys": {width: 1440, height: 1000}} {
		t.Run(name, func(t *testing.T) {
			v := visit(t, d)
			v.clash()
			var ways int
			v.must(v.eval(`document.querySelectorAll("#desk-clash button").length`, &ways))
			if ways < 6 { // take back, four releases, three or four values
				t.Fatalf("%d ways out of a clash of four pins", ways)
			}
			if alert := v.says("desk-alert"); !strings.Contains(alert, "cannot all hold") {
				t.Errorf("the alert says %q", alert)
			}
			var saving bool
			v.must(v.eval(`[...document.querySelectorAll("[data-save]")].every(b => b.disabled || b.getAttribute("aria-disabled") === "true")`, &saving))
			if !saving {
				t.Error("a clash can be saved")
			}
			for i := range ways {
				v.must(v.eval(fmt.Sprintf(`document.querySelectorAll("#desk-clash button")[%d].setAttribute("data-try", "")`, i), nil))
				if name == "keys" {
					v.must(v.eval(`document.querySelector("[data-try]").focus()`, nil))
					v.must(v.keys("Enter"))
				} else {
					v.press("[data-try]")
				}
				v.wait(`!document.querySelector("#desk-clash button")`)
				v.settle()
				if i == 0 { // the change is taken back: it is made again
					v.typeAt("length", "5.95")
				} else {
					v.must(v.chord("z", input.ModifierCtrl))
				}
				v.wait(`document.querySelector("#desk-clash button")`)
			}
		})
	}
}

// TestSavedFiles: each format that the page saves is the file that the command line writes, and outside readers read it.
func TestSavedFiles(t *testing.T) {
	v := visit(t, desktop)
	v.typeAt("height", "2.3")
	v.wait(`"height" in (JSON.parse(localStorage.getItem("hubrule-desk-1")).job.pin || {})`)
	v.settle()
	saved := func(format, ending string) []byte {
		v.press(`[data-save="` + format + `"]`)
		for range 200 {
			files, _ := filepath.Glob(filepath.Join(v.downloads, "*"+ending))
			if len(files) == 1 {
				if data, err := os.ReadFile(files[0]); err == nil && len(data) > 0 {
					return data
				}
			}
			time.Sleep(30 * time.Millisecond)
		}
		t.Fatalf("no %s was saved", format)
		return nil
	}
	folder := t.TempDir()
	brief := filepath.Join(folder, "brief.yaml")
	v.must(os.WriteFile(brief, saved("yaml", ".yaml"), 0o644))
	for _, f := range []struct {
		format string
		reader []string
	}{{"svg", []string{"xmllint", "--noout"}}, {"pdf", []string{"qpdf", "--check"}}, {"png", []string{"identify"}}} {
		path := filepath.Join(folder, "drawn."+f.format)
		out, err := exec.Command(program, "draw", brief, "-o", path).CombinedOutput()
		if err != nil {
			t.Fatalf("draw: %v\n%s", err, out)
		}
		want, err := os.ReadFile(path)
		v.must(err)
		got := saved(f.format, "."+f.format)
		if !bytes.Equal(got, want) {
			t.Errorf("the %s that the page saves has %d bytes and is not the one that draw writes, of %d", f.format, len(got), len(want))
		}
		page := filepath.Join(folder, "page."+f.format)
		v.must(os.WriteFile(page, got, 0o644))
		if out, err := exec.Command(f.reader[0], append(f.reader[1:], page)...).CombinedOutput(); err != nil {
			t.Errorf("%s: %v\n%s", f.reader[0], err, out)
		}
	}
}

// TestReload: job and undo are there again after a reload.
func TestReload(t *testing.T) {
	v := visit(t, desktop)
	v.typeAt("height", "2.3")
	v.wait(`"height" in (JSON.parse(localStorage.getItem("hubrule-desk-1")).job.pin || {})`)
	v.settle()
	v.must(chromedp.Run(v.tab, chromedp.Reload()))
	v.wait(`document.querySelector("#desk-figures [data-figure=height]")`)
	v.settle()
	if got := v.value("height"); got != 2.3 {
		t.Errorf("after a reload the roof is at %g; want 2.3", got)
	}
	v.must(v.chord("z", input.ModifierCtrl))
	v.wait(`Math.abs(document.querySelector('[data-figure=height][role=slider]').getAttribute("aria-valuenow") - 2.3) > .01`)
}

// TestKeyboardAlone does a job without a mouse: choose a segment, lower the roof, thin the greenhouse, undo.
func TestKeyboardAlone(t *testing.T) {
	v := visit(t, desktop)
	here := func() string {
		var out string
		v.must(v.eval(`(() => { const a = document.activeElement; return a.dataset.figure || a.dataset.word || a.id || a.textContent.trim().slice(0, 24) })()`, &out))
		return out
	}
	v.must(v.keys("Tab"))
	if at := here(); at != "to the sheet" {
		t.Errorf("the first Tab goes to %q; want the way to the sheet", at)
	}
	v.must(v.keys("Enter"))
	order := []string{here()}
	for range 15 {
		v.must(v.keys("Tab"))
		order = append(order, here())
	}
	for i, figure := range []string{"wheel", "wheels-between", "wheelbase", "height"} {
		if order[i] != figure {
			t.Errorf("Tab walks %v; want wheel, wheels-between, wheelbase, height first", order)
			break
		}
	}
	for here() != "height" {
		v.must(v.chord("Tab", input.ModifierShift))
	}
	was := v.value("height")
	v.must(v.keys("ArrowDown"))
	v.wait(fmt.Sprintf(`document.querySelector('[data-figure=height][role=slider]').getAttribute("aria-valuenow") < %g`, was))
	v.must(v.chord("ArrowDown", input.ModifierShift))
	v.wait(fmt.Sprintf(`document.querySelector('[data-figure=height][role=slider]').getAttribute("aria-valuenow") < %g`, was-.1))
	time.Sleep(400 * time.Millisecond)
	if said := v.says("desk-says"); !strings.Contains(said, "roof") || !strings.Contains(said, "pinned") || !strings.Contains(said, "millimetres") {
		t.Errorf("after two arrows it is said: %q", said)
	}
	if at := here(); at != "height" {
		t.Errorf("the focus went from the roof to %q", at)
	}
	for i := 0; here() != "segment" && i < 60; i++ {
		v.must(v.chord("Tab", input.ModifierShift))
	}
	v.must(v.keys("Enter"))
	v.wait(`document.activeElement.type === "radio"`)
	v.must(v.keys("ArrowRight"))
	v.wait(`JSON.parse(localStorage.getItem("hubrule-desk-1")).job.segment !== "suv"`)
	v.must(v.keys("Escape"))
	v.wait(`document.activeElement.dataset.word === "segment"`)
	v.must(v.chord("z", input.ModifierCtrl))
	v.wait(`JSON.parse(localStorage.getItem("hubrule-desk-1")).job.segment === "suv"`)
}

// TestEveryKindAndView: each kind of sheet and each view is drawn.
func TestEveryKindAndView(t *testing.T) {
	v := visit(t, desktop)
	for _, word := range []string{"sheet", "view"} {
		v.press(`[data-word=` + word + `]`)
		v.wait(`document.querySelector("#desk-tray input[type=radio]")`)
		var n int
		v.must(v.eval(`document.querySelectorAll("#desk-tray input[type=radio]").length`, &n))
		if n < 6 {
			t.Errorf("the word %s opens %d pictures", word, n)
		}
		for i := range n {
			var choice string
			v.must(v.eval(fmt.Sprintf(`(() => { if (!document.querySelector("#desk-tray input")) document.querySelector("[data-word=%s]").click() })()`, word), nil))
			v.wait(`document.querySelector("#desk-tray input[type=radio]")`)
			v.must(v.eval(fmt.Sprintf(`(() => { const r = document.querySelectorAll("#desk-tray input[type=radio]")[%d]; r.click(); return r.value })()`, i), &choice))
			v.settle()
			v.wait(`document.querySelector("#desk-art g")`)
			if alert := v.says("desk-alert"); alert != "" && !slices.Contains([]string{"ellipses"}, choice) {
				t.Errorf("%s %s: %s", word, choice, alert)
			}
		}
		v.must(v.keys("Escape"))
		for range 12 {
			v.must(v.chord("z", input.ModifierCtrl))
		}
		v.settle()
	}
}

// TestTrayOfLines: it fits the sheet, says what is drawn, and leaves out a guide and brings it back.
func TestTrayOfLines(t *testing.T) {
	v := visit(t, desktop)
	v.press("[data-word=lines]")
	v.wait(`document.querySelector("#desk-tray .guides")`)
	tray, err := v.box("#desk-tray")
	v.must(err)
	paper, err := v.box("#desk-paper")
	v.must(err)
	if tray.Height > paper.Height {
		t.Errorf("the tray is %g pixels high, the sheet %g", tray.Height, paper.Height)
	}
	const roof = `[...document.querySelectorAll(".guides label")].find(l => l.textContent.trim() === "Roof level")`
	v.wait(roof + `.querySelector("input").checked`)
	v.must(v.eval(roof+`.click()`, nil))
	v.wait(`!document.querySelector("#desk-art [id=guide-roof]") && document.querySelector("[data-word=lines]").textContent.includes("guides")`)
	v.must(v.eval(roof+`.click()`, nil))
	v.wait(`document.querySelector("#desk-art [id=guide-roof]") && document.querySelector("[data-word=lines]").textContent === "its usual lines"`)
}

//go:embed axe/axe.min.js
var axe string

// TestAccessibility: axe-core finds nothing of any weight, in light, dark and forced colours, from a phone to 4K, plain, with pictures open
// and in a clash; and no page scrolls sideways.
func TestAccessibility(t *testing.T) {
	for _, tc := range []struct {
		device
		pictures, clash bool
	}{
		{device: desktop, pictures: true, clash: true}, {device: device{width: 1440, height: 900, dark: true}, clash: true},
		{device: device{width: 1440, height: 900, forced: true}}, {device: tablet, clash: true},
		{device: device{width: 390, height: 844, touch: true, dark: true}, pictures: true},
		{device: device{width: 360, height: 640, touch: true, still: true}}, {device: device{width: 3840, height: 2160}},
	} {
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

// inspect runs axe-core over the page as it is.
func (v view) inspect(what string) {
	v.t.Helper()
	v.must(v.eval(axe+";0", nil))
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
