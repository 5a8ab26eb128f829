package desk_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"hubrule/internal/cli"
)

// run runs the command line in this process and returns what it writes to standard output.
func run(t *testing.T, args ...string) []byte {
	t.Helper()
	var out, errs bytes.Buffer
	if code := cli.Main(args, nil, &out, &errs); code != 0 {
		t.Fatalf("hubrule %q: exit code %d: %s", args, code, &errs)
	}
	return out.Bytes()
}

// sameJobs are briefs that try what a job may hold.
var sameJobs = []string{
	"segment: suv\n",
	"segment: coupe\ntweak: {sporty: 1.5, longer: -0.25}\npin: {length: 4.60m, pillar-rake: 27.50}\nkeep: [belt]\nsheets: [full, trace]\npaper: A4\n",
	"segment: suv\npin: {wheel: 255/50R19}\nsheets: [practice, answer]\ngiven: 3\nunits: mm\nfacing: right\nframe: true\n",
	"segment: sedan\nalso: [{segment: suv}, {segment: van}]\nsheets: [trace, thumbnails]\nlabels: none\n",
	"segment: sedan\nalso: [{segment: suv, tweak: {tough: 1}, title: \"it's <b>\"}]\nsheets: [spread]\n",
	"segment: suv\ntweak: {sporty: 1}\nsheets: [overlay]\nagainst: [suv+tough=0.5+height=2.4w, {segment: van, keep: [sill], tweak: {roomy: 1}}]\n",
	"segment: suv\ntweak: {sporty: 1}\nsheets: [overlay]\nagainst: [suv+tough=0.5+height=2.4w, sedan]\ntitle: \"'; rm -rf / #\"\nauthor: Zoë & Co\n",
	"segment: van\nview: perspective\nturn: -30\neye: 1500mm\nlens: 50\noutline: false\n",
	"segment: hatchback\nview: [front, rear]\nguides: [wheels, outline]\n",
	"segment: suv\nscale: \"1:5\"\ntile: true\ndpi: 40\ntransparent: true\nletters: outlines\n",
}

// TestSameBytes: every file of /keep is what draw writes of the same brief, and so is what the line of /command draws; yaml is what --save
// writes.
func TestSameBytes(t *testing.T) {
	c := open(t, "", false)
	t.Chdir(t.TempDir())
	for i, brief := range sameJobs {
		brief = "kind: brief\n" + brief
		if err := os.WriteFile("brief.yaml", []byte(brief), 0o666); err != nil {
			t.Fatal(err)
		}
		var opened struct{ Job json.RawMessage }
		said, _ := json.Marshal(map[string]string{"yaml": brief}) // a map of strings
		c.ask("POST", "/open", string(said), &opened)
		formats := []string{"pdf", "svg", "png"}
		if i > 0 { // by turns
			formats = formats[i%3:][:1]
		}
		for _, format := range formats {
			low := []string(nil)
			if format == "png" && !strings.Contains(brief, "dpi") {
				opened.Job = json.RawMessage(strings.Replace(string(opened.Job), "{", `{"dpi": 30, `, 1))
				low = []string{"--dpi", "30"}
			}
			run(t, append([]string{"draw", "brief.yaml", "-o", fmt.Sprintf("%d.%s", i, format), "--save", "saved.yaml", "--force"}, low...)...)
			drawn := pages(t, fmt.Sprint(i), format)
			for n, name := range drawn {
				if n > 0 && n < len(drawn)-1 {
					continue
				}
				want, err := os.ReadFile(name)
				if err != nil {
					t.Fatal(err)
				}
				_, got := c.send("POST", "/keep", fmt.Sprintf(`{"job": %s, "format": %q, "page": %d}`, opened.Job, format, n+1))
				if !bytes.Equal(got, want) {
					t.Errorf("%s: page %d as %s differs from what draw writes: %.300s", brief, n+1, format, got)
				}
			}
		}
		want, err := os.ReadFile("saved.yaml")
		if err != nil {
			t.Fatal(err)
		}
		if _, got := c.send("POST", "/keep", fmt.Sprintf(`{"job": %s, "format": "yaml"}`, opened.Job)); !bytes.Equal(got, want) {
			t.Errorf("%s: saved as\n%s\nwant\n%s", brief, got, want)
		}
		sameLine(t, c, string(opened.Job))
	}
}

// pages lists the files of a drawing in their order.
func pages(t *testing.T, stem, format string) []string {
	t.Helper()
	if _, err := os.Stat(stem + "." + format); err == nil {
		return []string{stem + "." + format}
	}
	names, err := filepath.Glob(stem + "-*." + format)
	if err != nil || len(names) == 0 {
		t.Fatalf("%s.%s was not written: %v", stem, format, err)
	}
	return names
}

// shellWords returns the words that a shell hands to hubrule of a line, and then what it gives on standard input.
func shellWords(t *testing.T, line string) []string {
	t.Helper()
	words, err := exec.Command("sh", "-c", `hubrule() { for w; do printf '%s\0' "$w"; done; cat; }`+"\n"+line).Output()
	if err != nil {
		t.Fatalf("%s: %v", line, err)
	}
	return strings.Split(string(words), "\x00")
}

// sameLine runs the line of a job as a shell does, and compares its first file.
func sameLine(t *testing.T, c *client, job string) {
	t.Helper()
	var command struct{ Line string }
	c.ask("POST", "/command", `{"job": `+job+`}`, &command)
	folder := t.TempDir()
	parts := shellWords(t, command.Line)
	args, input := parts[:len(parts)-1], parts[len(parts)-1]
	last := args[len(args)-1]
	format := strings.TrimPrefix(filepath.Ext(last), ".")
	for i := range args {
		if i > 0 && args[i-1] == "-o" {
			args[i] = filepath.Join(folder, args[i])
		}
	}
	var out, errs bytes.Buffer
	if code := cli.Main(args, strings.NewReader(input), &out, &errs); code != 0 {
		t.Fatalf("%s: exit code %d: %s", command.Line, code, &errs)
	}
	want, err := os.ReadFile(pages(t, strings.TrimSuffix(filepath.Join(folder, last), "."+format), format)[0])
	if err != nil {
		t.Fatal(err)
	}
	if _, got := c.send("POST", "/keep", fmt.Sprintf(`{"job": %s, "format": %q}`, job, format)); !bytes.Equal(got, want) {
		t.Errorf("%s draws another file than /keep answers", command.Line)
	}
}

// TestOwnFiles: the files of the brief on the command line may be named, and no others are read, whichever way they are asked for.
func TestOwnFiles(t *testing.T) {
	t.Chdir(t.TempDir())
	for name, text := range map[string]string{
		"in/mine.yaml":  "extends: van\ntitle: Mine\n",
		"in/squat.yaml": "kind: tweak\ntitle: Squat\nline: lower\nmoves:\n  sill: {by: -0.02w, why: nearer the road}\n",
		"in/eye.yaml":   "kind: camera\nturn: 20\n",
		"in/other.yaml": "kind: brief\nsegment: suv\ntweak: {tough: 1}\n",
		"in/brief.yaml": "kind: brief\nsegment: mine.yaml\ntweak: {squat.yaml: 1}\nsheets: [overlay]\nagainst: [./other.yaml, {segment: ./mine.yaml}]\n",
		"in/seen.yaml":  "kind: brief\nsegment: suv\nview: perspective\ncamera: eye.yaml\n",
		"secret.yaml":   "extends: van\ntitle: Secret\n",
	} {
		if err := os.MkdirAll(filepath.Dir(name), 0o777); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(name, []byte(text), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	own, seen := open(t, "in/brief.yaml", false), open(t, "in/seen.yaml", false)
	run(t, "draw", "in/brief.yaml", "-o", "own.svg")
	if err := os.RemoveAll("in"); err != nil { // they were read at the start
		t.Fatal(err)
	}
	var first struct {
		Job         json.RawMessage
		Name, Place string
	}
	own.ask("GET", "/job", "", &first)
	want, err := os.ReadFile("own.svg")
	if err != nil {
		t.Fatal(err)
	}
	if _, got := own.send("POST", "/keep", `{"job": `+string(first.Job)+`, "format": "svg"}`); first.Name != "brief.yaml" || !bytes.Equal(got, want) {
		t.Errorf("%s %s is drawn as %.300s", first.Name, first.Job, got)
	}
	var drawn page
	seen.ask("POST", "/sheet", `{"job": {"segment": "suv", "view": "perspective", "camera": "eye.yaml"}, "screen": {"width": 900, "height": 500, "lettering-px": 13}}`, &drawn)
	for _, path := range []string{"../secret.yaml", "secret.yaml", "/etc/passwd", "./nothing.yaml", "-", "/dev/stdin", "/dev/zero.yaml", "../in/seen.yaml", `..\\secret.yaml`} {
		for _, job := range []string{
			`{"segment": "PATH"}`, `{"segment": "suv", "tweak": {"PATH": 1}}`, `{"segment": "suv", "also": [{"segment": "PATH"}]}`,
			`{"segment": "suv", "also": [{"segment": "van", "tweak": {"PATH": 1}}]}`, `{"segment": "suv", "view": "perspective", "camera": "PATH"}`,
			`{"segment": "suv", "sheets": "overlay", "against": "PATH"}`, `{"segment": "suv", "sheets": "overlay", "against": ["suv+PATH=1"]}`,
			`{"segment": "suv", "sheets": "overlay", "against": [{"segment": "PATH"}]}`,
			`{"segment": "suv", "sheets": "overlay", "against": [{"segment": "suv", "tweak": {"PATH": 1}}]}`,
			`{"segment": "suv", "sheets": "overlay", "against": ["{segment: PATH}"]}`,
		} {
			p := own.refused("/solve", `{"job": `+strings.ReplaceAll(job, "PATH", path)+`}`, 422).Problems[0]
			if !strings.Contains(p.Text, "files are read only where") && path != "-" {
				t.Errorf("%s in %s: %+v", path, job, p)
			}
		}
		said, _ := json.Marshal(map[string]string{"yaml": "kind: brief\nsegment: " + path + "\n"}) // a map of strings
		own.refused("/open", string(said), 422)
	}
}
