package main

import (
	"bytes"
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"syscall"
	"time"
)

// The kinds of attack, the short ones first.
var kinds = []kind{
	{"every flag with a number x 40 strings", len(numberFlags) * len(badNumbers), oneNumber},
	{"random cameras", 0, oneCamera},
	{"mutated YAML", 0, oneYAML},
	{"mutated marks, data sheets and pictures", 0, oneReading},
	{"random bytes in names and words", 0, oneWord},
	{"mutated fonts", 0, oneFont},
	{"signals at random moments", 0, oneSignal},
	{"disks without room", 0, oneDisk},
	{"two writers of one file", 0, oneRace},
}

// numberFlags are commands that end with a flag that wants a number.
var numberFlags = [][]string{
	{"--scale"}, {"--given"}, {"--dpi"}, {"--count", "--sheet", "thumbnails"}, {"--turn", "--view", "perspective"},
	{"--eye", "--view", "perspective"}, {"--distance", "--view", "perspective"}, {"--lens", "--view", "perspective"},
	{"--tilt", "--view", "perspective"}, {"--near-wheel", "--view", "perspective"}, {"--paper"}, {"--tweak", "--sheet", "trace"},
	{"--pin", "--sheet", "trace"}, {"--against", "--sheet", "overlay"}, {"--max-pages"},
}

// prefixed is what stands before the number of some flags.
var prefixed = map[string]string{"--scale": "1:", "--paper": "300x", "--tweak": "sporty=", "--pin": "height=", "--against": "suv+height="}

var badNumbers = []string{
	"", " ", "0", "-0", "-1", "1", "1e9", "1e308", "1e309", "-1e309", "1e-308", "5e-324", "NaN", "nan", "Inf", "-inf", "0x10", "0b1", "012", "1_000",
	"1,5", "1.5.5", "9999999999999999999999", "-9999999999999999999999", "1e07w", "100000000m", "1000000000w", "9000km", "0.0000001mm", "1w1",
	"１２", "١٢", "12\x00", "12\n", "\x1b[31m5", "5\u202e", "1/0", "1:1", "--", "100000000000mm",
}

func oneNumber(t *target, _ *rand.Rand, n int, folder string) string {
	n = n * 7 % (len(numberFlags) * len(badNumbers)) // every flag soon
	flag, text := numberFlags[n/len(badNumbers)], badNumbers[n%len(badNumbers)]
	if strings.Contains(text, "\x00") {
		text = strings.ReplaceAll(text, "\x00", "\x01") // no argument can hold a zero
	}
	args := append([]string{"draw", "suv", "-o", "a.svg"}, flag[1:]...)
	args = append(args, flag[0]+"="+prefixed[flag[0]]+text)
	return fault(t.run(folder, "", args...), args)
}

// fault adds the command to what is wrong.
func fault(r result, args []string) string {
	if f := r.fault(0, 1, 2); f != "" {
		return fmt.Sprintf("hubrule %.200q: %s", args, f)
	}
	return ""
}

func oneCamera(t *target, at *rand.Rand, _ int, folder string) string {
	// A number of the size that is meant, or one of any size.
	number := func(usual float64, units ...string) string {
		v := usual * (.5 + at.Float64())
		if at.IntN(5) == 0 {
			v = pick(at, at.NormFloat64()*100, at.ExpFloat64()*1e6, 1e-9, 0, math.Pow(10, at.Float64()*20-6))
		}
		return fmt.Sprintf("%.*g%s", 1+at.IntN(6), v, pick(at, units...))
	}
	args := []string{"draw", pick(at, "suv", "coupe", "van", "mid-engine"), "-o", "a.svg", "--view", pick(at, "perspective", "ellipses", "side,perspective")}
	for _, f := range []struct {
		name  string
		usual float64
		units []string
	}{{"turn", 60, []string{""}}, {"eye", 2, []string{"w", "m"}}, {"distance", 12, []string{"w", "m"}}, {"lens", 80, []string{"", "mm"}}, {"tilt", 4, []string{""}}} {
		if at.IntN(2) == 0 {
			args = append(args, "--"+f.name+"="+number(f.usual, f.units...))
		}
	}
	return fault(t.run(folder, "", args...), args)
}

func pick[T any](at *rand.Rand, all ...T) T { return all[at.IntN(len(all))] }

// mutated changes a few bytes, lines or numbers of a file.
func mutated(at *rand.Rand, data []byte) []byte {
	data = slices.Clone(data)
	for range 1 + at.IntN(4)*at.IntN(2) {
		if len(data) == 0 {
			return data
		}
		i := at.IntN(len(data))
		j := min(len(data), i+1+at.IntN(20))
		switch at.IntN(9) {
		case 0:
			data[i] ^= 1 << at.IntN(8)
		case 1:
			data = slices.Delete(data, i, j)
		case 2:
			data = slices.Insert(data, i, data[i:j]...)
		case 3:
			data = slices.Insert(data, i, []byte(pick(at, badNumbers...))...)
		case 4: // a line again
			lines := bytes.SplitAfter(data, []byte("\n"))
			k := at.IntN(len(lines))
			data = bytes.Join(slices.Insert(lines, k, lines[at.IntN(len(lines))]), nil)
		case 5:
			data = data[:i]
		case 6:
			data = slices.Insert(data, i, []byte(pick(at, "\x1b[2J", "\u202e", "\u2028", "&a ", "*a", "!!binary ", "{{{{", "\xff\xfe", "---\n", "? ", "<<: "))...)
		case 7: // another value
			lines := bytes.Split(data, []byte("\n"))
			k := at.IntN(len(lines))
			if key, _, ok := bytes.Cut(lines[k], []byte(":")); ok {
				lines[k] = slices.Concat(key, []byte(": "), []byte(pick(at, append(badNumbers, "[]", "{}", "~", "true", "[[[1]]]", "suv", strings.Repeat("x", 5000))...)))
			}
			data = bytes.Join(lines, []byte("\n"))
		case 8:
			data = slices.Insert(data, i, bytes.Repeat([]byte(pick(at, "[", "- ", "a: ", " ", "\t", "0")), 1+at.IntN(3000))...)
		}
	}
	return data
}

func oneYAML(t *target, at *rand.Rand, _ int, folder string) string {
	var names []string
	for name := range t.yaml {
		names = append(names, name)
	}
	slices.Sort(names)
	name := pick(at, names...)
	if at.IntN(3) == 0 {
		name = pick(at, "class.yaml", "kornfeld-brief.yaml")
	}
	for other, data := range t.yaml { // that name each other
		if err := os.WriteFile(filepath.Join(folder, other), data, 0o666); err != nil {
			return err.Error()
		}
	}
	if err := os.WriteFile(filepath.Join(folder, name), mutated(at, t.yaml[name]), 0o666); err != nil {
		return err.Error()
	}
	args := []string{"draw", name, "--sheet", "trace", "-o", "a.svg"}
	switch {
	case name == "class.yaml":
		args = []string{"handout", name, "-o", "a.pdf"}
	case slices.Contains(t.tweaks, name):
		args = []string{"figures", "suv", "--tweak", "./" + name}
	case at.IntN(2) == 0:
		args = []string{"figures", name}
	}
	return fault(t.run(folder, "", args...), args)
}

func oneWord(t *target, at *rand.Rand, _ int, folder string) string {
	word := make([]byte, 1+at.IntN(60))
	for i := range word {
		word[i] = byte(1 + at.IntN(255))
		if at.IntN(3) == 0 {
			word[i] = pick(at, []byte("\n\r\x1b\t\x7f/.+=,:-'\"")...)
		}
	}
	w := string(word)
	brief := fmt.Sprintf("kind: brief\nsegment: suv\n%s: %q\n", pick(at, "title", "tweak", "camera", "against", "author", "paper", "facing", "pin"), w)
	if err := os.WriteFile(filepath.Join(folder, "b.yaml"), []byte(brief), 0o666); err != nil {
		return err.Error()
	}
	args := pick(at,
		[]string{"draw", w}, []string{"draw", "b.yaml", "-o", "a.svg"}, []string{"draw", "suv", "--tweak", w, "-o", "a.svg"},
		[]string{"draw", "suv", "--camera", w, "--view", "perspective", "-o", "a.svg"}, []string{"draw", "suv", "--title", w, "-o", "a.svg"},
		[]string{"draw", "suv", "--" + w}, []string{w}, []string{"figures", "suv", "--pin", w}, []string{"draw", "suv", "-o", w + ".svg"},
		[]string{"draw", "suv", "--sheet", "overlay", "--against", w, "-o", "a.svg"}, []string{"handout", w}, []string{"draw", "suv", "--font", w, "-o", "a.svg"},
		[]string{"tweaks", w}, []string{"segments", w}, []string{"help", w})
	return fault(t.run(folder, "", args...), args)
}

func oneFont(t *target, at *rand.Rand, _ int, folder string) string {
	font := slices.Clone(t.font)
	for range 1 + at.IntN(30) {
		i := at.IntN(len(font))
		if at.IntN(2) == 0 {
			i = at.IntN(400) // the table of tables
		}
		font[i] = byte(at.IntN(256))
	}
	if at.IntN(6) == 0 {
		font = font[:at.IntN(len(font))]
	}
	if err := os.WriteFile(filepath.Join(folder, "f.ttf"), font, 0o666); err != nil {
		return err.Error()
	}
	args := []string{"draw", "suv", "--font", "f.ttf", "--title", "Žluťoučký Ωμέγα שלום", "-o", pick(at, "a.svg", "a.pdf", "a.png"), "--sheet", "trace"}
	return fault(t.run(folder, "", args...), args)
}

// long are commands that take some time and write one file.
var long = [][]string{
	{"draw", "suv", "--paper", "A2", "--dpi", "300", "-o", "a.png"},
	{"draw", "all", "--sheet", "full,trace", "-o", "a.pdf"},
	{"draw", "van", "--view", "front,top,perspective", "-o", "a.pdf"},
	{"handout", "class.yaml", "-o", "a.pdf"},
	{"draw", "suv", "--view", "perspective", "-o", "a.svg"},
}

// oneSignal sends a signal at a random moment over an older file: it stays, or is replaced whole.
func oneSignal(t *target, at *rand.Rand, _ int, folder string) string {
	args := pick(at, long...)
	path := filepath.Join(folder, args[len(args)-1])
	before, f := t.prepare(folder, path)
	if f != "" {
		return f
	}
	ctx, cancel := context.WithTimeout(context.Background(), patience)
	defer cancel()
	c := t.command(ctx, folder, "", args...)
	var out, errs bytes.Buffer
	c.Stdout, c.Stderr = &out, &errs
	r := result{before: sizes(folder)}
	if err := c.Start(); err != nil {
		return err.Error()
	}
	time.Sleep(time.Duration(at.IntN(400)) * time.Millisecond)
	s := pick(at, syscall.SIGINT, syscall.SIGTERM, syscall.SIGHUP, syscall.SIGKILL)
	c.Process.Signal(s)
	r.finish(folder, c.Wait(), &out, &errs)
	t.count(r)
	if f := r.fault(-1, 0, 1, 2, 128+int(s)); f != "" && s != syscall.SIGKILL && !strings.Contains(f, "without a word") {
		return fmt.Sprintf("hubrule %q, %v: %s", args, s, f)
	}
	after, err := os.ReadFile(path)
	if err != nil || !bytes.Equal(before, after) && !whole(path) {
		return fmt.Sprintf("hubrule %q, %v: the file is torn: %v", args, s, err)
	}
	if bytes.Contains(r.stderr, []byte("nothing was written")) && !bytes.Equal(before, after) {
		return fmt.Sprintf("hubrule %q, %v: says that nothing was written, and it was", args, s)
	}
	return ""
}

// prepare writes the class file and an older file where a command is going to write, and returns the latter.
func (t *target) prepare(folder, path string) (older []byte, failed string) {
	if err := os.WriteFile(filepath.Join(folder, "class.yaml"), t.yaml["class.yaml"], 0o666); err != nil {
		return nil, err.Error()
	}
	args := []string{"draw", "city", "--sheet", "trace", "-o", path}
	if f := fault(t.run(folder, "", args...), args); f != "" {
		return nil, f
	}
	older, err := os.ReadFile(path)
	if err != nil {
		return nil, err.Error()
	}
	return older, ""
}

// oneDisk lets no file grow beyond some KiB.
func oneDisk(t *target, at *rand.Rand, _ int, folder string) string {
	args := pick(at, long...)
	path := filepath.Join(folder, args[len(args)-1])
	before, f := t.prepare(folder, path)
	if f != "" {
		return f
	}
	r := t.run(folder, fmt.Sprintf("-f %d", 1+at.IntN(100)), args...)
	if f := r.fault(0, 1); f != "" {
		return fmt.Sprintf("hubrule %q: %s", args, f)
	}
	after, err := os.ReadFile(path)
	if err != nil || r.code != 0 && !bytes.Equal(before, after) || r.code == 0 && !whole(path) {
		return fmt.Sprintf("hubrule %q: exit code %d, and the file is torn or gone: %v", args, r.code, err)
	}
	return ""
}

// oneRace has two commands write one file at the same time: one of them wins, and nothing of the other is left.
func oneRace(t *target, at *rand.Rand, _ int, folder string) string {
	results := make(chan result, 2)
	var alone [2][]byte
	for i, segment := range []string{pick(at, "suv", "van"), "city"} {
		args := []string{"draw", segment, "--sheet", pick(at, "trace", "full"), "-o"}
		alone[i] = t.run(folder, "", append(args, "-", "--format", "svg")...).stdout
		go func() { results <- t.run(folder, "", append(args, "a.svg")...) }()
	}
	a, b := <-results, <-results
	for _, r := range []result{a, b} {
		if r.late || crashed.Match(r.stderr) || r.code > 2 || r.code < 0 {
			return fmt.Sprintf("exit code %d: %s", r.code, firstLines(r.stderr))
		}
	}
	if left := sizes(folder); len(left) != 1 {
		return fmt.Sprintf("left %v behind", left)
	}
	data, err := os.ReadFile(filepath.Join(folder, "a.svg"))
	if err != nil || !bytes.Equal(data, alone[0]) && !bytes.Equal(data, alone[1]) {
		return fmt.Sprintf("the file is of neither command: %v", err)
	}
	return ""
}
