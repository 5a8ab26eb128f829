package cli

import (
	"bytes"
	"fmt"
	"image"
	"image/jpeg"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"runtime/debug"
	"strings"
	"sync"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
	"github.com/spf13/cobra"

	"hubrule/fonts"
	"hubrule/internal/testfont"
)

// TestMain runs the command line instead of the tests where the test's own program is started under the name hubrule.
func TestMain(m *testing.M) {
	if os.Getenv("GOGC") == "" {
		debug.SetGCPercent(400) // drawings come and go: collecting them less often is much quicker
	}
	if filepath.Base(os.Args[0]) == "hubrule" {
		os.Exit(Main(os.Args[1:], os.Stdin, os.Stdout, os.Stderr))
	}
	os.Exit(m.Run())
}

// hubrule is a command of the test's own program, which runs the command line when it is called so.
func hubrule(t *testing.T, args ...string) *exec.Cmd {
	t.Helper()
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	link := filepath.Join(t.TempDir(), "hubrule")
	if err := os.Symlink(self, link); err != nil {
		t.Fatal(err)
	}
	return exec.Command(link, args...)
}

// TestScripts runs the commands as a user does, one folder of their own each; what they say is compared to the letter.
// "hubrule" calls Main, which is much quicker than the process that "exec hubrule" starts. As a process has one working directory, this
// test is not parallel with others.
func TestScripts(t *testing.T) {
	folder, err := filepath.Abs("testdata/script")
	if err != nil {
		t.Fatal(err)
	}
	programs, testdata := filepath.Dir(hubrule(t).Path), filepath.Join(folder, "../../../../testdata")
	testscript.Run(t, testscript.Params{
		Dir: folder,
		Setup: func(e *testscript.Env) error {
			e.Setenv("TESTDATA", testdata)
			e.Setenv("PATH", programs+string(filepath.ListSeparator)+e.Getenv("PATH"))
			// A face that draws A and B under other letters: testscript's archives hold text only.
			strange := testfont.Relettered(fonts.Subset([]string{"AB"}, fonts.Regular), "語😀")
			return os.WriteFile(filepath.Join(e.WorkDir, "strange.ttf"), strange, 0o666)
		},
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"hubrule": func(ts *testscript.TestScript, neg bool, args []string) {
				if code := runIn(ts, args); (code != exitDone) != neg {
					ts.Fatalf("exit code %d", code)
				}
			},
			"exits": exits,
		},
	})
}

// inFolder is held by the script whose folder is the working directory.
var inFolder sync.Mutex

// runIn runs the command line in the script's folder, with nothing on standard input, and returns the exit code. Nothing may be said twice
// on standard error.
func runIn(ts *testscript.TestScript, args []string) int {
	inFolder.Lock()
	defer inFolder.Unlock()
	before, err := os.Getwd()
	ts.Check(err)
	ts.Check(os.Chdir(ts.MkAbs(".")))
	defer os.Chdir(before)
	defer fonts.SetFallback(nil) // a process has one, see --font
	var errs bytes.Buffer
	code := Main(args, strings.NewReader(""), ts.Stdout(), io.MultiWriter(ts.Stderr(), &errs))
	said := map[string]bool{}
	for line := range strings.Lines(errs.String()) {
		if said[line] {
			ts.Fatalf("said twice: %s", line)
		}
		said[line] = true
	}
	return code
}

// exits runs a command and compares its exit code: exits 2 hubrule draw …
func exits(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 || args[1] != "hubrule" {
		ts.Fatalf("usage: exits CODE hubrule ARG…")
	}
	if code := fmt.Sprint(runIn(ts, args[2:])); code != args[0] {
		ts.Fatalf("exit code %s, want %s", code, args[0])
	}
}

// exampleFiles are the files that examples name.
func exampleFiles(t *testing.T) map[string][]byte {
	out := map[string][]byte{"squat.yaml": []byte(ownTweak), "brief.yaml": []byte(ownBrief), "class.yaml": []byte(ownClass),
		"sheet.csv": []byte("name,tyre,wheelbase mm,height mm\nTern,225/45R17,2700,1480\n")}
	for name, path := range map[string]string{
		"mine.yaml": "testdata/mine.yaml",
		"side.yaml": "../../testdata/reading/plain-noisy.yaml", "sketch.yaml": "../../testdata/reading/round-noisy.yaml",
	} {
		data, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		out[name] = data
	}
	var picture bytes.Buffer
	if err := jpeg.Encode(&picture, image.NewGray(image.Rect(0, 0, 300, 200)), nil); err != nil {
		t.Fatal(err)
	}
	out["side.jpg"], out["marks/a.yaml"], out["marks/b.yaml"] = picture.Bytes(), out["side.yaml"], out["sketch.yaml"]
	return out
}

// writeExample writes the file that is named, or those of the folder, if it is one of the files.
func writeExample(t *testing.T, name string, files map[string][]byte) {
	for path, data := range files {
		if path != name && !(strings.HasSuffix(name, "/") && strings.HasPrefix(path, name)) {
			continue
		}
		err := os.MkdirAll(filepath.Dir(path), 0o777)
		if err == nil {
			err = os.WriteFile(path, data, 0o666)
		}
		if err != nil {
			t.Fatal(err)
		}
	}
}

// Every example that a command's help shows runs.
func TestExamplesRun(t *testing.T) {
	files := exampleFiles(t)
	ran := 0
	var walk func(c *cobra.Command)
	walk = func(c *cobra.Command) {
		for _, line := range strings.Split(c.Example, "\n") {
			command, ok := strings.CutPrefix(strings.TrimSpace(line), "hubrule ")
			if !ok || c.Name() == "desk" { // it runs until it is interrupted: TestDesk
				continue
			}
			t.Chdir(t.TempDir())
			command, _, _ = strings.Cut(command, " > ")
			var out, errs bytes.Buffer
			args := regexp.MustCompile(`'[^']*'|\S+`).FindAllString(command, -1)
			for i, a := range args {
				args[i] = strings.Trim(a, "'")
				if i > 0 && args[i-1] != "-o" {
					writeExample(t, strings.TrimPrefix(args[i], "./"), files)
				}
			}
			if code := Main(args, nil, &out, &errs); code != exitDone {
				t.Errorf("hubrule %s: exit code %d: %s", command, code, &errs)
			}
			ran++
		}
		for _, sub := range c.Commands() {
			walk(sub)
		}
	}
	walk(newRoot(nil))
	if ran < 10 {
		t.Errorf("only %d examples", ran)
	}
}
