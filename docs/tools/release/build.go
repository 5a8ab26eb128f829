package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
)

// builder builds from one copy of the tree.
type builder struct {
	tree, out string
	cache     string // of compiled packages; "" is the user's own
	epoch     string
}

// run runs a program in the tree and returns what it prints.
func (b builder) run(env []string, args ...string) ([]byte, error) {
	c := exec.Command(args[0], args[1:]...)
	c.Dir, c.Env = b.tree, append(os.Environ(), "SOURCE_DATE_EPOCH="+b.epoch, "GOFLAGS=", "CGO_ENABLED=0")
	if b.cache != "" {
		c.Env = append(c.Env, "GOCACHE="+b.cache)
	}
	c.Env = append(c.Env, env...)
	var errs bytes.Buffer
	c.Stderr = &errs
	out, err := c.Output()
	if err != nil {
		err = fmt.Errorf("%s: %w\n%s", strings.Join(args, " "), err, errs.Bytes())
	}
	return out, err
}

// program builds the program for a target and returns its path.
func (b builder) program(t target) (string, error) {
	path := filepath.Join(b.out, t.String(), t.program())
	_, err := b.run([]string{"GOOS=" + t.os, "GOARCH=" + t.arch}, "go", "build", "-trimpath", "-buildvcs=true", "-ldflags=-s -w -buildid=", "-o", path, ".")
	return path, err
}

// program is what the program's file is called.
func (t target) program() string {
	if t.os == "windows" {
		return "hubrule.exe"
	}
	return "hubrule"
}

// shared returns what the archives of all targets hold, by name: what to read first, the guide, manual pages, completions and the project's
// own licences.
func (b builder) shared() (map[string][]byte, error) {
	host, err := b.program(target{runtime.GOOS, runtime.GOARCH})
	if err != nil {
		return nil, err
	}
	files := map[string][]byte{}
	for name, path := range map[string]string{"START.txt": "docs/START.txt", "LICENSE": "LICENSE", "THIRD-PARTY.md": "THIRD-PARTY.md",
		"licences/fonts/OFL.txt":  "fonts/OFL.txt",
		"licences/preact/LICENSE": "internal/desk/page/vendor/preact/LICENSE"} {
		if files[name], err = os.ReadFile(filepath.Join(b.tree, path)); err != nil {
			return nil, err
		}
	}
	for shell, name := range map[string]string{"bash": "hubrule", "zsh": "_hubrule", "fish": "hubrule.fish", "powershell": "hubrule.ps1"} {
		if files["completions/"+shell+"/"+name], err = b.run(nil, host, "completion", shell); err != nil {
			return nil, err
		}
	}
	pages := filepath.Join(b.out, "man")
	if _, err := b.run(nil, "go", "run", "./docs/tools/man", pages); err != nil {
		return nil, err
	}
	if err := addFolder(files, "man", pages, func(string) bool { return true }); err != nil {
		return nil, err
	}
	return files, addGuide(files, b.tree)
}

// addFolder adds the files of a folder whose names are wanted.
func addFolder(files map[string][]byte, as, folder string, wanted func(name string) bool) error {
	entries, err := os.ReadDir(folder)
	if err != nil {
		return err
	}
	for _, e := range entries {
		if !e.Type().IsRegular() && e.Type() != fs.ModeSymlink || !wanted(e.Name()) {
			continue
		}
		if files[as+"/"+e.Name()], err = os.ReadFile(filepath.Join(folder, e.Name())); err != nil {
			return err
		}
	}
	return nil
}

// licences returns the licences of the modules that a program was built from, and of Go itself, by name.
func (b builder) licences(program string) (map[string][]byte, error) {
	files := map[string][]byte{}
	listed, err := b.run(nil, "go", "version", "-m", program)
	if err != nil {
		return nil, err
	}
	for _, line := range strings.Split(string(listed), "\n") {
		word := strings.Fields(line)
		if len(word) < 3 || word[0] != "dep" {
			continue
		}
		described, err := b.run(nil, "go", "mod", "download", "-json", word[1]+"@"+word[2])
		if err != nil {
			return nil, err
		}
		var module struct{ Dir string }
		if err := json.Unmarshal(described, &module); err != nil {
			return nil, err
		}
		before := len(files)
		if err := addFolder(files, "licences/"+word[1], module.Dir, isLicence); err != nil {
			return nil, err
		}
		if len(files) == before {
			return nil, fmt.Errorf("%s has no licence in %s", word[1], module.Dir)
		}
	}
	root, err := b.run(nil, "go", "env", "GOROOT")
	if err != nil {
		return nil, err
	}
	return files, addFolder(files, "licences/go", strings.TrimSpace(string(root)), isLicence)
}

// isLicence reports whether a file has to go with the program.
func isLicence(name string) bool {
	for _, begins := range []string{"LICENSE", "LICENCE", "COPYING", "NOTICE", "PATENTS"} {
		if strings.HasPrefix(strings.ToUpper(name), begins) && !strings.HasSuffix(name, ".go") {
			return true
		}
	}
	return false
}

// bill returns the bill of materials of a program, made from the program itself by cyclonedx-gomod.
func (b builder) bill(program, version string) ([]byte, error) {
	return b.run(nil, "go", "-C", "docs/tools/release", "tool", "cyclonedx-gomod", "bin", "-json", "-noserial", "-notimestamp", "-output-version", "1.5", "-version", version, program)
}
