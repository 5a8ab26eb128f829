package cli

import (
	"bytes"
	"fmt"
	"math/rand/v2"
	"os"
	"regexp"
	"strings"
	"testing"

	"hubrule/render/request"
	"hubrule/segments"
)

// randomJob returns a draw command that asks for something at random, said in a random way. Many cannot be met.
func randomJob(r *rand.Rand) []string {
	pick := func(from ...string) string { return from[r.IntN(len(from))] }
	maybe := func(args ...string) []string {
		if r.IntN(3) == 0 {
			return args
		}
		return nil
	}
	add := func(args, more []string) []string { return append(args, more...) }
	args := []string{"draw"}
	for range 1 + r.IntN(3) {
		args = append(args, pick(segments.Names()...))
	}
	for _, i := range r.Perm(len(segments.TweakNames()))[:r.IntN(3)] {
		args = append(args, "--tweak", segments.TweakNames()[i]+pick("", "=.5", "=0.50", "=-0.3", "=+1", "=0"))
	}
	args = add(args, maybe("--pin", "length="+pick("4.6m", "4600 mm", "+4.60m", "6.2w")))
	args = add(args, maybe("--pin", "wheel="+pick("235/60r18", "235 / 60 R18", "720 mm", "31x10.50R15")))
	args = add(args, maybe("--pin", "pillar-rake="+pick("30", "31.5")))
	args = add(args, maybe("--keep", pick("height", "sill", "clearance")))
	kinds := r.Perm(len(request.AllKinds()))[:1+r.IntN(3)]
	var names []string
	for _, k := range kinds {
		names = append(names, string(request.AllKinds()[k]))
	}
	args = append(args, "--sheet", strings.Join(names, ","), "--paper", pick("A3", "a2", "A1", "tabloid", "20x14in", "500x420mm", "420x297mm"))
	args = add(args, maybe("--portrait"))
	args = add(args, maybe("--facing", pick("left", "right")))
	args = add(args, maybe("--scale", pick("wheel=4cm", "wheel=1.5in", "1:30", "fit")))
	args = add(args, maybe("--given", pick("1", "3")))
	args = add(args, maybe("--against", pick("suv", "suv+sporty=.5,longer", "van")))
	args = add(args, maybe("--count", pick("6", "12")))
	args = add(args, maybe("--labels", pick("none", "short", "full")))
	args = add(args, maybe("--units", pick("w", "mm", "in")))
	args = add(args, maybe("--ink", pick("dark", "grey", "pale")))
	args = add(args, maybe("--outline="+pick("true", "false")))
	args = add(args, maybe("--guides", pick("belt,roof", "roof,belt,wheels", "checks")))
	args = add(args, maybe("--checks"))
	args = add(args, maybe("--frame"))
	args = add(args, maybe("--title", pick(`Tall "one" \ two`, "true", "12: #3", "Größe 🚗 שלום\u200f")))
	return add(args, maybe("--author", pick("Zoë & Co", "null")))
}

// What a file says of itself, drawn as a brief, gives the same file again; so does what --save wrote.
func TestDrawnAgain(t *testing.T) {
	t.Chdir(t.TempDir())
	r := rand.New(rand.NewPCG(7, 7))
	drawn := 0
	for n := 0; n < 4000 && drawn < 60; n++ {
		args := randomJob(r)
		var errs bytes.Buffer
		if Main(append(args, "-o", "one.pdf", "--save", "saved.yaml", "--force"), nil, &errs, &errs) != exitDone {
			continue
		}
		drawn++
		first := read(t, "one.pdf")
		found := jobIn(t, first)
		if saved := read(t, "saved.yaml"); found != string(saved) {
			t.Fatalf("%q:\nthe file says\n%s\nand --save\n%s", args, found, saved)
		}
		if err := os.WriteFile("found.yaml", []byte(found), 0o666); err != nil {
			t.Fatal(err)
		}
		if code := Main([]string{"draw", "found.yaml", "-o", "two.pdf", "--save", "again.yaml", "--force"}, nil, &errs, &errs); code != exitDone {
			t.Fatalf("%q\n%s\nexit code %d: %s", args, found, code, &errs)
		}
		if !bytes.Equal(first, read(t, "two.pdf")) {
			t.Errorf("%q: drawn again it is another file:\n%s", args, found)
		}
		if again := read(t, "again.yaml"); string(again) != found {
			t.Errorf("%q: written again it is another brief:\n%s\nfirst:\n%s", args, again, found)
		}
	}
	if drawn < 60 {
		t.Errorf("only %d commands could be drawn", drawn)
	}
}

// jobIn finds the brief in a PDF as plain text.
func jobIn(t *testing.T, pdf []byte) string {
	t.Helper()
	m := regexp.MustCompile(`(?s)<dc:description>.*?">(.*?)</rdf:li>`).FindSubmatch(pdf)
	if m == nil {
		t.Fatal("the PDF says nothing of its job")
	}
	return strings.NewReplacer("&lt;", "<", "&gt;", ">", "&amp;", "&").Replace(string(m[1]))
}

func read(t *testing.T, name string) []byte {
	t.Helper()
	data, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	return data
}

// However a job is said, the files are the same; each line says the same as the one above it.
func TestSaidOtherwise(t *testing.T) {
	t.Chdir(t.TempDir())
	for _, c := range [][]string{
		{"suv --tweak sporty=.5", "suv --tweak sporty=0.50", "suv --tweak longer=0 --tweak sporty=+0.5 --paper a3 --sheet full --labels full"},
		{"suv --tweak tough --tweak longer", "suv --tweak longer=1 --tweak tough=1.0"},
		{"suv --paper A3 --portrait", "suv --paper 297x420mm", "suv --paper 420x297mm --portrait"},
		{"suv --pin wheel=235/60r18 --pin height=2.30w", "suv --pin height=+2.30w --pin wheel=235/60R18"},
		{"suv --scale wheel=4cm", "suv --scale wheel=40mm --ink dark --outline", "suv --scale wheel=40.0mm --units w --facing left"},
		{"suv --guides roof,belt", "suv --guides belt --guides roof"},
		{"suv sedan --sheet thumbnails", "suv sedan --sheet thumbnails --count 2"},
	} {
		var want []byte
		for i, line := range c {
			var out, errs bytes.Buffer
			if code := Main(append([]string{"draw", "-o", "-", "--format", "svg"}, strings.Fields(line)...), nil, &out, &errs); code != exitDone {
				t.Fatalf("%s: exit code %d: %s", line, code, &errs)
			}
			if i == 0 {
				want = out.Bytes()
			} else if !bytes.Equal(out.Bytes(), want) {
				t.Errorf("%s is another file than %s:\n%s", line, c[0], firstDifference(out.String(), string(want)))
			}
		}
	}
}

func firstDifference(a, b string) string {
	x, y := strings.Split(a, "\n"), strings.Split(b, "\n")
	for i := range min(len(x), len(y)) {
		if x[i] != y[i] {
			return fmt.Sprintf("%.200s\n%.200s", x[i], y[i])
		}
	}
	return "one is longer"
}
