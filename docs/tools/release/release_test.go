//go:build unix

package main

import (
	"bytes"
	"encoding/json"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"
)

// oracle skips t unless HUBRULE_ORACLE=1, and fails it where a program is missing.
func oracle(t *testing.T, programs ...string) {
	t.Helper()
	if os.Getenv("HUBRULE_ORACLE") != "1" {
		t.Skip("runs in make oracle only")
	}
	for _, p := range programs {
		if _, err := exec.LookPath(p); err != nil {
			t.Fatalf("%s is not installed", p)
		}
	}
}

// command runs a program in a folder and returns what it prints.
func command(t *testing.T, folder string, env []string, args ...string) string {
	t.Helper()
	c := exec.Command(args[0], args[1:]...)
	c.Dir, c.Env = folder, env
	var errs bytes.Buffer
	c.Stderr = &errs
	out, err := c.Output()
	if err != nil {
		t.Fatalf("%v: %v\n%s%s", args, err, out, errs.Bytes())
	}
	return string(out)
}

// drawn are files of the main job: what each target's program must write with the same bytes.
var drawn = []string{"suv.pdf", "suv.svg", "suv.png"}

// TestOracleRelease builds a release from a clone and looks at it from outside: sha256sum, tar and unzip; each bill of materials by the
// schema of CycloneDX 1.5 (SEEN) and against what go says of the program; and the main job by the programs
// themselves, in an empty folder with an empty environment, for other systems under qemu-user and wine: the same bytes.
func TestOracleRelease(t *testing.T) {
	oracle(t, "git", "sha256sum", "tar", "unzip", "qpdf", "qemu-aarch64", "wine", "x86_64-w64-mingw32-gcc")
	if runtime.GOOS != "linux" || runtime.GOARCH != "amd64" {
		t.Skip("the programs of other systems are run on linux/amd64")
	}
	into := releaseOf(t)
	command(t, into, os.Environ(), "sha256sum", "--check", "--strict", "SHA256SUMS")
	var want map[string][]byte
	for _, tc := range []struct {
		target target
		unpack []string
		run    []string
	}{
		{target{"linux", "amd64"}, []string{"tar", "-xzf"}, nil},
		{target{"linux", "arm64"}, []string{"tar", "-xzf"}, []string{"qemu-aarch64"}},
		{target{"windows", "amd64"}, []string{"unzip", "-q"}, []string{"wine"}},
	} {
		name := "hubrule-v" + versionOf(t, "../../..") + "-" + tc.target.String()
		folder := t.TempDir()
		command(t, folder, os.Environ(), append(slices.Clone(tc.unpack), filepath.Join(into, name+tc.target.ending()))...)
		unpacked := filepath.Join(folder, name)
		for _, file := range []string{"START.txt", "LICENSE", "THIRD-PARTY.md", "README.md", "docs/CHANGELOG.md", "docs/class.md", "man/hubrule-draw.1", "completions/bash/hubrule",
			"licences/fonts/OFL.txt", "licences/preact/LICENSE", "licences/go/LICENSE"} {
			if info, err := os.Stat(filepath.Join(unpacked, file)); err != nil || info.Size() == 0 {
				t.Errorf("%s has no %s", name, file)
			}
		}
		checkLinks(t, unpacked)
		program := filepath.Join(unpacked, tc.target.program())
		checkBill(t, filepath.Join(into, name+".cdx.json"), program)
		got := mainJob(t, append(slices.Clone(tc.run), program))
		if tc.target.os == "windows" {
			windowsManners(t, program)
		}
		if want == nil {
			want = got
			command(t, folder, os.Environ(), "qpdf", "--check", save(t, got["suv.pdf"]))
		}
		for file, bytesOf := range got {
			if !bytes.Equal(bytesOf, want[file]) {
				t.Errorf("%s: %s of %d bytes is not that of linux-amd64, of %d", tc.target, file, len(bytesOf), len(want[file]))
			}
		}
	}
}

// checkLinks wants every link of the guide to lead to something in its archive.
func checkLinks(t *testing.T, folder string) {
	t.Helper()
	pages := 0
	err := filepath.WalkDir(folder, func(path string, _ fs.DirEntry, err error) error {
		if err != nil || filepath.Ext(path) != ".md" {
			return err
		}
		pages++
		text, err := os.ReadFile(path)
		for _, part := range strings.Split(string(text), "](")[1:] {
			to, _, _ := strings.Cut(part, ")")
			to, _, _ = strings.Cut(to, "#")
			if strings.Contains(to, "://") || to == contributors || strings.Contains(to, " ") {
				continue
			}
			if _, err := os.Stat(filepath.Join(filepath.Dir(path), to)); err != nil {
				t.Errorf("%s links to %s, which is not there", path, to)
			}
		}
		return err
	})
	if err != nil || pages < 15 {
		t.Errorf("%d pages in the guide, %v", pages, err)
	}
}

// releaseOf builds the release of three targets from a clone of the tree and returns the folder of its files. Before that, a clone with a
// change and another version are refused.
func releaseOf(t *testing.T) string {
	t.Helper()
	clone := filepath.Join(t.TempDir(), "clone")
	command(t, ".", os.Environ(), "git", "clone", "--quiet", "../../..", clone)
	into, version := t.TempDir(), "v"+versionOf(t, clone)
	if err := run(clone, "v9.9.9", into, ""); err == nil || !strings.Contains(err.Error(), version) {
		t.Errorf("another version is answered with %v", err)
	}
	change := filepath.Join(clone, "layout", "change.go")
	if err := os.WriteFile(change, []byte("package layout\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	if err := run(clone, version, into, ""); err == nil || !strings.Contains(err.Error(), "change.go") {
		t.Errorf("a tree with changes is answered with %v", err)
	}
	if err := os.Remove(change); err != nil {
		t.Fatal(err)
	}
	rel, err := filepath.Rel(clone, into)
	if err != nil {
		t.Fatal(err)
	}
	if err := run(clone, version, rel, "linux-amd64,linux-arm64,windows-amd64"); err != nil {
		t.Fatal(err)
	}
	return into
}

// versionOf is the version of the program of a tree.
func versionOf(t *testing.T, tree string) string {
	t.Helper()
	source, err := os.ReadFile(filepath.Join(tree, "internal/draw/draw.go"))
	if err != nil {
		t.Fatal(err)
	}
	_, after, _ := strings.Cut(string(source), "const Version = \"")
	version, _, _ := strings.Cut(after, "\"")
	return version
}

// mainJob draws in an empty folder with an empty environment, as START.txt says, and in every format.
func mainJob(t *testing.T, program []string) map[string][]byte {
	t.Helper()
	folder := t.TempDir()
	var env []string
	if program[0] == "wine" {
		env = wine(t)
	}
	command(t, folder, env, append(slices.Clone(program), "draw", "suv")...)
	command(t, folder, env, append(slices.Clone(program), "draw", "suv", "-o", "suv.svg", "-o", "suv.png")...)
	out := map[string][]byte{}
	for _, file := range drawn {
		data, err := os.ReadFile(filepath.Join(folder, file))
		if err != nil {
			t.Fatal(err)
		}
		out[file] = data
	}
	return out
}

// windowsManners draws a brief with Windows' line ends, by a path with a drive and backslashes, into a folder named like that, over a file that
// is there, and into nothing.
func windowsManners(t *testing.T, program string) {
	t.Helper()
	folder, env := t.TempDir(), wine(t)
	brief := "\ufeffkind: brief\r\nsegment: suv\r\npin:\r\n  height: 2.3w\r\n"
	if err := os.WriteFile(filepath.Join(folder, "brief.yaml"), []byte(brief), 0o644); err != nil {
		t.Fatal(err)
	}
	if err := os.Mkdir(filepath.Join(folder, "out"), 0o755); err != nil {
		t.Fatal(err)
	}
	path := "Z:" + strings.ReplaceAll(filepath.Join(folder, "brief.yaml"), "/", `\`)
	for range 2 { // the second time over what the first wrote
		command(t, folder, env, "wine", program, "draw", path, "-o", `out\`)
	}
	drawn, err := filepath.Glob(filepath.Join(folder, "out", "*.pdf"))
	if err != nil || len(drawn) != 1 {
		t.Fatalf("out\\ holds %v", drawn)
	}
	command(t, folder, env, "qpdf", "--check", drawn[0])
	command(t, folder, env, "wine", program, "draw", path, "--format", "svg", "-o", "NUL")
	if said := command(t, folder, env, "wine", program, "figures", path); !strings.Contains(said, "2.30") {
		t.Errorf("the brief's roof is not in %s", said)
	}
}

// wine makes a Windows for Wine, with the one library that Go asks for and old Wines do not have, and returns its environment.
func wine(t *testing.T) []string {
	t.Helper()
	env := []string{"HOME=" + t.TempDir(), "WINEPREFIX=" + filepath.Join(t.TempDir(), "wine"), "WINEDEBUG=-all", "PATH=" + os.Getenv("PATH")}
	command(t, ".", env, "wineboot", "--init")
	system := filepath.Join(strings.TrimPrefix(env[1], "WINEPREFIX="), "drive_c/windows/system32")
	if _, err := os.Stat(filepath.Join(system, "bcryptprimitives.dll")); err != nil {
		command(t, ".", os.Environ(), "x86_64-w64-mingw32-gcc", "-shared", "-o", filepath.Join(system, "bcryptprimitives.dll"),
			"wine/bcryptprimitives.c", "-ladvapi32")
	}
	return env
}

// save writes data to a file and returns its path.
func save(t *testing.T, data []byte) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "file.pdf")
	if err := os.WriteFile(path, data, 0o644); err != nil {
		t.Fatal(err)
	}
	return path
}

// checkBill validates a bill of materials and compares it with the modules that go finds in the program, which THIRD-PARTY.md names too.
func checkBill(t *testing.T, path, program string) {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	document, err := jsonschema.UnmarshalJSON(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	if err := schema(t).Validate(document); err != nil {
		t.Errorf("%s: %v", path, err)
	}
	var bill struct {
		Components []struct{ Name, Version, PURL string }
	}
	if err := json.Unmarshal(data, &bill); err != nil {
		t.Fatal(err)
	}
	notices, err := os.ReadFile(filepath.Join(filepath.Dir(program), "THIRD-PARTY.md"))
	if err != nil {
		t.Fatal(err)
	}
	modules := 0
	for _, line := range strings.Split(command(t, ".", os.Environ(), "go", "version", "-m", program), "\n") {
		word := strings.Fields(line)
		if len(word) < 3 || word[0] != "dep" {
			continue
		}
		modules++
		listed := false
		for _, c := range bill.Components {
			listed = listed || c.Name == word[1] && c.Version == word[2]
		}
		if !listed {
			t.Errorf("%s has no %s %s", path, word[1], word[2])
		}
		if !bytes.Contains(notices, []byte(word[1])) {
			t.Errorf("THIRD-PARTY.md has no %s", word[1])
		}
	}
	if modules < 8 {
		t.Errorf("%s is made of %d modules", program, modules)
	}
}

// schema is that of CycloneDX 1.5, in folder schema.
func schema(t *testing.T) *jsonschema.Schema {
	t.Helper()
	c := jsonschema.NewCompiler()
	for _, name := range []string{"bom-1.5", "spdx", "jsf-0.82"} {
		data, err := os.Open("schema/" + name + ".SNAPSHOT.schema.json")
		if err != nil {
			t.Fatal(err)
		}
		doc, err := jsonschema.UnmarshalJSON(data)
		data.Close()
		if err == nil {
			err = c.AddResource("http://cyclonedx.org/schema/"+name+".SNAPSHOT.schema.json", doc)
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	s, err := c.Compile("http://cyclonedx.org/schema/bom-1.5.SNAPSHOT.schema.json")
	if err != nil {
		t.Fatal(err)
	}
	return s
}
