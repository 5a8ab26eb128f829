package docs

import (
	"bytes"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"hubrule/internal/cli"
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
	for name, path := range map[string]string{"docs": here, "testdata": filepath.Join(here, "../testdata")} {
		if err := os.Symlink(path, name); err != nil {
			t.Fatal(err)
		}
	}
	commands := regexp.MustCompile(`(?m)^(?:hubrule|go run \.) ((?:draw|handout|segments|figures) .+)$`).FindAllStringSubmatch(string(readme), -1)
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

// The chapter about a class says what happens: its file, typed in, gives the pages that it counts.
func TestClassInTenMinutes(t *testing.T) {
	chapter, err := os.ReadFile("class.md")
	if err != nil {
		t.Fatal(err)
	}
	blocks := regexp.MustCompile("(?s)```yaml\n(.*?)```").FindAllStringSubmatch(string(chapter), -1)
	if len(blocks) != 2 {
		t.Fatalf("%d blocks of YAML", len(blocks))
	}
	named := regexp.MustCompile(`(?m)^students: 30\n`).ReplaceAllLiteralString(blocks[0][1], blocks[1][1])
	for file, want := range map[string]int{blocks[0][1]: 120, named: 12} {
		t.Chdir(t.TempDir())
		if err := os.WriteFile("class.yaml", []byte(file), 0o666); err != nil {
			t.Fatal(err)
		}
		var out, errs bytes.Buffer
		code := cli.Main([]string{"handout", "class.yaml", "-o", "class.pdf", "--answers-to", "key.pdf"}, nil, &out, &errs)
		pdf, _ := os.ReadFile("class.pdf")
		if n := bytes.Count(pdf, []byte("/Type/Page/")); code != 0 || errs.Len() > 0 || n != want {
			t.Errorf("exit %d, %s, %d pages; want %d", code, &errs, n, want)
		}
	}
}

// The camera that the chapter on perspective types in takes a picture.
func TestCameraOfTheChapter(t *testing.T) {
	chapter, err := os.ReadFile("perspective.md")
	if err != nil {
		t.Fatal(err)
	}
	block := regexp.MustCompile("(?s)```yaml\n(.*?)```").FindStringSubmatch(string(chapter))
	t.Chdir(t.TempDir())
	if err := os.WriteFile("kerb.yaml", []byte(block[1]), 0o666); err != nil {
		t.Fatal(err)
	}
	for _, m := range regexp.MustCompile(`(?m)^hubrule (draw .+)$`).FindAllStringSubmatch(string(chapter), -1) {
		var out, errs bytes.Buffer
		if code := cli.Main(strings.Fields(m[1]), nil, &out, &errs); code != 0 || errs.Len() > 0 {
			t.Errorf("hubrule %s: exit %d, %s", m[1], code, &errs)
		}
	}
}
