package desk_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"regexp"
	"strings"
	"testing"
)

// schoolReadings are the marks of nine photographs as a call has them, and their files.
func schoolReadings(t testing.TB) (call string, files []string) {
	t.Helper()
	var all []string
	for _, path := range marksFiles(t) {
		if !strings.Contains(path, "photos") {
			continue
		}
		marks, name := marksAs(t, path)
		all, files = append(all, fmt.Sprintf(`{"marks": %s, "name": %q}`, marks, name)), append(files, path)
	}
	return "[" + strings.Join(all, ", ") + "]", files
}

// TestNormsAsTheCommand: norms are the very files that norms writes of the same marks, and their figures those of the table.
func TestNormsAsTheCommand(t *testing.T) {
	c := open(t, "", false)
	readings, files := schoolReadings(t)
	t.Chdir(t.TempDir())
	var got struct {
		Figures []struct {
			Figure           string
			N                int
			P10, Median, P90 float64
			Range            [2]float64
			Unit             string
		}
		Base    string
		LeftOut []struct {
			Name, Figure string
			PM, Most     float64
		} `json:"left-out"`
		Outliers []struct {
			Name, Figure string
			Value, By    float64
		}
		Messages []string
		Profile  string
	}
	for i, o := range []struct{ keys, flags string }{
		{`, "like": "crossover"`, "--like crossover"}, {"", ""}, {`, "plain": true, "without": ["Dovrel", "gulvane"]`, "--plain --without Dovrel --without gulvane"},
	} {
		table := string(run(t, append(append([]string{"norms"}, files...), append(strings.Fields(o.flags), "-o", "mine.yaml", "-o", "mine.svg", "-o", "mine.pdf", "--force")...)...))
		c.ask("POST", "/norms", `{"readings": `+readings+`, "name": "mine"`+o.keys+`}`, &got)
		for _, format := range [][]string{{"yaml", "svg"}, {"yaml"}, {"pdf"}}[i] {
			want, err := os.ReadFile("mine." + format)
			if err != nil {
				t.Fatal(err)
			}
			answer, data := c.send("POST", "/norms", fmt.Sprintf(`{"readings": %s, "name": "mine", "format": %q%s}`, readings, format, o.keys))
			if !bytes.Equal(data, want) || !strings.HasSuffix(answer.Header.Get("Content-Disposition"), "filename=mine."+format) {
				t.Errorf("norms%s as %s differ from what norms writes: %.400s", o.keys, format, data)
			}
			if format == "yaml" && got.Profile != string(want) {
				t.Errorf("norms%s bring the profile\n%s", o.keys, got.Profile)
			}
		}
		for _, line := range append(got.Messages, "on the segment "+got.Base) {
			if !strings.Contains(table, line) {
				t.Errorf("norms%s say %q, which stands not in\n%s", o.keys, line, table)
			}
		}
		for _, f := range got.Figures {
			row := regexp.MustCompile(fmt.Sprintf(`\b%s +%d +%.3f`, f.Figure, f.N, f.P10))
			if f.Unit != "deg" && f.P10 > 0 && !row.MatchString(table) || !(f.P10 <= f.Median && f.Median <= f.P90 && f.Range[0] <= f.Median && f.Median <= f.Range[1]) {
				t.Errorf("norms%s: %+v is not the row of\n%s", o.keys, f, table)
			}
		}
	}
}

// TestJobWithItsProfile: a job that brings a profile along is drawn as the profile's file is, is kept as a brief that names it, and is opened
// from both, or from the profile alone.
func TestJobWithItsProfile(t *testing.T) {
	c := open(t, "", false)
	readings, files := schoolReadings(t)
	marks, _ := marksAs(t, files[0])
	var norms struct{ Profile string }
	_, data := c.send("POST", "/norms", `{"readings": `+readings+`, "like": "crossover"}`)
	if err := json.Unmarshal(data, &norms); err != nil {
		t.Fatal(err)
	}
	t.Chdir(t.TempDir())
	if err := os.WriteFile("tarnholt.yaml", []byte(norms.Profile), 0o666); err != nil {
		t.Fatal(err)
	}
	profile, _ := json.Marshal(norms.Profile) // a text
	job := fmt.Sprintf(`{"segment": "tarnholt", "profile": %s, "tweak": {"sporty": 1}, "pin": {"height": "2.2w"}}`, profile)
	run(t, "draw", "tarnholt.yaml", "--tweak", "sporty=1", "--pin", "height=2.2w", "-o", "a.svg", "-o", "a.pdf", "--save", "tarnholt-brief.yaml")
	for format, path := range map[string]string{"svg": "a.svg", "pdf": "a.pdf", "yaml": "tarnholt-brief.yaml"} {
		want, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		answer, got := c.send("POST", "/keep", `{"job": `+job+`, "format": "`+format+`"}`)
		if !bytes.Equal(got, want) {
			t.Errorf("kept as %s it differs from what draw writes: %.300s", format, got)
		}
		if name := answer.Header.Get("Content-Disposition"); format == "yaml" && !strings.HasSuffix(name, "tarnholt-brief.yaml") {
			t.Errorf("the brief is called %s, and its profile tarnholt.yaml", name)
		}
	}
	sameLine(t, c, job)
	brief, err := os.ReadFile("tarnholt-brief.yaml")
	if err != nil {
		t.Fatal(err)
	}
	for name, call := range map[string]map[string]string{
		"a brief with its profile": {"yaml": string(brief), "profile": norms.Profile}, "a profile": {"yaml": norms.Profile, "name": "tarnholt"},
	} {
		said, _ := json.Marshal(call) // a map of strings
		var opened struct{ Job json.RawMessage }
		c.ask("POST", "/open", string(said), &opened)
		var got figures
		if c.ask("POST", "/solve", `{"job": `+string(opened.Job)+`}`, &got); got.Segment != "tarnholt" {
			t.Errorf("%s is opened as %.200s and is a %s", name, opened.Job, got.Segment)
		}
	}
	var compared page
	c.ask("POST", "/sheet", `{"job": `+strings.Replace(job, "{", `{"sheets": ["overlay"], "against": ["tarnholt.yaml"], `, 1)+
		`, "screen": {"width": 1200, "height": 500, "lettering-px": 13}}`, &compared)
	var read readAnswer
	if c.ask("POST", "/read", `{"marks": `+marks+`, "against": `+job+`}`, &read); read.Differences == nil {
		t.Error("a reading is not held against a job with its profile")
	}
	for bad, where := range map[string]string{
		`{"segment": "x", "profile": "extends: suv\nfigures: {height: 9w}"}`: "x.yaml:2:19", `{"profile": "extends: ../../etc/passwd.yaml"}`: "norms.yaml:1:10",
		`{"segment": "../x", "profile": "extends: suv"}`: "segment", `{"profile": 5}`: "profile", `{"profile": "kind: brief\nsegment: suv"}`: "norms.yaml:1:7",
		`{"segment": "../../etc/passwd", "profile": ""}`: "segment", `{"segment": ["x"], "profile": ""}`: "segment",
	} {
		if p := c.refused("/solve", `{"job": `+bad+`}`, 422).Problems[0]; p.Where != where {
			t.Errorf("%s: %+v, want it at %s", bad, p, where)
		}
	}
}
