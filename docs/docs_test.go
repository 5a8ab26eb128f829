package docs

import (
	"bytes"
	"os"
	"regexp"
	"strings"
	"testing"

	"hubrule/cli"
)

// Every hubrule command of the README runs without complaint, in an empty folder that only has the docs in it.
func TestCommandsOfTheReadme(t *testing.T) {
	readme, err := os.ReadFile("../README.md")
	if err != nil {
		t.Fatal(err)
	}
	here, err := os.Getwd()
	if err != nil {
		t.Fatal(err)
	}
	t.Chdir(t.TempDir())
	if err := os.Symlink(here, "docs"); err != nil {
		t.Fatal(err)
	}
	commands := regexp.MustCompile(`(?m)^(?:hubrule|go run \.) ((?:draw|segments|figures) .+)$`).FindAllStringSubmatch(string(readme), -1)
	if len(commands) < 8 {
		t.Fatalf("found only %d commands", len(commands))
	}
	complaint := regexp.MustCompile(`(?m)^hubrule: [^n]|^hubrule: n[^o]|^[^h]`) // anything but notes
	for _, m := range commands {
		args := strings.Fields(m[1])
		var out, errs bytes.Buffer
		if code := cli.Main(args, strings.NewReader(""), &out, &errs); code != 0 || complaint.Match(errs.Bytes()) {
			t.Errorf("hubrule %s: exit %d, %s", m[1], code, errs.String())
		}
		if file := args[len(args)-1]; strings.Contains(m[1], " -o ") {
			if info, err := os.Stat(file); err != nil || info.Size() < 10_000 {
				t.Errorf("hubrule %s: no %s worth the name (%v)", m[1], file, err)
			}
		} else if out.Len() < 500 {
			t.Errorf("hubrule %s: printed only %q", m[1], out.String())
		}
	}
}

// The profile that the README prints is the example's.
func TestProfileOfTheReadme(t *testing.T) {
	readme, err := os.ReadFile("../README.md")
	if err != nil {
		t.Fatal(err)
	}
	example, err := os.ReadFile("examples/kornfeld-camper.yaml")
	if err != nil {
		t.Fatal(err)
	}
	_, after, _ := strings.Cut(string(readme), "```yaml\n")
	printed, _, _ := strings.Cut(after, "```")
	if len(printed) < 200 || !strings.HasSuffix(string(example), printed) {
		t.Errorf("the README prints\n%s\nthe example is\n%s", printed, example)
	}
}
