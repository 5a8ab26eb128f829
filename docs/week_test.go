package docs

import (
	"bytes"
	"os"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"hubrule/internal/cli"
)

// weekStep matches what the week in the chapter about a class has its reader do, and what comes of it.
var weekStep = regexp.MustCompile("(?s)as `(?P<file>[^`]+)`[^`]*:\n\n```[a-z]+\n(?P<text>.*?)```" +
	"|[Ii]n `(?P<edited>[^`]+)` change the line `(?P<from>[^`]+)` to `(?P<to>[^`]+)`" +
	"|[Ii]n `(?P<longer>[^`]+)` add the line `(?P<added>[^`]+)`" +
	"|\nhubrule (?P<command>[^\n]+)\n" +
	"|`(?P<pdf>[^`]+)` holds (?P<pages>\\d+) pages")

// The week in the chapter about a class happens as it is written: files saved, lines changed and added, commands run, pages counted.
func TestWeekOfTheChapter(t *testing.T) {
	chapter, err := os.ReadFile("class.md")
	if err != nil {
		t.Fatal(err)
	}
	_, week, _ := strings.Cut(string(chapter), "## A whole week, step by step\n")
	week, _, _ = strings.Cut(week, "\n## ")
	t.Chdir(t.TempDir())
	done := map[string]int{}
	for _, m := range weekStep.FindAllStringSubmatch(week, -1) {
		done[takeStep(t, func(name string) string { return m[weekStep.SubexpIndex(name)] })]++
	}
	for what, want := range map[string]int{"saved": 2, "changed": 2, "added": 1, "run": 6, "counted": 6} {
		if done[what] != want {
			t.Errorf("%s: %d, want %d", what, done[what], want)
		}
	}
	// Dana's reprint after others came and went is what the last print of all holds.
	if run(t, "handout week.yaml --split each"); !bytes.Equal(read(t, "each/Dana-Lindqvist.pdf"), read(t, "dana.pdf")) {
		t.Error("the reprint differs")
	}
}

// takeStep does what one step says, whose parts at returns, and returns what kind it is.
func takeStep(t *testing.T, at func(string) string) string {
	t.Helper()
	write := func(file, text string) {
		if err := os.WriteFile(file, []byte(text), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	switch {
	case at("file") != "":
		write(at("file"), at("text"))
		return "saved"
	case at("from") != "":
		text, before := string(read(t, at("edited"))), at("from")+"\n"
		if strings.Count(text, before) != 1 {
			t.Errorf("%s has no line %q", at("edited"), before)
		}
		write(at("edited"), strings.Replace(text, before, at("to")+"\n", 1))
		return "changed"
	case at("added") != "":
		write(at("longer"), string(read(t, at("longer")))+at("added")+"\n")
		return "added"
	case at("command") != "":
		run(t, at("command"))
		return "run"
	}
	if n := bytes.Count(read(t, at("pdf")), []byte("/Type/Page/")); strconv.Itoa(n) != at("pages") {
		t.Errorf("%s holds %d pages, not %s", at("pdf"), n, at("pages"))
	}
	return "counted"
}

func read(t *testing.T, file string) []byte {
	t.Helper()
	data, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	return data
}

// run runs a command that says nothing but who is absent and where it wrote.
func run(t *testing.T, command string) {
	t.Helper()
	args := regexp.MustCompile(`'[^']*'|\S+`).FindAllString(command, -1)
	for i, a := range args {
		args[i] = strings.Trim(a, "'")
	}
	var out, errs bytes.Buffer
	code := cli.Main(args, nil, &out, &errs)
	expected := regexp.MustCompile(`(?m)^(hubrule: note: absent, so without sheets: Bo Ilves|wrote 25 files into each \([^()]+\)|wrote \S+\.pdf \([^()]+\))\n`)
	said := expected.ReplaceAll(errs.Bytes(), nil)
	if code != 0 || len(said) > 0 {
		t.Errorf("hubrule %s: exit %d, %s", command, code, said)
	}
}
