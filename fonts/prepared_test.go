package fonts

import (
	"encoding/binary"
	"flag"
	"fmt"
	"os"
	"testing"
)

var update = flag.Bool("update", false, "write the prepared metrics anew")

// TestPreparedMetrics: what lies prepared is what the font files say, for every letter and every pair.
func TestPreparedMetrics(t *testing.T) {
	var prepared []rune
	for letter := rune(firstLetter); letter < firstLetter+letters; letter++ {
		prepared = append(prepared, letter)
	}
	prepared = append(prepared, []rune(signs)...)
	if len(prepared) != places {
		t.Fatalf("%d letters for %d places", len(prepared), places)
	}
	for i, letter := range prepared {
		if at, ok := place(letter); at != i || !ok {
			t.Fatalf("%q lies at %d, %v; want %d", letter, at, ok, i)
		}
	}
	for _, other := range "\x00\n\x1fĀΩ漢" {
		if at, ok := place(other); ok {
			t.Fatalf("%q lies at %d; want nowhere", other, at)
		}
	}
	for _, w := range Weights() {
		want := readMetrics(faceOf(w), prepared)
		if *update {
			if err := os.WriteFile(fmt.Sprintf("prepared/%d.metrics", w), []byte(want), 0o666); err != nil {
				t.Fatal(err)
			}
		} else if faceOf(w).prepared != want {
			t.Errorf("weight %d: the prepared metrics are not the font file's; run go generate ./fonts", w)
		}
	}
}

// readMetrics reads all letters and pairs from a face's file.
func readMetrics(f *face, letters []rune) metrics {
	var out []byte
	for _, letter := range letters {
		g := f.read(letter)
		out = binary.BigEndian.AppendUint16(out, g.Index)
		out = binary.BigEndian.AppendUint16(out, uint16(g.Advance))
	}
	for _, left := range letters {
		for _, right := range letters {
			out = binary.BigEndian.AppendUint16(out, uint16(f.readKern(f.read(left), f.read(right))))
		}
	}
	return metrics(out)
}

// A letter that lies nowhere is read from the file, and so is its kerning.
func TestLettersBeyondThePreparedOnes(t *testing.T) {
	const text = "AVĀV"
	f := faceOf(Regular)
	if _, ok := place('Ā'); ok {
		t.Fatal("this letter is prepared; choose another")
	}
	want, last := 0, Glyph{}
	for i, letter := range text {
		g := f.read(letter)
		want += g.Advance
		if i > 0 {
			want += f.readKern(last, g)
		}
		last = g
	}
	if got := units(text, Regular); got != want {
		t.Errorf("units(%q) = %d, want %d", text, got, want)
	}
	if k := f.kern(f.glyph('Ā'), f.glyph('V')); k >= 0 {
		t.Errorf("Ā and V move by %d; want them closer", k)
	}
}
