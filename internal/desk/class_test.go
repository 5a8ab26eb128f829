package desk_test

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"io"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// classFacts is what /class/check answers.
type classFacts struct {
	Students, Sheets int
	Absent           []string
	PerStudent       int     `json:"per-student"`
	KeyPages         int     `json:"key-pages"`
	Wheel            float64 `json:"wheel-mm"`
	Pages            []struct {
		Title         string
		First, Copies int
		Practice      bool
		Sheets        []struct{ Kind, View string }
	}
	Warnings []struct{ Where, Text, Set string }
}

// classSheet is what /class/page answers.
type classSheet struct {
	Student, Kind, View, SVG, Answer string
	Number, Page, Pages, Of          int
	Paper                            struct {
		Width, Height float64
		Wheel         float64 `json:"wheel-mm"`
	}
	Notes []string
}

// classProgress is what /class/progress answers.
type classProgress struct {
	Done, Of int
	Student  string
	Ended    bool
	Notes    []string
	Problems []struct{ Where, Text, Nearest string }
}

// namesOf is a list of so many names as JSON, each in quotes.
func namesOf(count int) []string {
	out := make([]string, count)
	for i := range out {
		out[i] = fmt.Sprintf(`"%c%c Student"`, 'A'+i/26, 'a'+i%26)
	}
	return out
}

// classOf is a class as JSON.
func classOf(students ...string) string {
	return `{"title": "Week 3", "paper": "A3", "vary": 0.6, "seed": 7, "students": [` + strings.Join(students, ", ") + `], "pages": [
		{"segment": "suv", "sheets": ["steps", "practice"], "given": 2}, {"segment": "sedan", "pin": {"length": "4.7m"}, "sheets": ["trace"], "copies": 2}]}`
}

// printFile prints one of a class's files.
func (c *client) printFile(class, more string) []byte {
	c.t.Helper()
	id := fmt.Sprintf("print-%d-abcdefgh", time.Now().UnixNano())
	answer, data := c.send("POST", "/class/print", fmt.Sprintf(`{"class": %s, "id": %q%s}`, class, id, more))
	if answer.StatusCode != http.StatusOK || answer.Header.Get("Content-Type") != "application/pdf" {
		c.t.Fatalf("/class/print%s: %s: %.300s", more, answer.Status, data)
	}
	var p classProgress
	c.ask("POST", "/class/progress", fmt.Sprintf(`{"id": %q}`, id), &p)
	if !p.Ended || p.Done != p.Of || p.Done == 0 || len(p.Problems) > 0 {
		c.t.Errorf("/class/print%s ended at %+v", more, p)
	}
	return data
}

// TestClassIsPrintedAsByTheCommand: both files of a class of 24, saved by the desk, are the bytes that handout writes of it.
func TestClassIsPrintedAsByTheCommand(t *testing.T) {
	c := open(t, "", false)
	t.Chdir(t.TempDir())
	students := namesOf(24)
	students[3] = `{"name": "Dara O'Neil", "facing": "right"}`
	students[8] = `{"name": "Émile Roux", "set": 2}`
	students[9] = `{"name": "Jun <b>Tanabe</b>", "absent": true}`
	for i, change := range []string{"", `"order": "page", `, `"vary": 0, `} {
		class := classOf(students...)
		if i == 2 {
			class = strings.Replace(class, `"vary": 0.6, `, "", 1)
		}
		class = strings.Replace(class, "{", "{"+change, 1)
		_, saved := c.send("POST", "/keep", `{"class": `+class+`, "format": "yaml"}`)
		if err := os.WriteFile("class.yaml", saved, 0o666); err != nil {
			t.Fatal(err)
		}
		args := []string{"handout", "class.yaml", "-o", "class.pdf", "--answers-to", "key.pdf"}
		var command struct{ Line string }
		c.ask("POST", "/command", `{"class": `+class+`}`, &command)
		if want := "hubrule " + strings.Join(args, " "); command.Line != want {
			t.Errorf("the line is %q, want %q", command.Line, want)
		}
		more := ""
		if i > 0 {
			args, more = append(args, "--duplex"), `, "duplex": true`
		}
		run(t, args...)
		for name, got := range map[string][]byte{"class.pdf": c.printFile(class, more), "key.pdf": c.printFile(class, `, "key": true`)} {
			if want, err := os.ReadFile(name); err != nil || !bytes.Equal(got, want) {
				t.Errorf("%s%s: %s of the desk is not what handout writes: %v", change, more, name, err)
			}
		}
		var opened struct{ Class json.RawMessage }
		said, _ := json.Marshal(map[string]string{"yaml": string(saved)}) // a map of strings
		c.ask("POST", "/open", string(said), &opened)
		if _, again := c.send("POST", "/keep", `{"class": `+string(opened.Class)+`, "format": "yaml"}`); !bytes.Equal(again, saved) {
			t.Errorf("saved as\n%s\nand once opened as\n%s", saved, again)
		}
	}
}

// TestOneStudentsSheets: a sheet is what handout writes as SVG, its answer goes with it, and whoever comes or goes changes nobody else's.
func TestOneStudentsSheets(t *testing.T) {
	c := open(t, "", false)
	t.Chdir(t.TempDir())
	students := namesOf(5)
	_, saved := c.send("POST", "/keep", `{"class": `+classOf(students...)+`, "format": "yaml"}`)
	if err := os.WriteFile("class.yaml", saved, 0o666); err != nil {
		t.Fatal(err)
	}
	run(t, "handout", "class.yaml", "-o", "x.svg")
	sheet := func(class, student string, page int) (out classSheet) {
		c.ask("POST", "/class/page", fmt.Sprintf(`{"class": %s, "student": %s, "page": %d, "answer": true}`, class, student, page), &out)
		return out
	}
	kinds := []string{"steps", "practice", "trace", "trace"}
	var answers []string
	for page, kind := range kinds {
		got := sheet(classOf(students...), students[2], page+1)
		want, err := os.ReadFile(fmt.Sprintf("x-%d.svg", 2*len(kinds)+page+1))
		if err != nil || got.SVG != string(want) {
			t.Errorf("page %d of student 3 is not what handout writes: %v", page+1, err)
		}
		if got.Kind != kind || got.Pages != len(kinds) || got.Number != 3 || (got.Answer != "") != (kind == "practice") || got.Paper.Width != 420 {
			t.Errorf("page %d: %+v", page+1, got)
		}
		answers = append(answers, got.Answer)
	}
	others := []string{`"Zoë Late"`, students[2], `{"name": "Ab Student", "absent": true}`}
	for page, before := range kinds {
		a, b := sheet(classOf(students...), students[2], page+1), sheet(classOf(others...), "2", page+1)
		if a.SVG != b.SVG {
			t.Errorf("the %s sheet changes with the others", before)
		}
	}
	if out := sheet(classOf(others...), `"ab student"`, 2); out.Student != "Ab Student" || out.Answer == "" {
		t.Errorf("an absent student has %+v", out.Kind)
	}
	alone := strings.Replace(classOf(students...), `"vary": 0.6, `, "", 1)
	if one, two := sheet(alone, "1", 2), sheet(alone, "2", 2); one.Answer != two.Answer || one.Answer == "" || one.Answer == answers[1] {
		t.Error("without variation there is not one answer for all")
	}
}

// TestClassCheck: how much there is to print, and what is said where.
func TestClassCheck(t *testing.T) {
	c := open(t, "", false)
	students := append(namesOf(4), `{"name": "Bo", "absent": true}`, `"好 Student"`)
	var got classFacts
	c.ask("POST", "/class/check", `{"class": `+classOf(students...)+`}`, &got)
	if got.Students != 5 || got.PerStudent != 4 || got.Sheets != 20 || got.KeyPages != 6 || len(got.Absent) != 1 || len(got.Pages) != 2 {
		t.Errorf("checked as %+v", got)
	}
	if p := got.Pages[1]; p.First != 3 || p.Copies != 2 || p.Practice || p.Sheets[0].Kind != "trace" {
		t.Errorf("page 2 is %+v", p)
	}
	if len(got.Warnings) != 1 || got.Warnings[0].Where != "students[6]" || !strings.Contains(got.Warnings[0].Text, "好") {
		t.Errorf("warnings %+v", got.Warnings)
	}
	all := `{"class": {"students": [{"name": "A", "absent": true}], "pages": [{"segment": "suv", "sheets": ["full"]}]}`
	c.ask("POST", "/class/check", all+`}`, &got)
	if got.Students != 0 || got.Sheets != 0 || got.KeyPages != 0 {
		t.Errorf("with nobody there: %+v", got)
	}
	c.refused("/class/print", all+`, "id": "abcdefghijklmnopqrst"}`, 422)
	for class, where := range map[string]string{
		`{"students": ["Ada", "ada"], "pages": [{"segment": "suv", "sheets": "full"}]}`:                                     "students[2]",
		`{"students": 3, "pages": [{"segment": "suv", "sheets": "full", "pin": {"length": "5.95w", "wheels-between": 4}}]}`: "pages[1].pin.",
		`{"students": "names.csv", "pages": [{"segment": "suv", "sheets": "full"}]}`:                                        "students",
		`{"students": 10001, "pages": [{"segment": "suv", "sheets": "full", "copies": 101}]}`:                               "students",
		`{"students": 2, "pages": [{"segment": "../x.yaml", "sheets": "full"}]}`:                                            "pages[1].segment",
		`{"students": 2, "pages": [{"segment": "suv", "sheets": "answer"}], "colour": 1}`:                                   "",
	} {
		if got := c.refused("/class/check", `{"class": `+class+`}`, 422); !strings.HasPrefix(got.Problems[0].Where, where) {
			t.Errorf("%s is refused at %q: %+v", class, got.Problems[0].Where, got)
		}
	}
}

// TestLookAlikesAreCured: where all but one figure are pinned students look alike; the set that a warning names ends it.
func TestLookAlikesAreCured(t *testing.T) {
	c := open(t, "", false)
	var f figures
	c.ask("POST", "/solve", easyJob, &f)
	var list struct {
		Figures []struct {
			Name, Role, Unit, Meaning string
			Lo, Hi                    float64
		}
	}
	c.ask("GET", "/figures", "", &list)
	var pins []string
	for _, one := range list.Figures {
		value, known := f.Figures[one.Name].Value.(float64)
		if !known || one.Role != "declared" || one.Name == "rear-overhang" || one.Name == "lamp-depth" {
			continue
		}
		unit := ""
		if one.Unit == "w" {
			unit = "w"
		}
		pins = append(pins, fmt.Sprintf(`%q: "%.6f%s"`, one.Name, value, unit))
	}
	cured := 0
	for seed := range 12 {
		students := namesOf(3)
		class := func() string {
			return fmt.Sprintf(`{"class": {"students": [%s], "vary": 0.6, "seed": %d, "pages": [{"segment": "suv", "sheets": "trace", "pin": {%s}}]}}`,
				strings.Join(students, ", "), seed, strings.Join(pins, ", "))
		}
		var before, after classFacts
		c.ask("POST", "/class/check", class(), &before)
		for _, w := range before.Warnings {
			if w.Set == "" {
				continue
			}
			var at int
			fmt.Sscanf(w.Where, "students[%d]", &at)
			students[at-1] = fmt.Sprintf(`{"name": %s, "set": %s}`, namesOf(3)[at-1], w.Set)
			c.ask("POST", "/class/check", class(), &after)
			if cured++; len(after.Warnings) >= len(before.Warnings) {
				t.Errorf("seed %d: %+v, and with the cure %+v", seed, before.Warnings, after.Warnings)
			}
			break
		}
	}
	if cured == 0 {
		t.Error("nobody looks alike")
	}
}

// TestClassOnTheCommandLine: a class file with a roster beside it is where the page begins; its students come as a list.
func TestClassOnTheCommandLine(t *testing.T) {
	folder := t.TempDir()
	for name, text := range map[string]string{
		"week.yaml": "kind: class\ntitle: Week\nstudents: names.csv\npages:\n  - {segment: mine.yaml, sheets: [practice]}\nvary: 0.5\n",
		"names.csv": "name,facing,set,absent\nAda,,,\nBo,right,3,x\n", "mine.yaml": "extends: van\ntitle: Mine\n",
	} {
		if err := os.WriteFile(filepath.Join(folder, name), []byte(text), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	c := open(t, filepath.Join(folder, "week.yaml"), false)
	if err := os.RemoveAll(folder); err != nil { // it was read at the start
		t.Fatal(err)
	}
	var first struct {
		Job, Class  json.RawMessage
		Name, Place string
	}
	c.ask("GET", "/job", "", &first)
	want := `{"title":"Week","students":["Ada",{"name":"Bo","facing":"right","set":3,"absent":true}],"pages":[{"segment":"mine.yaml","sheets":["practice"]}],"vary":0.5}`
	if first.Place != "handout" || first.Name != "week.yaml" || string(first.Class) != want || first.Job == nil {
		t.Errorf("it begins with %+v, class %s", first, first.Class)
	}
	var sheet classSheet
	c.ask("POST", "/class/page", `{"class": `+string(first.Class)+`, "student": "Bo"}`, &sheet)
	if !strings.Contains(sheet.SVG, "Mine") {
		t.Error("the sheet is not of the class's own profile")
	}
}

// TestRosters: a list of students is read as a class file reads it, mistakes with their lines.
func TestRosters(t *testing.T) {
	c := open(t, "", false)
	for _, tt := range [][2]string{
		{`"Ada\n\n Bo  Ilves \n"`, `[{"name":"Ada"},{"name":"Bo Ilves"}]`},
		{`"name;facing;set;absent\nAda;;;\nBo;right;-3;x\n", "name": "A.CSV"`, `[{"name":"Ada"},{"name":"Bo","facing":"right","set":-3,"absent":true}]`},
	} {
		var got struct{ Students json.RawMessage }
		if c.ask("POST", "/open", `{"roster": `+tt[0]+`}`, &got); string(got.Students) != tt[1] {
			t.Errorf("%s is read as %s, want %s", tt[0], got.Students, tt[1])
		}
	}
	wrong := c.refused("/open", `{"roster": "Ada\nBo\nada\n"}`, 422)
	if text := wrong.Problems[0].Text; !strings.HasPrefix(text, `names.txt:3: "ada" is also on line 1`) {
		t.Errorf("refused with %s", text)
	}
}

// TestPrintIsStopped: whoever goes away ends the work, and the file is cut off so that nobody takes it for whole.
func TestPrintIsStopped(t *testing.T) {
	c := open(t, "", false)
	class := strings.Replace(classOf(namesOf(600)...), `"copies": 2`, `"copies": 2, "sheets": ["full", "trace"]`, 1)
	class = strings.Replace(class, `"sheets": ["trace"], `, "", 1)
	const id = "stopped-abcdefghijk"
	r, err := http.NewRequest("POST", c.origin+"/class/print", strings.NewReader(`{"class": `+class+`, "id": "`+id+`"}`))
	if err != nil {
		t.Fatal(err)
	}
	ctx, stop := context.WithCancel(context.Background())
	r.Header.Set("Origin", c.origin)
	r.Header.Set("Content-Type", "application/json")
	answer, err := http.DefaultClient.Do(r.WithContext(ctx))
	if err != nil {
		t.Fatal(err)
	}
	defer answer.Body.Close()
	c.refused("/class/print", `{"class": `+class+`, "id": "`+id+`"}`, 422) // the id is in use
	if _, err := io.ReadFull(answer.Body, make([]byte, 100)); err != nil {
		t.Fatal(err)
	}
	stop()
	var p classProgress
	for n := 0; !p.Ended; n++ {
		if n > 500 {
			t.Fatalf("it goes on: %+v", p)
		}
		time.Sleep(10 * time.Millisecond)
		c.ask("POST", "/class/progress", `{"id": "`+id+`"}`, &p)
	}
	if p.Done >= p.Of || len(p.Problems) == 0 {
		t.Errorf("it ended as %+v", p)
	}
	c.refused("/class/progress", `{"id": "nobody-knows-this-one"}`, 422)
	c.refused("/class/print", `{"class": `+class+`, "id": "short"}`, 422)
}

// TestClassMarkup: markup and paths in what a class says come out as text or are refused.
func TestClassMarkup(t *testing.T) {
	t.Parallel()
	c := open(t, "", false)
	for _, evil := range []string{`"><script>alert(1)</script><g onload='x'>&amp;]]>`, "../../../etc/passwd", "a/b\\c.csv x", "{name: x}", "- a: &b *b", "#", "null", "x'; rm -rf ~"} {
		said, _ := json.Marshal(evil) // a text
		class := strings.Replace(classOf(string(said)), `"Week 3"`, string(said), 1)
		var sheet classSheet
		if c.ask("POST", "/class/page", `{"class": `+class+`, "page": 2, "answer": true}`, &sheet); sheet.Student != evil {
			t.Errorf("%q is called %q", evil, sheet.Student)
		}
		for _, svg := range []string{sheet.SVG, sheet.Answer} {
			if !isXML(svg) || strings.Contains(svg, "<script") || strings.Contains(svg, "<g onload") {
				t.Errorf("%q: markup in the SVG", evil)
			}
		}
		_, saved := c.send("POST", "/keep", `{"class": `+class+`, "format": "yaml"}`)
		yaml, _ := json.Marshal(map[string]string{"yaml": string(saved)}) // a map of strings
		var opened struct {
			Class struct {
				Title    string
				Students []string
			}
		}
		if answer, data := c.send("POST", "/open", string(yaml)); answer.StatusCode != 200 || json.Unmarshal(data, &opened) != nil || opened.Class.Students[0] != evil ||
			opened.Class.Title != evil {
			t.Errorf("%q is saved as\n%s\nand opened as %s", evil, saved, data)
		}
		for _, class := range []string{`{"students": 3, "pages": [{"segment": EVIL}]}`, `{"students": EVIL, "pages": []}`, `{"students": [{"name": "a", "set": EVIL}], "pages": [{"segment": "suv"}]}`,
			`{"students": 3, "pages": [{"segment": "suv", "sheets": [EVIL]}]}`, `{EVIL: EVIL}`, `{"kind": EVIL}`} {
			c.refused("/class/check", `{"class": `+strings.ReplaceAll(class, "EVIL", string(said))+`}`, 422)
		}
	}
	for _, body := range []string{`{"class": 1}`, `{"class": {}, "student": {}}`, `{}`, `{"class": []}`} {
		if answer, data := c.send("POST", "/class/page", body); answer.StatusCode != 400 && answer.StatusCode != 422 {
			t.Errorf("%s: %s %s", body, answer.Status, data)
		}
	}
	c.refused("/class/check", `{"class": {"title": "`+strings.Repeat("x", 1<<20)+`"}}`, 413)
}
