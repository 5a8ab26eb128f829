package cli

import (
	"bytes"
	"os"
	"strings"
	"syscall"
	"testing"
)

// What comes through standard input or a pipe draws as the same file does, and what is wrong in it is said with its place.
func TestStandardInput(t *testing.T) {
	t.Chdir(t.TempDir())
	const brief = "kind: brief\nsegment: ./low\ntweak: {./squat.yaml: 0.5}\nview: perspective\ncamera: ./near.yaml\nsheets: trace\n"
	const profile = "extends: suv\ntitle: Low suv!\nfigures: {height: 2.28w}\n"
	for name, text := range map[string]string{
		"brief.yaml": brief, "low": profile, "squat.yaml": ownTweak, "near.yaml": "kind: camera\nextends: front-low\n",
	} {
		if err := os.WriteFile(name, []byte(text), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	if err := syscall.Mkfifo("pipe.yaml", 0o600); err != nil {
		t.Fatal(err)
	}
	go os.WriteFile("pipe.yaml", []byte(brief), 0o600)
	for _, c := range []struct {
		in, args string
		code     int
		errs     string
	}{
		{brief, "draw - -o stdin.svg", exitDone, ""},
		{"", "draw pipe.yaml -o pipe.svg", exitDone, ""},
		{"", "draw brief.yaml -o file.svg", exitDone, ""},
		{brief, "draw - --format svg -o ./", exitDone, "wrote low.svg (A3)\n"},
		{profile, "draw - -o -  --format svg", exitDone, ""},
		{profile, "draw -", exitDone, "wrote low-suv.pdf (1 page, A3, wheel 50 mm)\n"},
		{profile, "figures -", exitDone, ""},
		{profile, "draw - -", exitUsage, "hubrule: - (standard input) stands twice; want it once\n"},
		{profile, "draw - --save saved.yaml", exitUsage, "hubrule: --save: the brief would name -, which cannot be read again; want it in a file\n"},
		{"kind: brief\nsegment: suv\npin: {sill: 3}", "draw - ", exitInput, "standard input:3:13: pin.sill: 3; want a length in w, mm, cm, m or in, like 2.35w: the unit is missing\n"},
		{strings.Repeat("#", 1_000_001), "figures -", exitInput, "standard input:1:1: larger than 1000000 bytes; want less\n"},
		{"segment: suv\n", "draw -", exitInput, "standard input:1:1: no kind; a file with segment: wants kind: brief\n"},
		{"kind: class\n", "draw -", exitInput, "standard input:1:7: kind: class; its sheets are drawn by hubrule handout\n"},
	} {
		var out, errs bytes.Buffer
		code := Main(strings.Fields(c.args), strings.NewReader(c.in), &out, &errs)
		if code != c.code || errs.String() != c.errs && c.errs != "" {
			t.Errorf("hubrule %s < %.40q: exit code %d, %q; want %d, %q", c.args, c.in, code, &errs, c.code, c.errs)
		}
	}
	var drawn [][]byte
	for _, name := range []string{"file.svg", "stdin.svg", "pipe.svg", "low.svg"} {
		data, err := os.ReadFile(name)
		if drawn = append(drawn, data); err != nil || !bytes.Equal(data, drawn[0]) {
			t.Errorf("%s: %v; want the bytes of file.svg", name, err)
		}
	}
	if saved, _ := os.ReadFile("saved.yaml"); saved != nil {
		t.Error("saved.yaml was written")
	}
}
