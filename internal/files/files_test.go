package files

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// write runs a command that writes texts by their paths, and calls last before it commits.
func write(stdout *bytes.Buffer, last func(), named ...string) error {
	return Run(stdout, func(_ context.Context, s *Set) error {
		for i := 0; i < len(named); i += 2 {
			if err := s.Add(named[i], []byte(named[i+1])); err != nil {
				return err
			}
		}
		if last != nil {
			last()
		}
		return s.Commit()
	})
}

// held returns what every file of a folder holds.
func held(t *testing.T, folder string) map[string]string {
	t.Helper()
	entries, err := os.ReadDir(folder)
	if err != nil {
		t.Fatal(err)
	}
	out := map[string]string{}
	for _, e := range entries {
		data, _ := os.ReadFile(filepath.Join(folder, e.Name()))
		out[e.Name()] = string(data)
	}
	return out
}

// check compares what a folder holds.
func check(t *testing.T, what, folder string, want map[string]string) {
	t.Helper()
	if got := held(t, folder); !maps.Equal(got, want) {
		t.Errorf("%s: the folder holds %q, want %q", what, got, want)
	}
}

// TestLeftOverPart: what a killed run left behind is not in the way, even of a process with the same number.
func TestLeftOverPart(t *testing.T) {
	folder := t.TempDir()
	part := fmt.Sprintf(".hubrule-%d-0.part", os.Getpid())
	if err := os.WriteFile(filepath.Join(folder, part), []byte("left over"), 0o666); err != nil {
		t.Fatal(err)
	}
	if err := write(nil, nil, filepath.Join(folder, "a.svg"), "new"); err != nil {
		t.Fatal(err)
	}
	check(t, "after", folder, map[string]string{part: "left over", "a.svg": "new"})
}

// TestAllOrNone: when one file cannot be put in place, or the command does not commit, the others are as they were.
func TestAllOrNone(t *testing.T) {
	folder := t.TempDir()
	old, fresh, blocked := filepath.Join(folder, "old"), filepath.Join(folder, "fresh"), filepath.Join(folder, "blocked")
	if err := os.WriteFile(old, []byte("old"), 0o640); err != nil {
		t.Fatal(err)
	}
	// A folder that turns up under the last name after everything was staged.
	block := func() {
		if err := os.MkdirAll(filepath.Join(blocked, "in"), 0o777); err != nil {
			t.Fatal(err)
		}
	}
	err := write(nil, block, old, "new", fresh, "new", blocked, "new")
	if err == nil || !strings.HasPrefix(err.Error(), "cannot write "+blocked+": ") {
		t.Errorf("a rename fails: %v", err)
	}
	os.RemoveAll(blocked)
	check(t, "a rename fails", folder, map[string]string{"old": "old"})

	if err := write(nil, nil, old, "new", fresh, "new", folder, ""); err == nil || err.Error() != "cannot write "+folder+": it is a folder" {
		t.Errorf("a folder: %v", err)
	}
	check(t, "a folder", folder, map[string]string{"old": "old"})

	var out bytes.Buffer
	if err := write(&out, nil, "-", "sent", old, "new", fresh, "new"); err != nil {
		t.Fatal(err)
	}
	check(t, "all is well", folder, map[string]string{"old": "new", "fresh": "new"})
	if info, err := os.Stat(old); err != nil || info.Mode().Perm() != 0o640 || out.String() != "sent" {
		t.Errorf("%v, %v; standard output got %q", info.Mode(), err, &out)
	}
}

// TestMeanwhile: of two that write one file at a time, one does and the other says that it did not; nothing is torn.
func TestMeanwhile(t *testing.T) {
	folder := t.TempDir()
	old, fresh := filepath.Join(folder, "old"), filepath.Join(folder, "fresh")
	for _, path := range []string{fresh, old} { // what the first writes the second finds
		others := func() {
			if err := write(nil, nil, path, "theirs"); err != nil {
				t.Error(err)
			}
		}
		if path == old {
			if err := os.WriteFile(old, []byte("old"), 0o666); err != nil {
				t.Fatal(err)
			}
		}
		err := write(nil, others, filepath.Join(folder, "first"), "ours", path, "ours")
		if want := "cannot write " + path + ": another program has written it meanwhile; try again"; err == nil || err.Error() != want {
			t.Errorf("%v; want %s", err, want)
		}
	}
	check(t, "after", folder, map[string]string{"old": "theirs", "fresh": "theirs"})
}

// TestUncommitted: a command that fails, discards or forgets to commit leaves neither files nor folders.
func TestUncommitted(t *testing.T) {
	folder := t.TempDir()
	sub := filepath.Join(folder, "sub")
	for what, end := range map[string]func(*Set) error{
		"fails":    func(*Set) error { return errors.New("fails") },
		"forgets":  func(*Set) error { return nil },
		"discards": func(s *Set) error { s.Discard(); return s.Commit() },
	} {
		Run(nil, func(_ context.Context, s *Set) error {
			if err := s.Mkdir(sub); err != nil {
				t.Error(err)
			}
			f, err := s.Create(filepath.Join(sub, "a"))
			if err != nil {
				t.Fatal(err)
			}
			fmt.Fprint(f, "text")
			return end(s)
		})
		check(t, what, folder, map[string]string{})
	}
}

// TestOneFileTwice: a file is written once, whatever links and folders its names go through.
func TestOneFileTwice(t *testing.T) {
	folder := t.TempDir()
	t.Chdir(folder)
	if err := errors.Join(os.Mkdir("a", 0o777), os.Symlink("a", "b"), os.Symlink("c", "d"), os.WriteFile("c", nil, 0o666)); err != nil {
		t.Skip(err)
	}
	for _, names := range [][2]string{{"a/x", "b/x"}, {"x", filepath.Join(folder, "x")}, {"c", "d"}, {"x", "x"}} {
		want := fmt.Sprintf("cannot write %s: it is the same file as %s", names[1], names[0])
		if names[0] == names[1] {
			want = "cannot write x: two of the files would have this name"
		}
		if err := write(nil, nil, names[0], "1", names[1], "2"); err == nil || err.Error() != want {
			t.Errorf("%q: %v, want %s", names, err, want)
		}
	}
	if !Same("c", "d") || !Same("gone", filepath.Join(folder, "gone")) || Same("c", "gone") {
		t.Error("Same takes names of one file for two, or the other way round")
	}
}

// closedPipe is standard output without a reader.
type closedPipe struct{}

func (closedPipe) Write([]byte) (int, error) { return 0, errors.New("broken pipe") }

// TestOverlooked: an error of standard output counts, though the command does not look at it.
func TestOverlooked(t *testing.T) {
	err := Run(closedPipe{}, func(_ context.Context, s *Set) error {
		fmt.Fprintln(s.Stdout(), "text")
		return nil
	})
	if want := "cannot write to standard output: broken pipe"; err == nil || err.Error() != want {
		t.Errorf("%v, want %s", err, want)
	}
}
