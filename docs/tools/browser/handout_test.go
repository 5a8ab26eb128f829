//go:build unix

package main

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/chromedp"
)

// handouts opens the place of handouts.
func (v view) handouts() { v.t.Helper(); v.must(v.toHandout()) }

// pastes makes a pasted list the class's students.
func (v view) pastes(names ...string) {
	v.t.Helper()
	v.must(v.pasteNames(names...))
	v.drawn(1, names[0])
}

// drawn waits until a sheet of a student is looked at.
func (v view) drawn(page int, name string) { v.t.Helper(); v.must(v.untilDrawn(page, name)) }

// prints presses the button and returns both files once they are saved.
func (v view) prints() (sheets, key []byte) {
	v.t.Helper()
	old, _ := filepath.Glob(filepath.Join(v.downloads, "*"))
	for _, path := range old {
		v.must(os.Remove(path))
	}
	v.wait(`document.querySelector("#handout-print")?.getAttribute("aria-disabled") === "false"`)
	v.press("#handout-print")
	return v.printed()
}

// printed returns both files once they are saved.
func (v view) printed() (sheets, key []byte) {
	v.t.Helper()
	read := func(name string) []byte {
		path := filepath.Join(v.downloads, name)
		for range 300 {
			data, err := os.ReadFile(path)
			if err == nil && bytes.HasSuffix(bytes.TrimSpace(data), []byte("%%EOF")) {
				return data
			}
			time.Sleep(30 * time.Millisecond)
		}
		v.t.Fatalf("no %s was saved", name)
		return nil
	}
	return read("class.pdf"), read("key.pdf")
}

// savesClass saves the class file, and returns its path.
func (v view) savesClass() string {
	v.t.Helper()
	v.press("[data-save=yaml]")
	path := filepath.Join(v.downloads, "class.yaml")
	for range 200 {
		if data, err := os.ReadFile(path); err == nil && len(data) > 0 {
			return path
		}
		time.Sleep(30 * time.Millisecond)
	}
	v.t.Fatal("no class file was saved")
	return ""
}

// handedOut is what handout writes of a class file.
func handedOut(t *testing.T, class string) (sheets, key []byte) {
	t.Helper()
	folder := t.TempDir()
	a, b := filepath.Join(folder, "class.pdf"), filepath.Join(folder, "key.pdf")
	if out, err := exec.Command(program, "handout", class, "-o", a, "--answers-to", b).CombinedOutput(); err != nil {
		t.Fatalf("handout: %v\n%s", err, out)
	}
	for _, path := range []string{a, b} {
		if out, err := exec.Command("qpdf", "--check", path).CombinedOutput(); err != nil {
			t.Errorf("qpdf: %v\n%s", err, out)
		}
	}
	sheets, _ = os.ReadFile(a) // it was read by qpdf
	key, _ = os.ReadFile(b)
	return sheets, key
}

// TestClassIsPrinted: a class of 24 is made from a pasted list, changed, printed and saved: both files are those that handout writes of the
// saved class, outside readers find everybody in them, and the class opened again prints the same.
func TestClassIsPrinted(t *testing.T) {
	v := visit(t, desktop)
	v.handouts()
	v.pastes(classOf24...)
	v.press("[data-act=one-more]")
	v.wait(`document.querySelectorAll(".item").length === 2 && document.querySelectorAll(".small img").length === 2`)
	v.press(`.item[data-page="2"] [data-act=earlier]`)
	v.press("[data-word=page-0-kinds]")
	v.wait(`document.querySelector("#desk-tray input[type=checkbox]")`)
	v.must(v.keys("Escape"))
	v.press("[data-act=this-underlay]")
	v.wait(`document.querySelector("#handout-print") && document.querySelector(".ready").textContent.includes("72 sheets for 24 students")`)
	sheets, key := v.prints()
	path := v.savesClass()
	wantSheets, wantKey := handedOut(t, path)
	if !bytes.Equal(sheets, wantSheets) || !bytes.Equal(key, wantKey) {
		t.Errorf("the files printed, of %d and %d bytes, are not those of handout, of %d and %d", len(sheets), len(key), len(wantSheets), len(wantKey))
	}
	for file, data := range map[string][]byte{"class.pdf": sheets, "key.pdf": key} {
		printed := filepath.Join(t.TempDir(), file)
		v.must(os.WriteFile(printed, data, 0o644))
		text, err := exec.Command("pdftotext", "-layout", printed, "-").CombinedOutput()
		v.must(err)
		for _, name := range classOf24 {
			if !strings.Contains(string(text), name) {
				t.Errorf("%s does not name %s", file, name)
			}
		}
	}
	kept := filepath.Join(t.TempDir(), "week.yaml")
	data, err := os.ReadFile(path)
	v.must(err)
	v.must(os.WriteFile(kept, data, 0o644))
	v.must(v.eval("localStorage.clear(); sessionStorage.clear()", nil))
	v.must(chromedp.Run(v.tab, chromedp.Navigate(shared.url)))
	v.wait(`document.querySelector("#desk-figures [data-figure=height]")`)
	v.opens(kept)
	v.wait(`document.querySelectorAll(".name").length === 24`)
	v.drawn(1, "Ada")
	if again, keyAgain := v.prints(); !bytes.Equal(again, sheets) || !bytes.Equal(keyAgain, key) {
		t.Error("the class opened again prints other files")
	}
}

// TestOthersStay: a student excused, one who comes late, another draw for one and a corrected name change nobody else's sheets.
func TestOthersStay(t *testing.T) {
	v := visit(t, desktop)
	v.handouts()
	v.pastes(classOf24[:8]...)
	looks := func(name string) (sheet string) { // of the class as the page keeps it; an answer stands on another page of the key once somebody goes
		v.must(v.eval(fmt.Sprintf(`[...document.querySelectorAll(".name")].find(n => n.textContent.startsWith(%q)).querySelector("input").click()`, name), nil))
		v.drawn(1, name)
		v.must(v.eval(fmt.Sprintf(`fetch("/class/page", {method: "POST", headers: {"Content-Type": "application/json"}, body: JSON.stringify({student: %q,
			class: JSON.parse(localStorage.getItem("hubrule-handout-1")).now.lesson})}).then(r => r.json()).then(a => a.svg)`, name), &sheet))
		if !strings.Contains(sheet, name) {
			t.Errorf("the sheet of %s does not name them", name)
		}
		return sheet
	}
	others := []string{"Ada", "Dana", "Hana"}
	before := map[string]string{}
	for _, name := range others {
		before[name] = looks(name)
	}
	looks("Bo")
	v.press("[data-word=here]")
	v.wait(`document.querySelector(".name.absent") && document.querySelector(".ready").textContent.includes("7 students")`)
	v.must(v.eval(`document.querySelector("[data-act=late]").focus()`, nil))
	v.must(v.keys("Zoe", "Enter"))
	v.drawn(1, "Zoe")
	chidi := looks("Chidi")
	v.press("[data-act=draw]")
	v.settle()
	if looks("Chidi") == chidi {
		t.Error("another draw gives the same sheet")
	}
	renames := func(name, wait string) {
		v.press(".about input")
		v.must(v.eval("document.activeElement.select()", nil))
		v.must(v.keys(name, "Enter"))
		v.wait(wait)
	}
	renames("Bo", `document.querySelector(".about .wrong")`) // who is in the class already
	v.must(v.keys("Escape"))
	v.wait(`document.querySelector(".about input").value === "Chidi" && !document.querySelector(".about .wrong")`)
	renames("Chida", `document.querySelector(".name:has(:checked)").textContent === "Chida"`)
	v.drawn(1, "Chida")
	for _, name := range others {
		if looks(name) != before[name] {
			t.Errorf("%s has another sheet than before", name)
		}
	}
	v.must(v.eval("document.activeElement.blur()", nil)) // in a field, undo is the field's own
	for range 4 {
		v.must(v.chord("z", input.ModifierCtrl))
	}
	v.wait(`!document.querySelector(".name.absent") && document.querySelectorAll(".name").length === 8`)
	v.must(chromedp.Run(v.tab, chromedp.Reload()))
	v.wait(`document.querySelectorAll(".name").length === 8`)
	v.must(v.chord("y", input.ModifierCtrl))
	v.wait(`document.querySelector(".name.absent")`)
}

// TestPrintingIsStopped: stop leaves neither file, and what was stopped can be printed anew.
func TestPrintingIsStopped(t *testing.T) {
	v := visit(t, desktop)
	v.handouts()
	roster := filepath.Join(t.TempDir(), "names.csv")
	rows := "name,facing\n"
	for i := range 500 {
		rows += fmt.Sprintf("Student %d,right\n", i)
	}
	v.must(os.WriteFile(roster, []byte(rows), 0o644))
	v.opens(roster)
	v.wait(`document.querySelector(".ready")?.textContent.includes("500 sheets for 500 students")`)
	v.press("#handout-print")
	v.wait(`+document.querySelector("[role=progressbar]")?.getAttribute("aria-valuenow") > 0`)
	v.press("[data-act=stop]")
	v.wait(`document.querySelector(".ready").textContent.includes("stopped")`)
	if files, _ := filepath.Glob(filepath.Join(v.downloads, "*")); len(files) > 0 {
		t.Errorf("stopped printing leaves %v", files)
	}
	v.pastes("Ada", "Bo")
	v.prints()
}

// TestWarningsStandAtTheirPlace: a name that stands twice, at its line and nowhere else; nothing is printed meanwhile.
func TestWarningsStandAtTheirPlace(t *testing.T) {
	v := visit(t, desktop)
	v.handouts()
	v.pastes("Ada", "Bo", "Chidi 好")
	v.wait(`document.querySelectorAll(".name .said").length === 1`)
	v.must(v.eval(`document.querySelector("[data-act=late]").focus()`, nil))
	v.must(v.keys("bo", "Enter"))
	v.wait(`document.querySelectorAll(".name")[3].classList.contains("wrong") && document.querySelectorAll(".name.wrong").length === 1`)
	v.wait(`document.querySelector("#handout-print").getAttribute("aria-disabled") === "true"`)
	v.press("#desk-undo")
	v.wait(`document.querySelectorAll(".name").length === 3 && document.querySelector("#handout-print").getAttribute("aria-disabled") === "false"`)
	v.press("[data-word=page-0-shape]")
	v.wait(`document.querySelector("#desk-tray select")`)
	v.must(v.eval(`document.querySelector("#desk-tray .fields input").focus()`, nil))
	v.must(v.keys("9w", "Enter"))
	v.wait(`document.querySelector(".item .wrong") && document.querySelector(".sheets img")`)
}

// TestDeskBeginsWithAClass: a class file on the command line is where the page begins; a reload keeps what was changed, and the class that
// was there before is one undo away.
func TestDeskBeginsWithAClass(t *testing.T) {
	folder := t.TempDir()
	for name, text := range map[string]string{"week.yaml": "kind: class\ntitle: Week 4\nstudents: names.txt\npages:\n  - {segment: van, sheets: [practice]}\nvary: 0.5\n",
		"names.txt": "Ada\nBo\n"} {
		if err := os.WriteFile(filepath.Join(folder, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	d, err := start(program, filepath.Join(folder, "week.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	defer d.stop()
	tab, err := open(browsing, d.url, desktop, t.TempDir())
	v := view{tab, t}
	v.must(err)
	defer v.close()
	v.drawn(1, "Ada")
	v.wait(`document.querySelector("[data-word=title]").textContent === "“Week 4”" && document.querySelector(".places small").textContent === "week.yaml"`)
	v.press("[data-word=duplex]")
	v.must(chromedp.Run(v.tab, chromedp.Reload()))
	v.drawn(1, "Ada")
	v.wait(`document.querySelector("[data-word=duplex]").textContent === "on both sides"`)
	v.press("#desk-undo")
	v.press("#desk-undo")
	v.wait(`document.querySelector("[data-word=title]").textContent.includes("untitled")`)
}

// TestHandoutByKeys: the class is changed, looked through and printed without a mouse.
func TestHandoutByKeys(t *testing.T) {
	v := visit(t, desktop)
	v.handouts()
	v.pastes(classOf24[:5]...)
	focus := func(selector string) {
		v.must(v.eval(fmt.Sprintf("document.querySelector(%q).focus()", selector), nil))
	}
	focus("[data-word=title]")
	v.must(v.keys("Enter"))
	v.wait(`document.activeElement.closest("#desk-tray")`)
	v.must(v.keys("Week 3", "Enter", "Escape"))
	v.wait(`document.querySelector("[data-word=title]").textContent === "“Week 3”" && document.activeElement.dataset.word === "title"`)
	reached := map[string]bool{}
	for range 60 {
		v.must(v.keys("Tab"))
		var at string
		v.must(v.eval(`(a => a.dataset.word || a.dataset.act || a.dataset.sheet || a.name || a.id)(document.activeElement)`, &at))
		reached[at] = true
		if at == "handout-student" {
			break
		}
	}
	for _, want := range []string{"students", "vary", "again", "paper", "duplex", "order", "page-0-segment", "page-0-kinds", "one-more", "this-underlay", "1", "handout-student"} {
		if !reached[want] {
			t.Errorf("Tab does not reach %s: %v", want, reached)
		}
	}
	v.must(v.keys("ArrowDown", "ArrowDown"))
	v.drawn(1, "Chidi")
	focus("#handout-print")
	v.must(v.keys("Enter"))
	v.wait(`document.querySelectorAll(".ready a").length === 2`)
	v.printed()
	if said := v.says("desk-says"); !strings.Contains(said, "written") {
		time.Sleep(300 * time.Millisecond) // it is said once things rest
		if said = v.says("desk-says"); !strings.Contains(said, "written") {
			t.Errorf("the end of printing is announced as %q", said)
		}
	}
}

// TestHandoutByFinger: on a phone and a tablet.
func TestHandoutByFinger(t *testing.T) {
	for _, d := range []device{phone, tablet} {
		v := visit(t, d)
		v.handouts()
		v.pastes(classOf24...)
		v.press(`.name:nth-of-type(7)`)
		v.drawn(1, "Grete")
		v.press("[data-word=vary]")
		v.wait(`!document.querySelector("[data-word=again]")`)
		v.press("[data-act=large]")
		v.wait(`document.querySelector(".large .print")`)
		v.inspect("large")
		v.prints()
		v.wait(`document.querySelectorAll(".ready a").length === 2`)
	}
}

// TestHandoutAccessibility: as TestAccessibility, for this place.
func TestHandoutAccessibility(t *testing.T) {
	for i, d := range []device{desktop, {width: 390, height: 844, touch: true, dark: true}, {width: 1440, height: 900, dark: true},
		{width: 1440, height: 900, forced: true}, tablet, {width: 360, height: 640, touch: true, still: true}, {width: 3840, height: 2160}} {
		if i > 0 && !d.forced && !everything { // the colours and sizes of the phone are the desk's, see TestAccessibility
			continue
		}
		t.Run(fmt.Sprintf("%dx%d dark %v forced %v", d.width, d.height, d.dark, d.forced), func(t *testing.T) {
			v := visit(t, d)
			v.handouts()
			v.pastes(classOf24...)
			v.settle()
			v.inspect("plain")
			trays := []string{"students", "again", "title", "page-0-kinds", "page-0-shape"}
			if i > 1 { // their colours and sizes are those of every tray
				trays = nil
			}
			for _, word := range trays {
				v.press("[data-word=" + word + "]")
				v.wait(`document.querySelector("#desk-tray input, #desk-tray textarea")`)
				v.inspect(word)
				v.must(v.keys("Escape"))
			}
			v.must(v.eval(`document.querySelector("[data-act=late]").focus()`, nil))
			v.must(v.keys("ada", "Enter"))
			v.wait(`document.querySelector(".name.wrong")`)
			v.inspect("a name twice")
		})
	}
}

// TestHandoutPaper: a paper that is picked with the mouse stays, and a list that is refused is there again.
func TestHandoutPaper(t *testing.T) {
	v := visit(t, desktop)
	v.handouts()
	v.press("[data-word=paper]")
	v.wait(`document.querySelector("#desk-tray input[value=A4]")`)
	v.press("#desk-tray input[value=A4]")
	v.wait(`!document.querySelector("#desk-tray input")`)
	v.settle()
	v.wait(`document.querySelector("[data-word=paper]").textContent === "A4"`)
	v.press("[data-word=students]")
	v.wait(`document.activeElement.id === "handout-list"`)
	v.must(v.eval(`(() => { const t = document.querySelector("#handout-list"); t.value = "Ada\nBo\nAda"; t.dispatchEvent(new Event("input", {bubbles: true})) })()`, nil))
	v.wait(`document.querySelector("#desk-tray .wrong")`)
	v.must(v.keys("Escape"))
	v.wait(`document.querySelector("#desk-note").textContent.includes("Ada")`)
	v.press("[data-word=students]")
	v.wait(`document.querySelector("#handout-list").value.startsWith("Ada\nBo")`)
}
