//go:build unix

package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
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

// opens gives files to the page, as its button "open…" does.
func (v view) opens(paths ...string) {
	v.t.Helper()
	for i, path := range paths {
		full, err := filepath.Abs(path)
		v.must(err)
		paths[i] = full
	}
	v.must(chromedp.Run(v.tab, chromedp.SetUploadFiles(`#desk-top input[type=file]`, paths, chromedp.ByQuery)))
}

// shows waits until the picture stands on the paper.
func (v view) shows() {
	v.t.Helper()
	v.wait(`document.querySelector("#photo-hand") && !document.querySelector(".without")`)
	v.settle()
}

// shot is a picture with its marks, as the page keeps it.
type shot struct {
	Name  string
	Size  [2]float64
	Marks map[string][]*struct{ X, Y float64 }
	At    struct {
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
	if share := float64(inside) / float64(all); !(share >= .9) || all < 60 { // by hand on a third of the pixels
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
		{"cut.png", header(200, 100), "damaged"},
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

// school is a photograph of the docs with its marks.
const school = "../../examples/school/photos/"

// openSchool opens one, marked.
func (v view) openSchool(name string) {
	v.t.Helper()
	v.photos()
	v.opens(school+name+".jpg", school+name+".yaml")
	v.wait(`document.querySelector("#photo-table tr[data-figure=belt]")`)
	v.shows()
}

// What the page saves is what the command writes, byte for byte; only the photo sheet takes the picture, and of its file only the pixels.
func TestPhotoSaved(t *testing.T) {
	v := visit(t, desktop)
	v.openSchool("averle")
	v.press("[data-word=laid]")
	v.must(v.eval(`document.querySelector("#desk-tray input[value=suv]").click()`, nil))
	v.must(v.keys("Escape"))
	v.wait(`document.querySelector("#photo-moves")`)
	v.nothingSent()
	marks := v.saved("[data-save=yaml]", ".yaml")
	folder := t.TempDir()
	own := filepath.Join(folder, "averle.yaml")
	v.must(os.Rename(marks, own))
	v.must(os.WriteFile(filepath.Join(folder, "averle.jpg"), must(os.ReadFile(school+"averle.jpg"))(t), 0o644))
	for _, f := range []struct{ format, ending, out string }{
		{"profile", ".yaml", "profile/averle.yaml"}, {"svg", ".svg", "averle.svg"}, {"pdf", ".pdf", "averle.pdf"}, {"png", ".png", "averle.png"},
	} {
		out := filepath.Join(folder, f.out)
		v.must(os.MkdirAll(filepath.Dir(out), 0o755))
		args := []string{"read", own, "-o", out}
		if f.format != "profile" {
			args = append(args, "--against", "suv")
		}
		if text, err := exec.Command(program, args...).CombinedOutput(); err != nil {
			t.Fatalf("%v: %v\n%s", args, err, text)
		}
		got, want := must(os.ReadFile(v.saved(`[data-save="`+f.format+`"]`, f.ending)))(t), must(os.ReadFile(out))(t)
		if string(got) != string(want) {
			t.Errorf("the %s that the page saves has %d bytes and is not the one that read writes, of %d", f.format, len(got), len(want))
		}
	}
}

// Marks, and the picture under them, are there again after a reload; undo takes them back.
func TestPhotoReload(t *testing.T) {
	v := visit(t, desktop)
	v.openSchool("averle")
	before := v.table()
	v.must(chromedp.Run(v.tab, chromedp.Reload()))
	v.wait(`document.querySelector("#photo-table tr[data-figure=belt]")`)
	v.shows()
	if after := v.table(); after["belt"] != before["belt"] {
		t.Errorf("after a reload the belt is %v; before it was %v", after["belt"], before["belt"])
	}
	v.wait(`(() => { const c = document.querySelector("canvas.art"); return c.getContext("2d").getImageData(c.width >> 1, c.height >> 1, 1, 1).data[3] })()`)
	v.press("#desk-undo")
	v.wait(`!document.querySelector("#photo-table")`)
	v.press("#desk-redo")
	v.wait(`document.querySelector("#photo-table tr[data-figure=belt]")`)
}

// A person's whole way by keyboard alone: to the place, over the tyres, a mark that cannot be seen, one that is moved, and its figures.
func TestPhotoByKeys(t *testing.T) {
	v := visit(t, desktop)
	here := func() string {
		var out string
		v.must(v.eval(`(() => { const a = document.activeElement; return a.dataset.place || a.dataset.do || a.dataset.step || a.id || a.tagName })()`, &out))
		return out
	}
	tabTo := func(want string) {
		t.Helper()
		for range 60 {
			if here() == want {
				return
			}
			v.must(v.keys("Tab"))
		}
		t.Fatalf("Tab does not lead to %s; it is at %s", want, here())
	}
	tabTo("photo")
	v.must(v.keys("Enter"))
	v.opens(school + "averle.jpg") // choosing a file is the browser's own
	v.shows()
	tabTo("photo-cross")
	tyre := func(x, y float64) {
		for i := range 8 {
			angle := []float64{150, 180, 205, 235, 305, 335, 0, 25}[i] * math.Pi / 180
			v.crossTo(point{x + 118*math.Cos(angle), y + 118*math.Sin(angle)})
			v.must(v.keys("Enter"))
		}
	}
	tyre(504, 813)
	tyre(1417, 812)
	v.wait(`document.querySelector("#photo-table tr[data-figure=wheels-between]")`)
	if at := here(); at != "photo-cross" {
		t.Errorf("after sixteen marks the focus is at %s", at)
	}
	v.must(v.keys("Delete"))
	v.wait(`JSON.parse(sessionStorage.getItem("hubrule-photo-1")).now.shots[0].unseen.length === 1`)
	was := v.table()["wheels-between"]
	v.must(v.keys("Backspace", "Backspace"))
	v.must(v.chord("ArrowRight", input.ModifierShift))
	v.wait(fmt.Sprintf(`+document.querySelector("#photo-table tr[data-figure=wheels-between] [data-value]")?.dataset.value !== %g`, was.Value))
	time.Sleep(2 * settling)
	if said := v.says("desk-says"); !strings.Contains(said, "across") || !strings.Contains(said, "wheels between") || !strings.Contains(said, "plus or minus") {
		t.Errorf("it is said: %q", said)
	}
}

// crossTo moves the cross by keys to a place of the picture, as near as whole pixels go.
func (v view) crossTo(to point) {
	v.t.Helper()
	var text string
	v.must(v.eval(`JSON.stringify(document.querySelector("#photo-cross").dataset)`, &text))
	var at struct{ X, Y string }
	v.must(json.Unmarshal([]byte(text), &at))
	var x, y float64
	fmt.Sscan(at.X, &x)
	fmt.Sscan(at.Y, &y)
	for _, way := range []struct {
		by         float64
		less, more string
	}{{to.x - x, "ArrowLeft", "ArrowRight"}, {to.y - y, "ArrowUp", "ArrowDown"}} {
		key := way.more
		if way.by < 0 {
			key = way.less
		}
		far := int(math.Round(math.Abs(way.by)))
		for range far / 10 {
			v.must(v.chord(key, input.ModifierShift))
		}
		for range far % 10 {
			v.must(v.keys(key))
		}
	}
}

// Two photographs become norms, and norms an underlay; so does one.
func TestNormsToUnderlay(t *testing.T) {
	v := visit(t, desktop)
	v.openSchool("averle")
	v.opens(school+"bontry.jpg", school+"bontry.yaml")
	v.wait(`document.querySelector("#photo-norms")?.textContent.includes("2")`)
	v.press("#photo-norms")
	v.wait(`document.querySelector("#photo-norms-table tbody tr")`)
	folder := t.TempDir()
	out := filepath.Join(folder, "norms.yaml")
	text, err := exec.Command(program, "norms", school+"averle.yaml", school+"bontry.yaml", "--like", "crossover", "-o", out).CombinedOutput()
	if err != nil {
		t.Fatalf("norms: %v\n%s", err, text)
	}
	if got, want := must(os.ReadFile(v.saved(`[data-norms=yaml]`, ".yaml")))(t), must(os.ReadFile(out))(t); string(got) != string(want) {
		t.Errorf("the norms that the page saves are not those of the command:\n%s\n%s", got, want)
	}
	v.press("#photo-draw-norms")
	v.wait(`document.querySelector("#desk-figures [data-figure=height]")`)
	v.settle()
	drawn := v.value("height")
	v.press("[data-place=photo]")
	v.wait(`document.querySelector("#photo-draw:not([aria-disabled=true])")`)
	read := v.table()["height"].Value
	v.press("#photo-draw")
	v.wait(`document.querySelector("#desk-figures [data-figure=height]") && document.querySelector("[data-word=segment]").textContent.startsWith("bontry")`)
	v.settle()
	if one := v.value("height"); math.Abs(one-read) > .002 || one == drawn {
		t.Errorf("the roof was read at %.4f; it is drawn at %.4f, and of the norms at %.4f", read, one, drawn)
	}
	if alert := v.says("desk-alert"); alert != "" {
		t.Error(alert)
	}
}

// With a finger on a tablet a tyre is marked, a mark is dragged, and two fingers come closer; the page neither scrolls nor loses the finger.
func TestPhotoByTouch(t *testing.T) {
	v := visit(t, tablet)
	v.photos()
	v.opens(school + "averle.jpg")
	v.shows()
	box, err := v.box("#photo-hand")
	v.must(err)
	v.must(v.eval(`addEventListener("pointercancel", () => document.title = "cancelled")`, nil))
	for i := range 4 {
		v.clickOn(v.shot(), point{0, 0}, place{box.X + box.Width*(.3+.05*float64(i)), box.Y + box.Height*.4, 0, 0})
		v.wait(fmt.Sprintf(`JSON.parse(sessionStorage.getItem("hubrule-photo-1")).now.shots[0].marks["tyre-front"]?.[%d]`, i))
	}
	at := *v.shot().Marks["tyre-front"][0]
	m, err := v.box(`[data-mark="tyre-front.0"]`)
	v.must(err)
	x, y := m.middle()
	v.must(v.drag(x, y, 40, 20, nil))
	v.settle()
	if to := *v.shot().Marks["tyre-front"][0]; to.X-at.X < 20 || to.Y-at.Y < 10 {
		t.Errorf("a finger dragged a mark by 40 and 20 pixels; it went from %v to %v", at, to)
	}
	before, err := v.box(`[data-mark="tyre-front.3"]`)
	v.must(err)
	middle := func(out float64) []*input.TouchPoint {
		cx, cy := box.X+box.Width/2, box.Y+box.Height/2
		return []*input.TouchPoint{{X: cx - 40 - out, Y: cy, ID: 1}, {X: cx + 40 + out, Y: cy, ID: 2}}
	}
	v.must(chromedp.Run(v.tab, input.DispatchTouchEvent(input.TouchStart, middle(0)[:1]), input.DispatchTouchEvent(input.TouchStart, middle(0)),
		input.DispatchTouchEvent(input.TouchMove, middle(30)), input.DispatchTouchEvent(input.TouchMove, middle(60)),
		input.DispatchTouchEvent(input.TouchEnd, []*input.TouchPoint{})))
	v.settle()
	closer, err := v.box(`[data-mark="tyre-front.3"]`)
	if err == nil && math.Hypot(closer.X-before.X, closer.Y-before.Y) < 20 {
		t.Error("two fingers that part leave the picture as it was")
	}
	if n := len(v.shot().Marks["tyre-front"]); n != 4 {
		t.Errorf("two fingers set a mark: there are %d", n)
	}
	var title string
	v.must(v.eval("document.title", &title))
	if title == "cancelled" {
		t.Error("the browser took the finger away")
	}
}

// A picture of 24 million pixels is marked to the pixel.
func TestLargePicture(t *testing.T) {
	pixels := image.NewGray(image.Rect(0, 0, 6000, 4000))
	for i := range pixels.Pix {
		pixels.Pix[i] = uint8(90 + i%6000/60)
	}
	var file bytes.Buffer
	if err := jpeg.Encode(&file, pixels, nil); err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "large.jpg")
	if err := os.WriteFile(path, file.Bytes(), 0o644); err != nil {
		t.Fatal(err)
	}
	v := visit(t, desktop)
	v.photos()
	v.opens(path)
	v.shows()
	for range 4 {
		v.press("[data-do=farther]")
	}
	v.wait(`document.querySelector("[data-do=farther][aria-disabled=true]")`)
	box, err := v.box("#photo-hand")
	v.must(err)
	want := point{2000, 3000}
	v.clickOn(v.shot(), want, box)
	v.wait(`JSON.parse(sessionStorage.getItem("hubrule-photo-1")).now.shots[0].marks["tyre-front"]`)
	if m := v.shot().Marks["tyre-front"][0]; math.Hypot(m.X-want.x, m.Y-want.y) > .75*6000/box.Width {
		t.Errorf("a click at %v set a mark at %v", want, *m)
	}
}
