//go:build unix

package main

import (
	"encoding/json"
	"fmt"
	"image"
	"image/color"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/chromedp"
	"gopkg.in/yaml.v3"
)

// photos opens the place of photographs.
func (v view) photos() {
	v.t.Helper()
	v.press("[data-place=photo]")
	v.wait(`document.querySelector("#photo-open, #photo-asked")`)
}

// opens gives files to the page.
func (v view) opens(paths ...string) { v.t.Helper(); v.must(v.give(paths...)) }

// shows waits until the picture stands on the paper.
func (v view) shows() {
	v.t.Helper()
	v.wait(`document.querySelector("#photo-hand") && !document.querySelector(".without")`)
	v.settle()
}

// shot is a picture with its marks, as the page keeps it.
type shot struct {
	Name   string
	Size   [2]float64
	Marks  map[string][]*struct{ X, Y float64 }
	Unseen []string
	At     struct {
		Mark  string
		Index int
	}
	Known map[string]any
}

// shot returns the one on the paper.
func (v view) shot() (out shot) {
	v.t.Helper()
	var text string
	v.must(v.eval(`(() => { const w = JSON.parse(sessionStorage.getItem("hubrule-photo-1")).now; return JSON.stringify(w.shots.find(s => s.id === w.now)) })()`, &text))
	v.must(json.Unmarshal([]byte(text), &out))
	return out
}

// clickOn presses a place of the picture, in its pixels, while the whole picture is shown.
func (v view) clickOn(s shot, p point, box place) {
	v.t.Helper()
	k := box.Width / s.Size[0]
	x, y := box.X+p.x*k, box.Y+p.y*k
	if v.touch {
		v.must(chromedp.Run(v.tab, input.DispatchTouchEvent(input.TouchStart, []*input.TouchPoint{{X: x, Y: y, ID: 1}}),
			input.DispatchTouchEvent(input.TouchEnd, []*input.TouchPoint{})))
		return
	}
	click := func(kind input.MouseType) chromedp.Action {
		press := input.DispatchMouseEvent(kind, x, y).WithButton(input.Left).WithButtons(1).WithClickCount(1)
		if !strings.HasPrefix(s.At.Mark, "tyre-") { // made pictures have no other edges: with Shift a mark goes to none
			press = press.WithModifiers(input.ModifierShift)
		}
		return press
	}
	v.must(chromedp.Run(v.tab, input.DispatchMouseEvent(input.MouseMoved, x, y), click(input.MousePressed), click(input.MouseReleased)))
}

// walkOver marks everything that a case has marks for, each where its walk asks for it, and says of all else that it cannot be seen.
func (v view) walkOver(c caseFile) {
	v.t.Helper()
	for range 4 {
		v.press("[data-do=farther]")
	}
	v.wait(`document.querySelector("[data-do=farther][aria-disabled=true]")`)
	box, err := v.box("#photo-hand")
	v.must(err)
	for range 80 {
		s := v.shot()
		points := c.points(v.t, s.At.Mark)
		if s.At.Index < len(points) {
			v.clickOn(s, points[s.At.Index], box)
		} else {
			v.press("[data-do=unseen]")
		}
		var done bool // the last place stays asked for
		v.must(v.eval(fmt.Sprintf(`new Promise(done => { const until = Date.now() + 8000, look = () => {
			const w = JSON.parse(sessionStorage.getItem("hubrule-photo-1")).now, s = w.shots.find(s => s.id === w.now);
			if (s.at.mark !== %[1]q || s.at.index !== %[2]d) done(false);
			else if (s.unseen.includes("%[1]s.%[2]d") || s.marks[%[1]q]?.[%[2]d] || Date.now() > until) done(true);
			else setTimeout(look, 4) }; look() })`, s.At.Mark, s.At.Index), &done))
		if done {
			return
		}
	}
	v.t.Fatal("the walk does not end")
}

// readFigure is a figure of the page's table, or of `read --format json`.
type readFigure struct {
	Value, PM float64
	State     string
}

// table returns the figures of the page's table.
func (v view) table() (out map[string]readFigure) {
	v.t.Helper()
	v.must(v.eval(`Object.fromEntries([...document.querySelectorAll("#photo-table tr[data-figure]")].map(r => [r.dataset.figure,
		{Value: +r.querySelector("[data-value]").dataset.value, PM: +r.querySelector("[data-pm]").dataset.pm, State: r.children[5].textContent}]))`, &out))
	return out
}

// saved returns the file that a button saves, once it is there.
func (v view) saved(button, ending string) string {
	v.t.Helper()
	before, _ := filepath.Glob(filepath.Join(v.downloads, "*"+ending))
	v.press(button)
	for range 400 {
		files, _ := filepath.Glob(filepath.Join(v.downloads, "*"+ending))
		for _, f := range files {
			if info, err := os.Stat(f); err == nil && info.Size() > 0 && !slices.Contains(before, f) {
				return f
			}
		}
		time.Sleep(30 * time.Millisecond)
	}
	v.t.Fatalf("%s saved nothing that ends in %s", button, ending)
	return ""
}

// readBy returns what the command reads from a marks file.
func readBy(t *testing.T, path string) (figures map[string]readFigure) {
	t.Helper()
	out, err := exec.Command(program, "read", path, "--format", "json").Output()
	if err != nil {
		t.Fatalf("read: %v", err)
	}
	var r struct {
		Figures map[string]struct {
			Value, PM *float64
			State     string
		}
	}
	if err := json.Unmarshal(out, &r); err != nil {
		t.Fatal(err)
	}
	figures = map[string]readFigure{}
	for name, f := range r.Figures {
		if f.Value != nil && f.State != "absent" {
			figures[name] = readFigure{*f.Value, *f.PM, f.State}
		}
	}
	return figures
}

// The six invented vehicles of testdata/reading, marked by clicks on pictures made from them: the page shows the very figures that the
// command reads from the file that it saves, and the true ones lie within the ±.
func TestMarksByClicks(t *testing.T) {
	var truth map[string]struct {
		Figures map[string]struct{ True float64 }
	}
	data, err := os.ReadFile("../../../testdata/reading/figures.json")
	if err == nil {
		err = json.Unmarshal(data, &truth)
	}
	if err != nil {
		t.Fatal(err)
	}
	inside, all := 0, 0
	for name, want := range truth {
		if !everything && name != "sunk-right" { // the one that faces right; make oracle has them all
			continue
		}
		c := readCase(t, name+"-exact")
		folder := t.TempDir()
		picture := c.made(t, folder)
		c.known["kind"], c.known["size"], c.known["picture"], c.known["pm"] = "marks", c.Size, "made.jpg", 4
		empty, err := yaml.Marshal(c.known)
		if err != nil {
			t.Fatal(err)
		}
		marks := filepath.Join(folder, name+".yaml")
		if err := os.WriteFile(marks, append(empty, "marks: {}\n"...), 0o644); err != nil {
			t.Fatal(err)
		}
		v := visit(t, desktop)
		v.photos()
		v.opens(marks)
		v.wait(`document.querySelector(".without")`)
		v.opens(picture)
		v.shows()
		v.walkOver(c)
		v.wait(`document.querySelector("#photo-table tr[data-figure=belt]")`)
		time.Sleep(settling)
		shown := v.table()
		saved := v.saved("[data-save=yaml]", ".yaml")
		if err := os.WriteFile(filepath.Join(filepath.Dir(saved), "made.jpg"), must(os.ReadFile(picture))(t), 0o644); err != nil {
			t.Fatal(err)
		}
		read := readBy(t, saved)
		if len(read) != len(shown) || len(read) < 8 {
			t.Errorf("%s: the page shows %d figures, read prints %d", name, len(shown), len(read))
		}
		for figure, r := range read {
			if shown[figure] != r {
				t.Errorf("%s: the page shows %s %v, read prints %v", name, figure, shown[figure], r)
			}
		}
		for figure, f := range want.Figures {
			r, ok := read[figure]
			if !ok || r.State != "read" {
				continue
			}
			all++
			if math.Abs(r.Value-f.True) <= r.PM {
				inside++
			} else {
				t.Logf("%s: %s %.3f ± %.3f, truly %.3f", name, figure, r.Value, r.PM, f.True)
			}
		}
		v.nothingSent()
		v.close()
	}
	if share := float64(inside) / float64(all); !(share >= .9) || all < 8 { // by hand on a third of the pixels
		t.Errorf("%d of %d true figures lie inside their ±", inside, all)
	}
}

func must[T any](v T, err error) func(*testing.T) T {
	return func(t *testing.T) T {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
}

// nothingSent fails if a request had a picture in it: only marks go to the program.
func (v view) nothingSent() {
	v.t.Helper()
	v.mu.Lock()
	defer v.mu.Unlock()
	for _, body := range v.bodies {
		if len(body) > 20_000 || strings.Contains(body, `"picture":"/9j`) || strings.Contains(body, `"picture":"iVBOR`) {
			v.t.Errorf("a request of %d bytes begins %.80s", len(body), body)
		}
	}
}

// A picture that is turned any way stands upright, with its lens.
func TestOrientations(t *testing.T) {
	upright := image.NewRGBA(image.Rect(0, 0, 90, 60))
	for y := range 60 {
		for x := range 90 {
			upright.Set(x, y, color.RGBA{uint8(250 * (x / 45)), uint8(250 * (y / 30)), 60, 255})
		}
	}
	v := visit(t, desktop)
	v.photos()
	for orientation := 1; orientation <= 8; orientation++ {
		path := filepath.Join(t.TempDir(), fmt.Sprintf("o%d.jpg", orientation))
		turnedJPEG(t, upright, orientation, 85, path)
		v.opens(path)
		v.wait(fmt.Sprintf(`document.querySelector("[data-word=shot]")?.textContent.startsWith("o%d.jpg, 90 × 60")`, orientation))
		v.shows()
		var corners [4][3]float64
		v.must(v.eval(`(() => { const c = document.querySelector("canvas.art"), g = c.getContext("2d"), at = (x, y) =>
			[...g.getImageData(Math.round(c.width * x), Math.round(c.height * y), 1, 1).data].slice(0, 3);
			return [at(.2, .2), at(.8, .2), at(.2, .8), at(.8, .8)] })()`, &corners))
		for i, want := range [4][2]float64{{0, 0}, {250, 0}, {0, 250}, {250, 250}} {
			if math.Abs(corners[i][0]-want[0]) > 40 || math.Abs(corners[i][1]-want[1]) > 40 {
				t.Errorf("orientation %d: corner %d is %v, want red and green %v", orientation, i, corners[i], want)
			}
		}
		if s := v.shot(); s.Known["focal"] != 85. {
			t.Errorf("orientation %d: the lens is %v, want 85", orientation, s.Known["focal"])
		}
	}
}

// What is no picture, or too much of one, is refused in one sentence and nothing hangs.
func TestPicturesRefused(t *testing.T) {
	folder := t.TempDir()
	header := func(w, h uint32) []byte {
		return append([]byte("\x89PNG\r\n\x1a\n\x00\x00\x00\rIHDR"), byte(w>>24), byte(w>>16), byte(w>>8), byte(w), byte(h>>24), byte(h>>16), byte(h>>8), byte(h), 8, 2, 0, 0, 0)
	}
	v := visit(t, desktop)
	v.photos()
	for _, tc := range []struct {
		name string
		data []byte
		want string
	}{
		{"wide.png", header(60_000, 60_000), "60000 × 60000 pixels"},
		{"bomb.png", header(19_000, 19_000), "19000 × 19000 pixels"},
		{"phone.heic", []byte("\x00\x00\x00\x18ftypheic\x00\x00\x00\x00mif1heic"), "save it as JPEG"},
		{"words.jpg", []byte("not a picture at all"), "no picture"},
		{"short.jpg", []byte{0xff, 0xd8, 0xff, 0xe0, 0, 16}, "damaged"},
		{"cut.png", header(200, 100), "damaged"}, {"small.png", header(3, 1), "too small"},
	} {
		path := filepath.Join(folder, tc.name)
		v.must(os.WriteFile(path, tc.data, 0o644))
		v.opens(path)
		v.wait(fmt.Sprintf(`document.querySelector("#desk-note").textContent.startsWith(%q)`, tc.name))
		if note := v.says("desk-note"); !strings.Contains(note, tc.want) || strings.Contains(note, ". ") {
			t.Errorf("%s is answered with %q", tc.name, note)
		}
	}
}
