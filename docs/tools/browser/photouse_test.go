//go:build unix

package main

import (
	"bytes"
	"encoding/base64"
	"encoding/json"
	"fmt"
	"image"
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
)

// openSchool opens one, marked.
func (v view) openSchool(name string) {
	v.t.Helper()
	v.photos()
	v.must(v.openSchoolPhoto(name))
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
	v.press("[data-do=unseen]") // the rest of a far tyre
	marks := v.saved("[data-save=yaml]", ".yaml")
	if text := string(must(os.ReadFile(marks))(t)); !strings.Contains(text, "\nhidden: [far-front]\n") {
		t.Errorf("the marks file says nothing of what cannot be seen:\n%s", text)
	}
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
	// Opened again, the marks file does not ask for what cannot be seen.
	v.press("[data-word=shot]")
	v.press("#photo-remove")
	v.opens(own)
	v.wait(`document.querySelector(".without")`)
	if s := v.shot(); !slices.Equal(s.Unseen, []string{"far-front.2", "far-front.3"}) || s.At.Mark != "far-rear" {
		t.Errorf("opened again, %v cannot be seen and %s is asked for", s.Unseen, s.At.Mark)
	}
}

// Of a picture's file nothing leaves the page but pixels: no place, words or second picture, wherever it stands in the file.
func TestPhotoLeaksNothing(t *testing.T) {
	data := must(os.ReadFile(school + "averle.jpg"))(t)
	const secret = "at 50 N, 8 E on a Tuesday"
	segment := func(marker byte, text string) []byte {
		return append([]byte{0xff, marker, byte((len(text) + 2) >> 8), byte(len(text) + 2)}, text...)
	}
	marked := append(append(append([]byte{}, data[:2]...), segment(0xe1, "http://ns.adobe.com/xap/1.0/\x00"+secret)...), segment(0xfe, secret)...)
	marked = append(append(append(marked, data[2:]...), data...), secret...) // a second picture and a trailer after the end
	path := filepath.Join(t.TempDir(), "averle.jpg")
	if err := os.WriteFile(path, marked, 0o644); err != nil {
		t.Fatal(err)
	}
	v := visit(t, desktop)
	v.photos()
	v.opens(path, school+"averle.yaml")
	v.wait(`document.querySelector("#photo-table tr[data-figure=belt]")`)
	v.shows()
	v.saved(`[data-save=svg]`, ".svg")
	v.mu.Lock()
	defer v.mu.Unlock()
	sent := 0
	for _, body := range v.bodies {
		var in struct{ Picture string }
		if json.Unmarshal([]byte(body), &in) != nil || in.Picture == "" {
			continue
		}
		picture := must(base64.StdEncoding.DecodeString(in.Picture))(t)
		sent++
		if bytes.Contains(picture, []byte(secret)) || len(picture) > len(data) {
			t.Errorf("%d bytes of a picture were sent, of %d, with what is none of it: %v", len(picture), len(data), bytes.Contains(picture, []byte(secret)))
		}
	}
	if sent != 1 {
		t.Errorf("%d pictures were sent, want one", sent)
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
	v.wait(`document.querySelector("#desk-figures [data-figure=height]") && document.querySelector("[data-word=segment]").textContent === "Bontry"`)
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

// A desk that is started with a picture, or with its marks, opens there with the picture on the paper.
func TestStartedWithPhoto(t *testing.T) {
	for _, named := range []string{"averle.jpg", "averle.yaml"} {
		d, err := start(program, school+named)
		if err != nil {
			t.Fatal(err)
		}
		tab, err := open(browsing, d.url, desktop, t.TempDir())
		v := view{tab, t}
		v.must(err)
		v.wait(`document.querySelector("[data-place=photo][aria-current]")`)
		v.wait(`(() => { const c = document.querySelector("canvas.art"); return c && c.getContext("2d").getImageData(c.width >> 1, c.height >> 1, 1, 1).data[3] })()`)
		if named == "averle.yaml" {
			v.wait(`document.querySelector("#photo-table tr[data-figure=belt]")`)
		}
		for _, e := range v.errors {
			t.Errorf("%s: the console says: %s", named, e)
		}
		v.close()
		if err := d.stop(); err != nil {
			t.Errorf("%s: Ctrl-C: %v", named, err)
		}
	}
}
