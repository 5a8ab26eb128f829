package cli

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"sync"
	"testing"

	"hubrule/internal/draw"
	"hubrule/internal/job"
	"hubrule/segments"
)

// dice throw what a random command says.
type dice struct {
	*rand.Rand
	ownCamera string // the path of a camera's file
}

func (d dice) pick(from ...string) string { return from[d.IntN(len(from))] }

// wordsFor lists the values that completion offers for a setting.
func wordsFor(setting string) []string {
	s, _ := job.Find(setting)
	return s.Words
}

// maybe returns args one time in three.
func (d dice) maybe(args ...string) []string {
	if d.IntN(3) == 0 {
		return args
	}
	return nil
}

// kinds returns up to three kinds of sheet.
func (d dice) kinds() string {
	all := slices.Clone(wordsFor("sheet"))
	d.Shuffle(len(all), func(i, j int) { all[i], all[j] = all[j], all[i] })
	return strings.Join(all[:1+d.IntN(3)], ",")
}

// randomJob returns a draw command that asks for something at random, said in a random way, and the format of its file. Many cannot
// be met.
func randomJob(d dice) (args []string, format string) {
	what := d.IntN(9)
	most := 3
	if what < 2 { // other views than the side take long to draw
		most = 1
	}
	args = append([]string{"draw"}, d.vehicles(most)...)
	paper := d.pick("A3", "a2", "A1", "tabloid", "20x14in", "500x420mm", "420x297mm")
	switch what {
	case 0:
		args = append(args, d.camera()...)
	case 1:
		args = append(args, d.flatViews()...)
	case 2:
		args = append(args, "--tile", "--scale", d.pick("1:4", "1:4.50", "wheel=18cm"), "--sheet", d.pick("full", "trace", "answer,practice"))
	default:
		args = slices.Concat(args, []string{"--sheet", d.kinds()}, d.maybe(d.pick("--portrait", "--landscape")), d.maybe("--frame"),
			d.maybe("--scale", d.pick("wheel=4cm", "wheel=1.5in", "1:30", "fit")), d.maybe("--given", d.pick("1", "3")),
			d.maybe("--against", d.pick("suv", "suv+sporty=.5,longer+height=2.2w", "van")), d.maybe("--count", d.pick("6", "12")))
	}
	if what > 2 && d.IntN(3) == 0 {
		paper = "3200x2200px"
	}
	args = append(args, "--paper", paper)
	args = append(args, d.looks()...)
	if !slices.Contains(args, "--outline=false") {
		args = append(args, d.maybe("--outline="+d.pick("true", "false"))...)
	}
	if what > 0 && !slices.Contains(args, "--guides") {
		args = append(args, d.maybe("--guides", d.pick("belt,roof", "roof,belt,wheels", "checks"))...)
	}
	if what > 1 {
		args = append(args, d.maybe("--checks")...)
	}
	if d.IntN(4) > 0 {
		if paper == "3200x2200px" {
			args = append(args, d.maybe("--dpi", d.pick("200", "187.5"))...)
		}
		return args, "pdf"
	}
	return slices.Concat(args, d.maybe("--transparent"), []string{"--dpi", d.pick("30", "35.5", "40.0")}), "png"
}

// vehicles names segments, tweaks and pins.
func (d dice) vehicles(most int) (args []string) {
	for range 1 + d.IntN(most) {
		args = append(args, d.pick(segments.Names()...))
	}
	for _, i := range d.Perm(len(segments.TweakNames()))[:d.IntN(3)] {
		args = append(args, "--tweak", segments.TweakNames()[i]+d.pick("", "=.5", "=0.50", "=-0.3", "=+1", "=0"))
	}
	return slices.Concat(args,
		d.maybe("--pin", "length="+d.pick("4.6m", "4600 mm", "+4.60m", "6.2w")),
		d.maybe("--pin", "wheel="+d.pick("235/60r18", "235 / 60 R18", "720 mm", "31x10.50R15")),
		d.maybe("--pin", "pillar-rake="+d.pick("30", "31.5")),
		d.maybe("--keep", d.pick("height", "sill", "clearance")))
}

// camera asks for a view that needs one.
func (d dice) camera() []string {
	args := slices.Concat(d.maybe("--camera", d.pick(d.ownCamera, d.pick(wordsFor("camera")...))), d.maybe("--eye", d.pick("1500mm", "1.5 m", ".8w")),
		d.maybe(d.pick("--lens=50", "--lens=85.0", "--distance=16w", "--distance=20 m")), d.maybe("--tilt", d.pick("5", "-2.5")))
	if d.IntN(4) == 0 {
		return append(args, "--view", "ellipses")
	}
	return slices.Concat(args, []string{"--view", d.pick("perspective", "side,perspective")}, d.quick(),
		d.maybe("--guides", d.pick("wheels,box", "box,wheels", "outline,horizon")),
		d.maybe("--turn", d.pick("25", "-30.50", "+10")), d.maybe("--near-wheel", d.pick("3cm", "30.0mm")))
}

func (d dice) flatViews() []string {
	views := d.pick("front,rear", "top", "side,rear", "rear", "arrangement")
	args := append([]string{"--view", views, "--sheet", d.pick("full", "trace")}, d.quick()...)
	if slices.Contains(args, "full") {
		args = append(args, d.maybe("--legend")...)
	}
	if views == "arrangement" {
		args = append(args, d.maybe("--angle", d.pick("first", "third"))...)
	}
	return args
}

// quick leaves the body's lines, which take most of the time in other views than the side, out of two drawings in three.
func (d dice) quick() []string {
	if d.IntN(3) == 0 {
		return nil
	}
	return []string{"--outline=false"}
}

func (d dice) looks() []string {
	return slices.Concat(
		d.maybe("--facing", d.pick("left", "right")), d.maybe("--labels", d.pick("none", "short", "full")),
		d.maybe("--units", d.pick("w", "mm", "in")), d.maybe("--ink", d.pick("dark", "grey", "pale")),
		d.maybe("--title", d.pick(`Tall "one" \ two`, "true", "12: #3", "Größe 🚗 שלום\u200f")),
		d.maybe("--author", d.pick("Zoë & Co", "null")))
}

// The brief in a file's metadata, drawn again, gives the same file; so does the brief that --save wrote.
func TestDrawnAgain(t *testing.T) {
	t.Parallel()
	camera := filepath.Join(t.TempDir(), "own.yaml")
	write(t, camera, "kind: camera\nextends: rear-low\nturn: -30\neye: 900mm\n")
	var mutex sync.Mutex
	asked := map[string]int{}
	t.Run("drawn", func(t *testing.T) {
		for part := range uint64(4) {
			t.Run(fmt.Sprint(part), func(t *testing.T) {
				t.Parallel()
				folder, d := t.TempDir(), dice{rand.New(rand.NewPCG(29, part)), camera}
				for n, drawn := 0, 0; n < 1000 && drawn < 15; n++ {
					args, format := randomJob(d)
					if !drawAgain(t, folder, args, format) {
						continue
					}
					drawn++
					mutex.Lock()
					for _, arg := range args {
						flag, _, _ := strings.Cut(arg, "=")
						asked[flag]++
					}
					mutex.Unlock()
				}
			})
		}
	})
	for what, least := range map[string]int{
		"draw": 60, "--tile": 5, "3200x2200px": 3, "--landscape": 2, "--legend": 1, "--dpi": 10, "--view": 12, "arrangement": 1, "ellipses": 2, "perspective": 2,
		camera: 1, "--turn": 2, "--lens": 1, "--distance": 1,
	} {
		if asked[what] < least {
			t.Errorf("%s: in %d commands that could be drawn, want at least %d", what, asked[what], least)
		}
	}
}

// drawAgain draws a command and then what its file says, and compares both. It reports whether the command could be drawn.
func drawAgain(t *testing.T, folder string, args []string, format string) bool {
	t.Helper()
	in := func(name string) string { return filepath.Join(folder, name) }
	for _, old := range []string{"one", "two"} {
		for _, name := range pagesNamed(t, in(old+"."+format)) {
			if err := os.Remove(name); err != nil {
				t.Fatal(err)
			}
		}
	}
	var errs bytes.Buffer
	if Main(append(args, "-o", in("one."+format), "--save", in("saved.yaml"), "--force"), nil, &errs, &errs) != exitDone {
		return false
	}
	one := pagesNamed(t, in("one."+format))
	found := jobIn(t, read(t, one[0]))
	if saved := savedAs(t, in("saved.yaml"), format); found != saved {
		t.Fatalf("%q:\nthe file says\n%s\nand --save\n%s", args, found, saved)
	}
	write(t, in("found.yaml"), found)
	again := []string{"draw", in("found.yaml"), "-o", in("two." + format), "--save", in("again.yaml"), "--force"}
	if code := Main(again, nil, &errs, &errs); code != exitDone {
		t.Fatalf("%q\n%s\nexit code %d: %s", args, found, code, &errs)
	}
	same := func(a, b string) bool { return bytes.Equal(read(t, a), read(t, b)) }
	if !slices.EqualFunc(one, pagesNamed(t, in("two."+format)), same) {
		t.Errorf("%q: drawn again it is another file:\n%s", args, found)
	}
	if again := savedAs(t, in("again.yaml"), format); again != found {
		t.Errorf("%q: written again it is another brief:\n%s\nfirst:\n%s", args, again, found)
	}
	return true
}

// savedAs reads a saved brief as a file of the format says it.
func savedAs(t *testing.T, path, format string) string {
	t.Helper()
	brief := string(read(t, path))
	if format == "png" {
		return draw.InASCII(brief)
	}
	return brief
}

// pagesNamed lists what was written under a name, page by page: that file, or one for each page, whose numbers sort.
func pagesNamed(t *testing.T, name string) []string {
	t.Helper()
	if _, err := os.Stat(name); err == nil {
		return []string{name}
	}
	ext := filepath.Ext(name)
	pages, err := filepath.Glob(strings.TrimSuffix(name, ext) + "-*" + ext)
	if err != nil {
		t.Fatal(err)
	}
	return pages
}

// jobIn finds the brief in a PDF or a PNG as plain text.
func jobIn(t *testing.T, file []byte) string {
	t.Helper()
	if bytes.HasPrefix(file, []byte("\x89PNG")) {
		_, after, found := bytes.Cut(file, []byte("tEXtDescription\x00"))
		at := len(file) - len(after) - len("tEXtDescription\x00")
		if !found {
			t.Fatal("the PNG says nothing of its job")
		}
		long := int(binary.BigEndian.Uint32(file[at-4:])) - len("Description\x00")
		return string(after[:long])
	}
	m := regexp.MustCompile(`(?s)<dc:description>.*?">(.*?)</rdf:li>`).FindSubmatch(file)
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

func write(t *testing.T, name, text string) {
	t.Helper()
	if err := os.WriteFile(name, []byte(text), 0o666); err != nil {
		t.Fatal(err)
	}
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
