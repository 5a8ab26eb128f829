package pdf

import (
	"bytes"
	"compress/zlib"
	"flag"
	"fmt"
	"io"
	"os"
	"strings"
	"testing"

	"hubrule/fonts"
	"hubrule/render"
)

var update = flag.Bool("update", false, "write the prepared letters anew")

// TestPreparedLetters: what lies prepared is what gopdf gives now. Compressed data are compared unpacked, since
// another release of Go may pack the same bytes otherwise.
func TestPreparedLetters(t *testing.T) {
	for _, w := range fonts.Weights() {
		fresh, err := embedLetters(preparedLetters(), w)
		if err != nil {
			t.Fatal(err)
		}
		if *update {
			if err := os.WriteFile(fmt.Sprintf("prepared/%d.pdf", w), fresh, 0o666); err != nil {
				t.Fatal(err)
			}
			continue
		}
		want, err := splice(fresh)
		if err != nil {
			t.Fatal(err)
		}
		got, err := splice(preparedDocument(t, w))
		if err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(unpacked(t, got.file), unpacked(t, want.file)) {
			t.Errorf("weight %d: the prepared font file is not gopdf's; run go generate ./render/pdf", w)
		}
		got.file, want.file = "", ""
		if got != want {
			t.Errorf("weight %d: prepared %+v\nwant %+v\nrun go generate ./render/pdf", w, got, want)
		}
	}
}

// unpacked returns the data of a compressed stream object.
func unpacked(t *testing.T, object string) []byte {
	t.Helper()
	_, data, ok := strings.Cut(object, "stream\n")
	if !ok {
		t.Fatalf("no stream in %.40q", object)
	}
	r, err := zlib.NewReader(strings.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	out, err := io.ReadAll(r)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

func preparedDocument(t *testing.T, w render.Weight) []byte {
	t.Helper()
	doc, err := document(preparedLetters(), w)
	if err != nil {
		t.Fatal(err)
	}
	return doc
}
