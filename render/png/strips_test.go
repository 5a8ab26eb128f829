package png

import (
	"bytes"
	"hash/adler32"
	"image"
	"slices"
	"testing"

	"hubrule/internal/testpage"
	"hubrule/render"
)

// rowsSeen lists the rows that a Watcher hears of.
type rowsSeen []int

func (s *rowsSeen) Drawn(rows, _ int) { *s = append(*s, rows) }

// The number of workers is a matter of time only: several strips give the same bytes however many draw them.
func TestWorkers(t *testing.T) {
	t.Parallel()
	page := testpage.Sample()
	photo := image.NewRGBA(image.Rect(0, 0, 90, 70))
	for i := range photo.Pix {
		photo.Pix[i] = byte(i*i>>(i%7)) | byte(i%4/3*255)
	}
	box := render.Box{Min: render.Point{X: 20.1, Y: 10}, Max: render.Point{X: 400, Y: 280.03}}
	page.Marks = append([]render.Mark{&render.Picture{Tagged: render.Tagged{Guide: "ground"}, Box: box, Pixels: photo}}, page.Marks...)
	for _, transparent := range []bool{false, true} {
		var all [3]bytes.Buffer
		for i := range all {
			var seen rowsSeen
			o := Options{DPI: 300, Transparent: transparent, Watcher: &seen}
			if err := write(&all[i], page, o, 1+i); err != nil {
				t.Fatal(err)
			}
			if _, height, _ := o.Size(page); len(seen) < 2 || !slices.IsSorted(seen) || seen[len(seen)-1] != height {
				t.Errorf("%d workers: rows %v, want more and more up to %d", 1+i, seen, height)
			}
			if !bytes.Equal(all[i].Bytes(), all[0].Bytes()) {
				t.Errorf("transparent %v: %d workers write other bytes than one", transparent, 1+i)
			}
		}
	}
}

// A checksum of two parts is that of the whole, at sums that wrap round too.
func TestJoined(t *testing.T) {
	t.Parallel()
	data := bytes.Repeat([]byte{0xff, 0xfe, 0, 7}, 1<<16)
	for _, cut := range []int{0, 1, 65520, 65521, 65522, 2 * 65521, len(data)} {
		first, second := adler32.Checksum(data[:cut]), adler32.Checksum(data[cut:])
		if got, want := joined(first, second, len(data)-cut), adler32.Checksum(data); got != want {
			t.Errorf("joined at %d: %08x, want %08x", cut, got, want)
		}
	}
}
