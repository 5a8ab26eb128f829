package cli

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
	"github.com/spf13/cobra"

	"hubrule/fonts"
	"hubrule/internal/testfont"
)

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){
		"hubrule": func() { os.Exit(Main(os.Args[1:], os.Stdin, os.Stdout, os.Stderr)) },
	})
}

// TestScripts runs the commands as a user does, one folder of their own each; what they say is compared to the letter.
func TestScripts(t *testing.T) {
	t.Parallel()
	testscript.Run(t, testscript.Params{
		Dir: "testdata/script",
		Setup: func(e *testscript.Env) error {
			// A face that draws A and B under other letters: testscript's archives hold text only.
			strange := testfont.Relettered(fonts.Subset([]string{"AB"}, fonts.Regular), "語😀")
			return os.WriteFile(filepath.Join(e.WorkDir, "strange.ttf"), strange, 0o666)
		},
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"exits": exits,
		},
	})
}

// exits runs a command and compares its exit code: exits 2 hubrule draw …
func exits(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: exits CODE COMMAND ARG…")
	}
	err := ts.Exec(args[1], args[2:]...)
	code := "0"
	if e, ok := err.(interface{ ExitCode() int }); ok {
		code = fmt.Sprint(e.ExitCode())
	} else if err != nil {
		ts.Fatalf("%v", err)
	}
	if code != args[0] {
		ts.Fatalf("exit code %s, want %s", code, args[0])
	}
}

// Every example that a command's help shows runs.
func TestExamplesRun(t *testing.T) {
	mine, err := os.ReadFile("testdata/mine.yaml")
	if err != nil {
		t.Fatal(err)
	}
	class, err := os.ReadFile("../../testdata/class/class.yaml")
	if err != nil {
		t.Fatal(err)
	}
	ran := 0
	var walk func(c *cobra.Command)
	walk = func(c *cobra.Command) {
		for _, line := range strings.Split(c.Example, "\n") {
			command, ok := strings.CutPrefix(strings.TrimSpace(line), "hubrule ")
			if !ok {
				continue
			}
			t.Chdir(t.TempDir())
			for name, data := range map[string][]byte{"mine.yaml": mine, "squat.yaml": []byte(ownTweak), "class.yaml": class} {
				if err := os.WriteFile(name, data, 0o666); err != nil {
					t.Fatal(err)
				}
			}
			command, _, _ = strings.Cut(command, " > ")
			var out, errs bytes.Buffer
			args := regexp.MustCompile(`'[^']*'|\S+`).FindAllString(command, -1)
			for i, a := range args {
				args[i] = strings.Trim(a, "'")
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
