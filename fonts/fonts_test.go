package fonts_test

import (
	"encoding/binary"
	"fmt"
	"math"
	"slices"
	"sync"
	"testing"

	"hubrule/fonts"
	"hubrule/internal/geom"
)

func Example() {
	const words, height = "wheels between", geom.MM(2.5)
	fmt.Printf("%.2f mm\n", fonts.Width(words, height, fonts.Regular))
	fmt.Printf("%.2f mm\n", fonts.Width(words, 2*height, fonts.Regular))
	fmt.Printf("%q\n", fonts.Missing("⌀ 46 mm"))
	// Output:
	// 23.75 mm
	// 47.51 mm
	// ['⌀']
}

// table returns a table of a TrueType file, read without the library that Width uses.
func table(ttf []byte, tag string) []byte {
	for i := range int(binary.BigEndian.Uint16(ttf[4:])) {
		entry := ttf[12+16*i:]
		if string(entry[:4]) == tag {
			at, n := binary.BigEndian.Uint32(entry[8:]), binary.BigEndian.Uint32(entry[12:])
			return ttf[at : at+n]
		}
	}
	return nil
}

func TestCapHeightIsTheFontFiles(t *testing.T) {
	for _, w := range fonts.Weights() {
		os2, head := table(fonts.TTF(w), "OS/2"), table(fonts.TTF(w), "head")
		units := float64(binary.BigEndian.Uint16(head[18:]))
		capital := float64(binary.BigEndian.Uint16(os2[88:]))
		if units != fonts.UnitsPerEm || capital/units != fonts.CapHeight {
			t.Errorf("weight %d: capitals %v of %v units, want %v of %v", w, capital, units, fonts.CapHeight, fonts.UnitsPerEm)
		}
		if class := fonts.Weight(binary.BigEndian.Uint16(os2[4:])); class != w {
			t.Errorf("weight %d holds the file of weight %d", w, class)
		}
	}
}

// TestFilesAreWhole sums every table: a single damaged byte shows.
func TestFilesAreWhole(t *testing.T) {
	for _, w := range fonts.Weights() {
		if err := damaged(fonts.TTF(w)); err != nil {
			t.Errorf("weight %d: %v", w, err)
		}
		broken := slices.Clone(fonts.TTF(w))
		broken[len(broken)/2] ^= 1
		if damaged(broken) == nil {
			t.Errorf("weight %d: a flipped bit is not noticed", w)
		}
		if damaged(fonts.TTF(w)[:len(broken)-200]) == nil {
			t.Errorf("weight %d: a missing end is not noticed", w)
		}
	}
}

// damaged checks the sum of every table of a TrueType file against its directory.
func damaged(ttf []byte) error {
	for i := range int(binary.BigEndian.Uint16(ttf[4:])) {
		entry := ttf[12+16*i:]
		want, at, n := binary.BigEndian.Uint32(entry[4:]), int(binary.BigEndian.Uint32(entry[8:])), int(binary.BigEndian.Uint32(entry[12:]))
		if at+n > len(ttf) {
			return fmt.Errorf("table %s ends beyond the file", entry[:4])
		}
		data := append(slices.Clone(ttf[at:at+n]), 0, 0, 0)
		if string(entry[:4]) == "head" {
			copy(data[8:], []byte{0, 0, 0, 0}) // the whole file's own sum is left out of its table's
		}
		var sum uint32
		for ; len(data) >= 4; data = data[4:] {
			sum += binary.BigEndian.Uint32(data)
		}
		if sum != want {
			return fmt.Errorf("table %s sums to %08x, want %08x", entry[:4], sum, want)
		}
	}
	return nil
}

// TestWidth compares with what HarfBuzz makes of the same files: measureText at 1000 px in Chromium 156,
// ligatures off, kerning on (SEEN: measured, and rounded from its 1/1024 px).
func TestWidth(t *testing.T) {
	tests := []struct {
		text                      string
		regular, medium, semiBold float64 // font units
	}{
		{"", 0, 0, 0},
		{"0", 540, 540, 540},
		{"AV", 1083, 1116, 1136},
		{"wheels between", 6632, 6775, 6865},
		{"front offset fine flow", 8210, 8447, 8595},
		{"To. Ty, 1.17 × 0.5 − 3", 8396, 8498, 8565},
		{"A-pillar 34°, aims at 0.78 on the front axle", 17013, 17361, 17582},
	}
	for _, tt := range tests {
		for i, units := range []float64{tt.regular, tt.medium, tt.semiBold} {
			w := fonts.Weights()[i]
			got, want := fonts.Width(tt.text, 2.5, w), units/1000*2.5/0.698
			if math.Abs(float64(got)-want) > 1e-9 {
				t.Errorf("Width(%q, 2.5, %v) = %v, want %v", tt.text, w, got, want)
			}
		}
	}
}

// TestDigitsAreEquallyWide: columns of figures stand in line.
func TestDigitsAreEquallyWide(t *testing.T) {
	for _, w := range fonts.Weights() {
		for _, digit := range "123456789" {
			if got, want := fonts.Width(string(digit), 1, w), fonts.Width("0", 1, w); got != want {
				t.Errorf("weight %d: %c is %v wide, 0 is %v", w, digit, got, want)
			}
		}
	}
}

func TestWeightsCoverTheSameLetters(t *testing.T) {
	has := func(letter rune, w fonts.Weight) bool {
		glyphs := fonts.Shape(string(letter), w)
		return len(glyphs) == 1 && !glyphs[0].Missing()
	}
	for letter := range rune(0x2500) {
		covered := has(letter, fonts.Regular)
		for _, w := range []fonts.Weight{fonts.Medium, fonts.SemiBold} {
			if got := has(letter, w); got != covered {
				t.Errorf("%q: regular covers it: %v, weight %d: %v", letter, covered, w, got)
			}
		}
	}
}

func TestMissing(t *testing.T) {
	tests := []struct {
		text string
		want []rune
	}{
		{"", nil},
		{"Čapek's Ångström, 34° × 0.5 − ½", nil},
		{"語⌀ 46 mm 漢 ⌀", []rune{'語', '⌀', '漢'}},
		{"\xff", []rune{'\uFFFD'}},
		{"caf\u00e9, cafe\u0301, a\u0338", []rune{'\u0338'}}, // a stroke through its letter
		{"soft\u00adhyphen, no-break\u00a0space", nil},
		{"👩\u200d🔧\ufe0f \u2067", []rune{'👩', '🔧'}}, // a joiner, a selector and a mark of direction are not drawn
	}
	for _, tt := range tests {
		if got := fonts.Missing(tt.text); !slices.Equal(got, tt.want) {
			t.Errorf("Missing(%q) = %q, want %q", tt.text, got, tt.want)
		}
	}
}

func TestControl(t *testing.T) {
	for text, want := range map[string]rune{"one\rline": '\r', "\x00": 0, "a\u2028b": '\u2028', "tab\t": '\t', "\u0085": '\u0085'} {
		if got, found := fonts.Control(text); got != want || !found {
			t.Errorf("Control(%q) = %q, %v, want %q", text, got, found, want)
		}
	}
	for _, text := range []string{"", "Å. Öst", "👩\u200d🔧", "\u00ad"} {
		if got, found := fonts.Control(text); found {
			t.Errorf("Control(%q) = %q", text, got)
		}
	}
}

func TestWidthIsSafeForConcurrentUse(t *testing.T) {
	var group sync.WaitGroup
	for range 4 {
		group.Go(func() {
			for _, w := range fonts.Weights() {
				fonts.Width("side glass ends over the back of the rear tyre", 2.5, w)
			}
		})
	}
	group.Wait()
}

func BenchmarkWidth(b *testing.B) {
	for b.Loop() {
		fonts.Width("A-pillar 34°, aims at 0.78 on the front axle", 2.5, fonts.Regular)
	}
}
