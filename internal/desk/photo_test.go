package desk_test

import (
	"bytes"
	"encoding/base64"
	"encoding/json"
	"fmt"
	"hubrule/internal/desk"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"gopkg.in/yaml.v3"
)

// marksFiles are marks files of many kinds: photographs to both sides with and without a lens, and a sketch on its sheet.
func marksFiles(t testing.TB) (paths []string) {
	t.Helper()
	for _, pattern := range []string{"../../testdata/reading/*.yaml", "../../docs/examples/school/photos/*.yaml", "../../docs/examples/school/sketch.yaml"} {
		found, _ := filepath.Glob(pattern) // a pattern of ours
		paths = append(paths, found...)
	}
	if len(paths) < 15 {
		t.Fatalf("%d marks files", len(paths))
	}
	for i := range paths {
		paths[i], _ = filepath.Abs(paths[i]) // the working directory is known
	}
	return paths
}

// marksAs is what a page has of a marks file: its keys in JSON without its kind, and its name.
func marksAs(t testing.TB, path string) (marks, name string) {
	t.Helper()
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	var keys map[string]any
	if err := yaml.Unmarshal(text, &keys); err != nil {
		t.Fatal(err)
	}
	delete(keys, "kind")
	data, err := json.Marshal(keys)
	if err != nil {
		t.Fatal(err)
	}
	return string(data), strings.TrimSuffix(filepath.Base(path), ".yaml")
}

// read is the answer of /read.
type readAnswer struct {
	Reading     json.RawMessage
	Head        string
	SkewWords   string `json:"skew-words"`
	Ranking     string
	Differences []struct {
		Figure, Words string
		Follows       bool
	}
	Moves  []string
	Unsure []string
	Sheet  *struct {
		Width, Height float64
		SVG           string
		Words         []struct {
			Figure, Anchor string
			X, Y, Size     float64
			Spans          []struct {
				Text   string
				Weight int
				Value  bool
			}
		}
		Box []float64
	}
}

// TestReadAsTheCommand: a reading is the very bytes of read --format json but for their spaces, alone and held against a segment and a brief,
// and its sentences are those of the table.
func TestReadAsTheCommand(t *testing.T) {
	c := open(t, "", false)
	brief := filepath.Join(t.TempDir(), "suv.yaml")
	if err := os.WriteFile(brief, []byte("kind: brief\nsegment: suv\ntweak: {sporty: 1}\n"), 0o666); err != nil {
		t.Fatal(err)
	}
	for i, path := range marksFiles(t) {
		marks, name := marksAs(t, path)
		call := [][]string{{""}, {`, "against": "hatchback"`, "--against", "hatchback"},
			{`, "against": {"segment": "suv", "tweak": {"sporty": 1}}`, "--against", brief}}[i%3]
		var got readAnswer
		c.ask("POST", "/read", fmt.Sprintf(`{"marks": %s, "name": %q%s}`, marks, name, call[0]), &got)
		t.Chdir(filepath.Dir(path))
		var want bytes.Buffer
		if err := json.Compact(&want, run(t, append([]string{"read", name + ".yaml", "--format", "json"}, call[1:]...)...)); err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(got.Reading, want.Bytes()) {
			t.Errorf("%s is read as\n%s\nwant\n%s", path, got.Reading, &want)
		}
		table := string(run(t, append([]string{"read", name + ".yaml"}, call[1:]...)...))
		lines := strings.Split(table, "\n")
		if lines[0] != got.Head || got.Ranking == "" || !strings.Contains(table, "\n"+got.Ranking+"\n") || got.SkewWords != "" && lines[1] != got.SkewWords {
			t.Errorf("%s: %q, %q and %q stand not in\n%s", path, got.Head, got.SkewWords, got.Ranking, table)
		}
		if (got.Differences != nil) != (len(call) > 1) || (got.Moves != nil) != (len(call) > 1) {
			t.Errorf("%s with%s: differences %v, moves %v", path, call[0], got.Differences, got.Moves)
		}
		for _, d := range got.Differences {
			if d.Words == "" || !strings.Contains(table, d.Words) {
				t.Errorf("%s: %v stands not in\n%s", path, d, table)
			}
		}
	}
}

// TestKeptMarks: every file of marks is what read writes of the same marks file and picture, and the marks file that is kept is read alike.
func TestKeptMarks(t *testing.T) {
	c := open(t, "", false)
	drawn := map[string]string{"averle": "svg", "farrop": "pdf", "sketch": "png", "no-help-noisy": "pdf", "sunk-right-exact": "svg"}
	for i, path := range marksFiles(t) {
		marks, name := marksAs(t, path)
		if strings.Contains(path, "photos") && drawn[name] == "" {
			continue
		}
		t.Chdir(t.TempDir())
		var photo struct{ Picture string }
		if err := json.Unmarshal([]byte(marks), &photo); err != nil {
			t.Fatal(err)
		}
		brought := ""
		for _, file := range []string{name + ".yaml", photo.Picture} {
			data, err := os.ReadFile(filepath.Join(filepath.Dir(path), file))
			if err == nil {
				err = os.WriteFile(file, data, 0o666)
			}
			if err != nil && file != "" {
				t.Fatal(err)
			}
			if file == photo.Picture && file != "" {
				brought = `, "picture": "` + base64.StdEncoding.EncodeToString(data) + `"`
			}
		}
		against, flags := "", []string(nil)
		if i%2 == 1 {
			against, flags = `, "against": "suv"`, []string{"--against", "suv"}
		}
		for _, format := range []string{"profile", drawn[name]} {
			if format == "" {
				continue
			}
			written := name + "-kept." + strings.Replace(format, "profile", "yaml", 1)
			run(t, append([]string{"read", name + ".yaml", "-o", written}, flags...)...)
			want, err := os.ReadFile(written)
			if err != nil {
				t.Fatal(err)
			}
			_, got := c.send("POST", "/keep", fmt.Sprintf(`{"marks": %s, "name": %q, "format": %q%s%s}`, marks, name, format, against, brought))
			if !bytes.Equal(got, want) {
				t.Errorf("%s as %s%s differs from what read writes: %.300s", name, format, against, got)
			}
		}
		answer, kept := c.send("POST", "/keep", fmt.Sprintf(`{"marks": %s, "name": %q, "format": "yaml"}`, marks, name))
		if said := answer.Header.Get("Content-Disposition"); !strings.HasSuffix(strings.ReplaceAll(said, `"`, ""), "filename="+name+".yaml") {
			t.Errorf("%s is kept as %s", name, said)
		}
		before := run(t, "read", name+".yaml", "--format", "json")
		if err := os.WriteFile(name+".yaml", kept, 0o666); err != nil {
			t.Fatal(err)
		}
		if after := run(t, "read", name+".yaml", "--format", "json"); !bytes.Equal(after, before) {
			t.Errorf("%s is read otherwise once it was kept:\n%s\nwant\n%s", name, after, before)
		}
		var opened struct{ Marks json.RawMessage }
		said, _ := json.Marshal(map[string]string{"yaml": string(kept)}) // a map of strings
		c.ask("POST", "/open", string(said), &opened)
		if _, again := c.send("POST", "/keep", fmt.Sprintf(`{"marks": %s, "format": "yaml"}`, opened.Marks)); !bytes.Equal(again, kept) {
			t.Errorf("%s was opened and is kept as\n%s\nwant\n%s", name, again, kept)
		}
		var command struct{ Line string }
		c.ask("POST", "/command", fmt.Sprintf(`{"marks": %s, "name": %q%s}`, marks, name, against), &command)
		if want := strings.Join(append(append([]string{"hubrule", "read", name + ".yaml"}, flags...), "-o", name+".pdf"), " "); command.Line != want {
			t.Errorf("the line is %s, want %s", command.Line, want)
		}
	}
}

// TestDeskOfAPhotograph: a picture and a marks file on the command line are what the page begins with.
func TestDeskOfAPhotograph(t *testing.T) {
	type first struct {
		Place, Name string
		Job         json.RawMessage
		Marks       json.RawMessage
	}
	photos, err := filepath.Abs("../../docs/examples/school/photos")
	if err != nil {
		t.Fatal(err)
	}
	pixels, err := os.ReadFile(filepath.Join(photos, "averle.jpg"))
	if err != nil {
		t.Fatal(err)
	}
	t.Chdir(t.TempDir())
	for _, name := range []string{"side.jpg", "suv", "./photo", "noending"} {
		if err := os.WriteFile(name, pixels, 0o666); err != nil {
			t.Fatal(err)
		}
	}
	for _, file := range []string{"side.jpg", "./side.jpg", "./photo", "noending", "./suv", filepath.Join(photos, "averle.yaml")} {
		c := open(t, file, false)
		var got first
		c.ask("GET", "/job", "", &got)
		if want := `{"picture":"` + filepath.Base(file) + `","size":[1920,1280]}`; got.Place != "photo" || got.Name != filepath.Base(file) ||
			string(got.Marks) != want && !strings.HasSuffix(file, ".yaml") || len(got.Job) == 0 {
			t.Errorf("%s begins with %+v", file, got)
		}
		answer, data := c.send("GET", "/picture", "")
		if !bytes.Equal(data, pixels) || answer.Header.Get("Content-Type") != "image/jpeg" {
			t.Errorf("%s: the picture is %s, %d bytes", file, answer.Header.Get("Content-Type"), len(data))
		}
		if strings.HasSuffix(file, ".yaml") {
			var read readAnswer
			c.ask("POST", "/read", fmt.Sprintf(`{"marks": %s, "name": "averle"}`, got.Marks), &read)
			if want := run(t, "read", file, "--format", "json"); !strings.Contains(string(got.Job), "crossover") || !json.Valid(want) {
				t.Errorf("%s begins with the job %s", file, got.Job)
			}
		}
	}
	run(t, "read", "--new", "side.jpg")
	var got first
	open(t, "side.yaml", false).ask("GET", "/job", "", &got)
	if want := `{"picture":"side.jpg","size":[1920,1280],"facing":"left","marks":{}}`; got.Place != "photo" || string(got.Marks) != want {
		t.Errorf("a new marks file begins with %+v", got)
	}
	got = first{}
	c := open(t, "suv", false) // a segment, whatever files there are
	c.ask("GET", "/job", "", &got)
	if answer, _ := c.send("GET", "/picture", ""); got.Place != "underlay" || got.Marks != nil || answer.StatusCode != 404 {
		t.Errorf("suv begins with %+v, its picture is %s", got, answer.Status)
	}
	if err := os.WriteFile("side.heic", []byte("\x00\x00\x00\x18ftypheic\x00\x00\x00\x00mif1heic"), 0o666); err != nil {
		t.Fatal(err)
	}
	for _, file := range []string{"side.heic", "./side.heic"} {
		if _, err := desk.Open(file, nil); err == nil || err.Error() != file+": HEIC, which is not read; save it as JPEG or PNG" {
			t.Errorf("%s: %v", file, err)
		}
	}
}

// TestNarrows: what would help most comes first, in words that say by how much; and it helps as much where it is done.
func TestNarrows(t *testing.T) {
	c := open(t, "", false)
	marks, _ := marksAs(t, "../../testdata/reading/no-help-noisy.yaml")
	type narrow struct {
		Mark, With, Figure, Text string
		Count                    int
		PM, From                 float64
	}
	var got struct {
		readAnswer
		Narrows []narrow
	}
	c.ask("POST", "/read", `{"marks": `+marks+`, "narrows": true}`, &got)
	if len(got.Narrows) < 2 {
		t.Fatalf("narrowed by %v", got.Narrows)
	}
	for i, n := range got.Narrows {
		if n.Text == "" || !(n.PM < .9*n.From) || i > 0 && n.PM/n.From < got.Narrows[i-1].PM/got.Narrows[i-1].From {
			t.Errorf("%d: %+v", i, n)
		}
	}
	first, second := got.Narrows[0], got.Narrows[1]
	if first.Mark != "far-front" || first.With != "far-rear" || first.Count != 4 || second.Mark != "focal" ||
		!strings.HasPrefix(first.Text, "4 points on the lower edge of each far tyre would narrow ") {
		t.Errorf("the best is %+v, then %+v", first, second)
	}
	var then struct {
		Reading struct {
			Figures map[string]struct{ PM float64 }
			Camera  struct{ Focal float64 }
		}
	}
	if err := json.Unmarshal(got.Reading, &then.Reading); err != nil {
		t.Fatal(err)
	}
	focal := fmt.Sprintf(`{"focal": %g, `, then.Reading.Camera.Focal)
	_, data := c.send("POST", "/read", `{"marks": `+strings.Replace(marks, "{", focal, 1)+`}`)
	if err := json.Unmarshal(data, &then); err != nil {
		t.Fatal(err)
	}
	if is := then.Reading.Figures[second.Figure].PM; math.Abs(is/second.PM-1) > .35 {
		t.Errorf("a focal length makes it ± %g; %+v was promised", is, second)
	}
}
