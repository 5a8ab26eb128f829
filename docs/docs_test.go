package docs

import (
	"bytes"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"hubrule/internal/cli"
)

// pages are the texts for users: how many words each may have, and how many commands it has at least.
var pages = []struct {
	file            string
	words, commands int
}{
	{"../README.md", 1400, 15}, {"sketcher.md", 500, 7}, {"instructor.md", 500, 8}, {"designer.md", 500, 8}, {"files.md", 800, 3},
	{"photo.md", 500, 8}, {"handback.md", 500, 6}, {"marks.md", 1000, 2},
}

// A reader finds what to do before the page is over.
func TestPagesAreShort(t *testing.T) {
	for _, p := range pages {
		text, err := os.ReadFile(p.file)
		if err != nil {
			t.Fatal(err)
		}
		if n := len(strings.Fields(string(text))); n > p.words {
			t.Errorf("%s has %d words; want at most %d", p.file, n, p.words)
		}
		if pictures := bytes.Count(text, []byte("![")); p.words == 500 && pictures < 3 {
			t.Errorf("%s has %d pictures; want three", p.file, pictures)
		}
	}
}

// Every hubrule command of a page for users runs without complaint, in an empty folder that has only the docs in it, and the files
// that the page has one save.
func TestCommandsOfThePages(t *testing.T) {
	here, err := os.Getwd()
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range pages {
		text, err := os.ReadFile(filepath.Join(here, p.file))
		if err != nil {
			t.Fatal(err)
		}
		t.Chdir(t.TempDir())
		for name, path := range map[string]string{"docs": here, "testdata": filepath.Join(here, "../testdata")} {
			if err := os.Symlink(path, name); err != nil {
				t.Fatal(err)
			}
		}
		for _, m := range regexp.MustCompile("(?s)Save this as `([^`]+)`:\n\n```(?:yaml|csv)\n(.*?)```").FindAllStringSubmatch(string(text), -1) {
			if err := os.WriteFile(m[1], []byte(m[2]), 0o666); err != nil {
				t.Fatal(err)
			}
		}
		for _, m := range regexp.MustCompile(`(?m)^cp (\S+) (\S+)$`).FindAllStringSubmatch(string(text), -1) {
			data, err := os.ReadFile(m[1])
			if err == nil {
				err = os.WriteFile(m[2], data, 0o666)
			}
			if err != nil {
				t.Errorf("%s: %v", p.file, err)
			}
		}
		command := regexp.MustCompile(`(?m)^(?:hubrule|go run \.) ((?:draw|handout|segments|figures|tweaks|read|norms) .+)$`)
		commands := command.FindAllStringSubmatch(string(text), -1)
		if len(commands) < p.commands {
			t.Errorf("%s: found only %d commands", p.file, len(commands))
		}
		for _, m := range commands {
			tryCommand(t, p.file, m[1])
		}
	}
}

// complaint is anything on standard error but notes and what was written.
var complaint = regexp.MustCompile(`(?m)^hubrule: [^n]|^hubrule: n[^o]|^[^hw]`)

// said is anything on standard error but what was written.
var said = regexp.MustCompile(`(?m)^[^w]`)

// tryCommand runs a command of a page; it has to write or print something worth the name.
func tryCommand(t *testing.T, page, command string) {
	t.Helper()
	args := strings.Fields(command)
	var out, errs bytes.Buffer
	if code := cli.Main(args, strings.NewReader(""), &out, &errs); code != 0 || complaint.Match(errs.Bytes()) {
		t.Errorf("%s: hubrule %s: exit %d, %s", page, command, code, errs.String())
	}
	last := args[len(args)-1]
	switch {
	case strings.Contains(command, " -o "):
		file := args[slices.Index(args, "-o")+1]
		least := int64(10_000)
		if filepath.Ext(file) == ".yaml" {
			least = 1000
		}
		if written, err := filepath.Glob(strings.TrimSuffix(file, filepath.Ext(file)) + "*"); err != nil || len(written) == 0 {
			t.Errorf("%s: hubrule %s: no %s", page, command, file)
		} else if info, err := os.Stat(written[0]); err != nil || info.Size() < least {
			t.Errorf("%s: hubrule %s: no %s worth the name (%v)", page, command, file, err)
		}
	case strings.Contains(command, " --new "):
		file := strings.TrimSuffix(last, filepath.Ext(last)) + ".yaml"
		if data, err := os.ReadFile(file); err != nil || len(data) < 1000 {
			t.Errorf("%s: hubrule %s: no %s worth the name (%v)", page, command, file, err)
		}
	case strings.Contains(command, " --split "):
		if written, err := os.ReadDir(last); err != nil || len(written) < 2 {
			t.Errorf("%s: hubrule %s: nothing in %s (%v)", page, command, last, err)
		}
	case out.Len() < 500:
		t.Errorf("%s: hubrule %s: printed only %q", page, command, out.String())
	}
}

// The profile that the page about files prints is the example's.
func TestProfileOfTheFiles(t *testing.T) {
	page, err := os.ReadFile("files.md")
	if err != nil {
		t.Fatal(err)
	}
	example, err := os.ReadFile("examples/kornfeld-camper.yaml")
	if err != nil {
		t.Fatal(err)
	}
	_, after, _ := strings.Cut(string(page), "```yaml\n")
	printed, _, _ := strings.Cut(after, "```")
	if len(printed) < 200 || !strings.HasSuffix(string(example), printed) {
		t.Errorf("files.md prints\n%s\nthe example is\n%s", printed, example)
	}
}

// The chapter about a class says what happens: its file, typed in, gives the pages that it counts.
func TestClassInTenMinutes(t *testing.T) {
	chapter, err := os.ReadFile("class.md")
	if err != nil {
		t.Fatal(err)
	}
	blocks := regexp.MustCompile("(?s)```yaml\n(.*?)```").FindAllStringSubmatch(string(chapter), -1)
	if len(blocks) != 3 {
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
		if n := bytes.Count(pdf, []byte("/Type/Page/")); code != 0 || said.Match(errs.Bytes()) || n != want {
			t.Errorf("exit %d, %s, %d pages; want %d", code, &errs, n, want)
		}
		if first, _, _ := strings.Cut(errs.String(), "\n"); file == blocks[0][1] && !strings.Contains(string(chapter), "`"+first+"`") {
			t.Errorf("the chapter does not show %q", first)
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
		if code := cli.Main(strings.Fields(m[1]), nil, &out, &errs); code != 0 || said.Match(errs.Bytes()) {
			t.Errorf("hubrule %s: exit %d, %s", m[1], code, &errs)
		}
	}
}
