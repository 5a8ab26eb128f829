// Command release builds the archives of a release from a clean tree: for every target the program with guide, manual pages, completions and
// licences, a bill of materials, and the sums of all files. `make release VERSION=v1.0.0` runs it.
//
// Everything is built twice, the second time in another folder and from an empty cache; two builds that differ are refused.
package main

import (
	"bytes"
	"crypto/sha256"
	"errors"
	"flag"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"time"
)

// target is a system and a processor.
type target struct{ os, arch string }

func (t target) String() string { return t.os + "-" + t.arch }

// targets are those of a release.
var targets = []target{{"linux", "amd64"}, {"linux", "arm64"}, {"darwin", "amd64"}, {"darwin", "arm64"}, {"windows", "amd64"}, {"windows", "arm64"}}

func main() {
	version := flag.String("version", "", "the `VERSION` of the release, like v1.0.0")
	into := flag.String("into", "dist", "`FOLDER` for its files, from the tree's own")
	only := flag.String("only", "", "only these `TARGETS`, like linux-amd64,windows-amd64")
	flag.Parse()
	if err := run(".", *version, *into, *only); err != nil {
		fmt.Fprintln(os.Stderr, "release:", err)
		os.Exit(1)
	}
}

// run builds the release of the tree that a folder is in.
func run(folder, version, into, only string) error {
	tree, err := git(folder, "rev-parse", "--show-toplevel")
	if err != nil {
		return err
	}
	chosen, err := choose(only)
	if err != nil {
		return err
	}
	if err := checkTree(tree, version); err != nil {
		return err
	}
	seconds, err := git(tree, "log", "-1", "--format=%ct")
	if err != nil {
		return err
	}
	epoch, err := strconv.ParseInt(seconds, 10, 64)
	if err != nil {
		return err
	}
	r := release{version: version, made: time.Unix(epoch, 0).UTC(), epoch: seconds}
	first, second, clean, err := r.trees(tree)
	defer clean()
	if err != nil {
		return err
	}
	files, err := r.files(first, second, chosen)
	if err != nil {
		return err
	}
	return write(filepath.Join(tree, into), files)
}

// choose returns the targets that are named, or all.
func choose(only string) (out []target, err error) {
	if only == "" {
		return targets, nil
	}
	for _, name := range strings.Split(only, ",") {
		i := slices.IndexFunc(targets, func(t target) bool { return t.String() == name })
		if i < 0 {
			return nil, fmt.Errorf("no target %q; want of %v", name, targets)
		}
		out = append(out, targets[i])
	}
	return out, nil
}

// checkTree refuses a tree that is not the release: with changes, or whose program names another version.
func checkTree(tree, version string) error {
	changes, err := git(tree, "status", "--porcelain")
	if err != nil {
		return err
	}
	if changes != "" {
		return fmt.Errorf("the tree has changes; commit them or take them back:\n%s", changes)
	}
	source, err := os.ReadFile(filepath.Join(tree, "internal/draw/draw.go"))
	if err != nil {
		return err
	}
	_, after, _ := strings.Cut(string(source), "const Version = \"")
	own, _, ok := strings.Cut(after, "\"")
	if !ok || version != "v"+own {
		return fmt.Errorf("VERSION=%s, but the program is v%s; want VERSION=v%[2]s, or another Version in internal/draw", version, own)
	}
	return nil
}

// release is what all its files have in common.
type release struct {
	version string
	made    time.Time // the commit's
	epoch   string
}

// trees returns two clean copies of the tree's commit, each with what it builds with, and what takes them away.
func (r release) trees(tree string) (first, second builder, clean func(), err error) {
	folder, err := os.MkdirTemp("", "release")
	clean = func() { os.RemoveAll(folder) }
	if err != nil {
		return first, second, clean, err
	}
	for i, name := range []string{"a", "elsewhere/b"} {
		path := filepath.Join(folder, name)
		if _, err := git(tree, "clone", "--quiet", "--no-hardlinks", tree, path); err != nil {
			return first, second, clean, err
		}
		b := builder{tree: path, epoch: r.epoch, out: filepath.Join(folder, "out"+strconv.Itoa(i))}
		if i == 0 {
			first = b
			continue
		}
		b.cache = filepath.Join(folder, "cache")
		second = b
	}
	return first, second, clean, nil
}

// files builds every file of the release, by name.
func (r release) files(first, second builder, chosen []target) (map[string][]byte, error) {
	files := map[string][]byte{}
	var shared [2]map[string][]byte
	for i, b := range []builder{first, second} {
		var err error
		if shared[i], err = b.shared(); err != nil {
			return nil, err
		}
	}
	for _, t := range chosen {
		name := fmt.Sprintf("hubrule-%s-%s", r.version, t)
		var made [2][]byte
		for i, b := range []builder{first, second} {
			program, err := b.program(t)
			if err != nil {
				return nil, err
			}
			licences, err := b.licences(program)
			if err != nil {
				return nil, err
			}
			if made[i], err = archive(name, t, r.made, program, shared[i], licences); err != nil {
				return nil, err
			}
			if i == 0 {
				if files[name+".cdx.json"], err = b.bill(program, r.version); err != nil {
					return nil, err
				}
			}
		}
		if !bytes.Equal(made[0], made[1]) {
			return nil, fmt.Errorf("%s: two builds differ", name)
		}
		files[name+t.ending()] = made[0]
		fmt.Printf("%s%s, %d bytes, twice the same\n", name, t.ending(), len(made[0]))
	}
	return files, nil
}

// write writes the files and their sums, in the form that sha256sum checks.
func write(into string, files map[string][]byte) error {
	if err := os.MkdirAll(into, 0o755); err != nil {
		return err
	}
	var names []string
	for name := range files {
		names = append(names, name)
	}
	slices.Sort(names)
	var sums strings.Builder
	for _, name := range names {
		fmt.Fprintf(&sums, "%x  %s\n", sha256.Sum256(files[name]), name)
		if err := os.WriteFile(filepath.Join(into, name), files[name], 0o644); err != nil {
			return err
		}
	}
	return os.WriteFile(filepath.Join(into, "SHA256SUMS"), []byte(sums.String()), 0o644)
}

// git runs git in a folder and returns what it prints.
func git(folder string, args ...string) (string, error) {
	out, err := exec.Command("git", append([]string{"-C", folder}, args...)...).Output()
	var failed *exec.ExitError
	if errors.As(err, &failed) {
		err = fmt.Errorf("git %s: %s", strings.Join(args, " "), failed.Stderr)
	}
	return strings.TrimSpace(string(out)), err
}
