//go:build unix

package main

import (
	"bytes"
	"context"
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
	if _, err := exec.LookPath(shell); err != nil {
		fmt.Printf("%s is missing; it is in the Debian package of that name\n", shell)
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
