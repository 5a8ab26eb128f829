package strict

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"syscall"
	"testing"
)

// read walks a document that knows three keys, one of each kind.
func read(file, data string) (title string, doors float64, err error) {
	doc := Parse(file, []byte(data))
	top := doc.Top().Table("key", []string{"title", "doors", "sizes"})
	if v, ok := top.Get("title"); ok {
		title, _ = v.Text(10)
	}
	if v, ok := top.Get("doors"); ok {
		doors, _ = v.Number(2, 5)
	}
	if v, ok := top.Get("sizes"); ok {
		items, _ := v.Items(2, 2)
		for _, item := range items {
			item.Number(0, 1)
		}
	}
	return title, doors, doc.Err()
}

func Example() {
	_, _, err := read("car.yaml", "title: [a]\ndors: 4\nsizes: [0.5, 7]\n")
	fmt.Println(err)
	title, doors, err := read("car.yaml", "title: Estate\ndoors: 5\n")
	fmt.Println(title, doors, err)
	// Output:
	// car.yaml:1:8: title: a list; want a text
	// car.yaml:2:1: unknown key "dors"; did you mean "doors"? want title, doors or sizes
	// car.yaml:3:14: sizes[2]: 7; want 0 to 1
	// Estate 5 <nil>
}

func TestMessages(t *testing.T) {
	for _, c := range []struct{ data, want string }{
		{"", "f:1:1: empty; want a table of keys and values"},
		{"# only a comment\n", "f:1:1: empty; want a table of keys and values"},
		{"---\n", "f:1:1: empty; want a table of keys and values"},
		{"~", "f:1:1: ~; want a table of keys and values"},
		{"[]", "f:1:1: a list; want a table of keys and values"},
		{"doors", "f:1:1: plain text; want a table of keys and values"},
		{"title: a\n---\ntitle: b\n", "f:2:1: a second document; want one"},
		{"title: a\n---\n", "f:2:1: a second document; want one"},
		{"\xff\xfet\x00", "f:1:1: UTF-16; save it as a text file in UTF-8"},
		{"title: a\n# caf\xe9", "f:2:6: not UTF-8; save it as a text file in UTF-8"},
		{"title: é\x00", "f:1:9: control character U+0000; want plain text"},
		{"title: a\n  \tdoors: 2", "f:2:3: a tab in the indentation; want spaces"},
		{strings.Repeat("#", MaxSize+1), "f:1:1: larger than 1000000 bytes; want less"},
		{"title: a\nsizes: [1, 2", "f:2:1: not YAML: did not find expected ',' or ']'"},
		{"title: a\n doors: 2", "f:2:2: not YAML: mapping values are not allowed in this context"},
		{"title: a\nsizes:\n  - 1\n - 2", "f:4:2: not YAML: did not find expected key"},
		{"title: *x", "f:1:1: not YAML: unknown anchor 'x' referenced"},
		{"title: &x a\nsizes: [*x, 1]", "f:1:8: anchor \"&x\"; want none\nf:2:9: alias \"*x\"; want the value written out"},
		{"doors: !!float 3", `f:1:8: tag "!!float"; want none`},
		{"title: " + strings.Repeat("[", 25) + strings.Repeat("]", 25), "f:1:8: title: a list; want a text\nf:1:28: nested more than 20 deep"},
		{"title: a\ntitle: b\ntitle: c", "f:2:1: \"title\" stands twice, first on line 1; want it once\nf:3:1: \"title\" stands twice, first on line 1; want it once"},
		{"titel: a", `f:1:1: unknown key "titel"; did you mean "title"? want title, doors or sizes`},
		{"TITLE: a", `f:1:1: unknown key "TITLE"; did you mean "title"? want title, doors or sizes`},
		{"colour: red", `f:1:1: unknown key "colour"; want title, doors or sizes`},
		{"<<: {title: a}", `f:1:1: unknown key "<<"; want title, doors or sizes`},
		{"? [a]\n: b", "f:1:3: a key that is no name"},
		{"title: 12", "f:1:8: title: 12; want a text; put it in quotes"},
		{"title: true", "f:1:8: title: true; want a text; put it in quotes"},
		{"title: 2024-05-06", "f:1:8: title: 2024-05-06; want a text; put it in quotes"},
		{"title:", "f:1:7: title: nothing; want a text"},
		{"title: ''", `f:1:8: title: ""; want a text of 1 to 10 characters`},
		{"title: one two three", `f:1:8: title: "one two three"; want a text of 1 to 10 characters`},
		{`title: "a\u202eb"`, `f:1:8: title: "a\u202eb"; want one line without control characters`},
		{"title: |\n  a\n  b\n", `f:1:8: title: "a\nb\n"; want one line without control characters`},
		{"doors: four", "f:1:8: doors: four; want a number, 2 to 5"},
		{"doors: '4'", `f:1:8: doors: "4"; want a number, 2 to 5, without quotes`},
		{"doors: 7", "f:1:8: doors: 7; want 2 to 5"},
		{"doors: ~", "f:1:8: doors: ~; want a number, 2 to 5"},
		{"doors: .nan", "f:1:8: doors: .nan; want a number, 2 to 5"},
		{"doors: -.inf", "f:1:8: doors: -.inf; want a number, 2 to 5"},
		{"doors: 04", "f:1:8: doors: 04; want a number, 2 to 5, without leading zeros"},
		{"doors: 0x4", "f:1:8: doors: 0x4; want a number, 2 to 5"},
		{"doors: 4e0", "f:1:8: doors: 4e0; want a number, 2 to 5"},
		{"doors: 4_0", "f:1:8: doors: 4_0; want a number, 2 to 5"},
		{"doors: 4,5", "f:1:8: doors: 4,5; want a number, 2 to 5, with a decimal point"},
		{"doors: 4w", "f:1:8: doors: 4w; want a number, 2 to 5, without a unit"},
		{"{doors: 4,5}", `f:1:11: "5" stands alone; is it a decimal comma? write 4.5`},
		{"sizes: 1", "f:1:8: sizes: 1; want a list of 2 in [ ]"},
		{"sizes: [1]", "f:1:8: sizes: a list; want 2 values, not 1"},
		{"sizes: [0,5, 0,7]", "f:1:8: sizes: a list; want 2 values, not 4; is a decimal comma among them? write a point"},
		{"sizes: [{}, 2]\r\ndoors: 9\r\n", "f:1:9: sizes[1]: a table; want a number, 0 to 1\nf:1:13: sizes[2]: 2; want 0 to 1\nf:2:8: doors: 9; want 2 to 5"},
	} {
		if _, _, err := read("f", c.data); err == nil || err.Error() != c.want {
			t.Errorf("read(%s):\n got %v\nwant %s", Quote(c.data), err, c.want)
		}
	}
}

func TestAccepted(t *testing.T) {
	for _, data := range []string{
		"title: a b\ndoors: 4\nsizes: [0, .5]\n",
		"\ufefftitle: 'a b'\ndoors: 4.00\n",
		"---\n{\"title\": \"a b\", \"doors\": +4}\n...\n",
		"title: >\n  a\n  b\ndoors: 4 # comment\n",
	} {
		title, doors, err := read("f", data)
		if title != "a b" || doors != 4 || err != nil {
			t.Errorf("read(%q) = %q, %v, %v; want \"a b\", 4, nil", data, title, doors, err)
		}
	}
}

func TestLoad(t *testing.T) {
	dir := t.TempDir()
	good, pipe := filepath.Join(dir, "a.yaml"), filepath.Join(dir, "pipe.yaml")
	if err := os.WriteFile(good, []byte("title: x\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	if err := syscall.Mkfifo(pipe, 0o600); err != nil {
		t.Fatal(err)
	}
	if doc, err := Load(good); err != nil || doc.Err() != nil {
		t.Errorf("Load(a.yaml) = %v, %v; want no error", doc, err)
	}
	missing := filepath.Join(dir, "none.yaml")
	go os.WriteFile(pipe, bytes.Repeat([]byte("#"), 3*MaxSize), 0o600) // to its end only if somebody reads without bound
	for range 2 {
		const want = ":1:1: larger than 1000000 bytes; want less"
		if doc, err := Load(pipe); err != nil || fmt.Sprint(doc.Err()) != pipe+want { // again: nobody writes any more
			t.Errorf("Load of a pipe = %v, %v; want %s", doc, err, want)
		}
	}
	if doc, err := Load(os.DevNull); err != nil || doc.Err() == nil {
		t.Errorf("Load(%s) = %v, %v; want a document that is empty", os.DevNull, doc, err)
	}
	for _, c := range []struct{ path, want string }{
		{dir, dir + ": a directory; want a YAML file"},
		{Stdin, "-: standard input cannot stand here; want the path of a YAML file"},
		{missing, missing + ": no such file or directory"},
	} {
		if _, err := Load(c.path); err == nil || err.Error() != c.want {
			t.Errorf("Load(%q) = %v; want %s", c.path, err, c.want)
		}
	}
}

// A font is a regular file of a bounded size; nothing waits at a pipe.
func TestReadRegular(t *testing.T) {
	dir := t.TempDir()
	pipe, large, small := filepath.Join(dir, "pipe"), filepath.Join(dir, "large"), filepath.Join(dir, "small")
	sparse, err := os.Create(large)
	if err = errors.Join(err, sparse.Truncate(1<<20+1), sparse.Close(), syscall.Mkfifo(pipe, 0o600), os.WriteFile(small, []byte("x"), 0o600)); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct{ path, want string }{
		{small, "<nil>"}, {large, "larger than 1 MB; want a font"}, {pipe, "not a regular file; want a font"},
		{os.DevNull, "not a regular file; want a font"}, {dir, "a directory; want a font"}, {dir + "/none", "no such file or directory"},
	} {
		if _, err := ReadRegular(c.path, "a font", 1); fmt.Sprint(err) != c.want {
			t.Errorf("ReadRegular(%s) = %v; want %s", c.path, err, c.want)
		}
	}
}

func TestNearest(t *testing.T) {
	names := []string{"suv", "suv-large", "sedan", "sill", "height", "wheels-between"}
	for _, c := range []struct{ word, want string }{
		{"suf", "suv"}, {"SUV", "suv"}, {"sedam", "sedan"}, {"hight", "height"}, {"heigth", "height"},
		{"wheels_betwen", "wheels-between"}, {"sls", ""}, {"x", ""}, {"", ""}, {"lorry", ""},
		{"sdean", "sedan"}, {"sl", ""}, {"sills", "sill"}, {"slil", "sill"}, {"wills", ""},
		{strings.Repeat("w", 1000), ""},
	} {
		if got := Nearest(c.word, names); got != c.want {
			t.Errorf("Nearest(%q) = %q; want %q", c.word, got, c.want)
		}
	}
}

func TestParseNumber(t *testing.T) {
	for _, c := range []struct {
		text string
		want float64
		ok   bool
	}{
		{"2.35", 2.35, true}, {"-.5", -.5, true}, {"+3", 3, true}, {"0", 0, true}, {"0.50", .5, true}, {"-0", 0, true},
		{"", 0, false}, {".", 0, false}, {"3.", 0, false}, {"--1", 0, false}, {"+-1", 0, false}, {"01", 0, false}, {"1e3", 0, false},
		{"NaN", 0, false}, {"inf", 0, false}, {"0x1", 0, false}, {"1_0", 0, false}, {"1,5", 0, false}, {" 1", 0, false}, {"１", 0, false},
		{strings.Repeat("9", 400), 0, false},
	} {
		if got, ok := ParseNumber(c.text); got != c.want || ok != c.ok {
			t.Errorf("ParseNumber(%q) = %v, %v; want %v, %v", c.text, got, ok, c.want, c.ok)
		}
	}
}

func FuzzParse(f *testing.F) {
	for _, seed := range []string{
		"title: a\ndoors: 4\nsizes: [0, 1]\n", "{a: 1,5}", "&a [*a]", "? {a: b}\n: - c", "--- |\n x\n--- >\n y", "\"\\u0000\"", "%TAG ! x\n---\n!y z", "a: [b, {c: [d]}]",
	} {
		f.Add([]byte(seed))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		_, _, err := read("f", string(data))
		problems, _ := err.(*Problems)
		if err == nil {
			return
		}
		last := Problem{}
		for _, p := range problems.List {
			if p.Line < 1 || p.Column < 1 || p.Line < last.Line || p.Line == last.Line && p.Column < last.Column {
				t.Errorf("%d:%d after %d:%d", p.Line, p.Column, last.Line, last.Column)
			}
			if strings.ContainsAny(p.Text, "\n\r\x1b") {
				t.Errorf("not one clean line: %q", p.Text)
			}
			last = p
		}
	})
}

// Cells know their line and the column in characters, behind a byte order mark, quotes that span lines and letters of several bytes.
func TestParseCSVPlaces(t *testing.T) {
	rows, doc := ParseCSV("x.csv", []byte("\ufeffname, b\r\n\"é\nü\",\"\"\"q\"\"\"\r\n,\r\nä,ö"))
	var got []string
	for _, row := range rows {
		for _, c := range row {
			got = append(got, fmt.Sprintf("%d:%d %q", c.Line, c.Column, c.Text))
		}
	}
	want := []string{`1:1 "name"`, `1:7 "b"`, `2:1 "é\nü"`, `3:4 "\"q\""`, `5:1 "ä"`, `5:3 "ö"`}
	if !slices.Equal(got, want) || doc.Err() != nil {
		t.Errorf("%q, %v; want %q", got, doc.Err(), want)
	}
}
