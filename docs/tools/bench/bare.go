//go:build unix

package main

import (
	"bufio"
	"bytes"
	"fmt"
	"os"
	"strconv"
	"strings"

	"github.com/klauspost/compress/zlib"
)

// bareLine is one line of a text file of marks: what to do, its numbers, and the words of a text.
type bareLine struct {
	verb    string
	numbers []float64
	words   string
}

// readBare reads the file that cairo reads too.
func readBare(path string) ([]bareLine, error) {
	data, err := os.ReadFile(path)
	if err != nil {
		return nil, err
	}
	var out []bareLine
	for line := range strings.Lines(string(data)) {
		verb, rest, _ := strings.Cut(strings.TrimSuffix(line, "\n"), " ")
		l := bareLine{verb: verb}
		for most := 7; len(l.numbers) < most || verb != "text"; {
			word, after, _ := strings.Cut(rest, " ")
			n, err := strconv.ParseFloat(word, 64)
			if err != nil {
				break
			}
			l.numbers, rest = append(l.numbers, n), after
		}
		l.words = rest
		out = append(out, l)
	}
	return out, nil
}

// barePages writes so many pages of the marks with nothing that a file could do without: no layers, no bookmarks, no face embedded,
// no check of anything. Every page is formatted and packed anew by one worker: it is what a writer cannot be much faster than.
func barePages(marks, path string, count int) error {
	lines, err := readBare(marks)
	if err != nil {
		return err
	}
	file, err := os.Create(path)
	if err != nil {
		return err
	}
	w := bareWriter{out: bufio.NewWriterSize(file, 1<<16), offsets: make([]int, 1)}
	w.printf("%%PDF-1.7\n")
	w.deflate, _ = zlib.NewWriterLevel(&w.packed, zlib.BestSpeed) // fails only for levels that do not exist
	var kids bytes.Buffer
	for range count {
		w.content = w.content[:0]
		for _, l := range lines {
			w.line(l)
		}
		fmt.Fprintf(&kids, "%d 0 R ", w.page())
	}
	w.offsets[0] = w.at
	w.printf("1 0 obj\n<</Type/Pages/Count %d/Kids[%s]/MediaBox[0 0 1190.55 841.89]/Resources<</Font<</F<</Type/Font/Subtype/Type1/BaseFont/Helvetica>>>>>>>>\nendobj\n", count, &kids)
	root := w.object("<</Type/Catalog/Pages 1 0 R>>")
	w.end(root)
	if err := w.out.Flush(); err != nil {
		return err
	}
	sayPeak()
	return file.Close()
}

// bareWriter is the least that writes a PDF. Object 1 is the list of pages, which is written last.
type bareWriter struct {
	out     *bufio.Writer
	at      int
	offsets []int
	content []byte
	packed  bytes.Buffer
	deflate *zlib.Writer
}

func (w *bareWriter) printf(format string, args ...any) {
	n, _ := fmt.Fprintf(w.out, format, args...) // the buffer keeps the first error
	w.at += n
}

func (w *bareWriter) object(format string, args ...any) int {
	w.offsets = append(w.offsets, w.at)
	w.printf("%d 0 obj\n", len(w.offsets))
	w.printf(format, args...)
	w.printf("\nendobj\n")
	return len(w.offsets)
}

// page packs the content and writes a page of it.
func (w *bareWriter) page() int {
	w.packed.Reset()
	w.deflate.Reset(&w.packed)
	w.deflate.Write(w.content)
	w.deflate.Close()
	stream := w.object("<</Filter/FlateDecode/Length %d>>\nstream\n%s\nendstream", w.packed.Len(), w.packed.Bytes())
	return w.object("<</Type/Page/Parent 1 0 R/Contents %d 0 R>>", stream)
}

// line appends one line of the file as operators.
func (w *bareWriter) line(l bareLine) {
	n := l.numbers
	switch l.verb {
	case "page":
		w.op("cm 1 j", 72/25.4, 0, 0, -72/25.4, 0, n[1]*72/25.4)
	case "move":
		w.op("m", n...)
	case "line":
		w.op("l", n...)
	case "curve":
		w.op("c", n...)
	case "close":
		w.op("h")
	case "circle":
		const k = .5522847498 // of the radius: the usual cubics
		x, y, r := n[0], n[1], n[2]
		w.op("m", x+r, y)
		w.op("c", x+r, y+k*r, x+k*r, y+r, x, y+r)
		w.op("c", x-k*r, y+r, x-r, y+k*r, x-r, y)
		w.op("c", x-r, y-k*r, x-k*r, y-r, x, y-r)
		w.op("c h", x+k*r, y-r, x+r, y-k*r, x+r, y)
	case "fill":
		w.op("rg f*", n...)
	case "stroke":
		w.op("RG", n[:3]...)
		w.op("w", n[3])
		w.content = append(w.content, '[')
		w.op("] 0 d S", n[5:]...)
	case "text":
		w.op("rg", n[:3]...)
		w.content = append(w.content, "BT /F "...)
		w.op("Tf", n[4])
		w.op("Tm", 1, 0, 0, -1, n[5], n[6])
		w.content = append(w.content, '(')
		w.content = append(w.content, strings.NewReplacer(`\`, `\\`, "(", `\(`, ")", `\)`).Replace(l.words)...)
		w.op(") Tj ET")
	}
}

func (w *bareWriter) op(operator string, numbers ...float64) {
	for _, n := range numbers {
		w.content = append(strconv.AppendFloat(w.content, n, 'f', 3, 64), ' ')
	}
	w.content = append(append(w.content, operator...), '\n')
}

func (w *bareWriter) end(root int) {
	start := w.at
	w.printf("xref\n0 %d\n0000000000 65535 f \n", len(w.offsets)+1)
	for _, at := range w.offsets {
		w.printf("%010d 00000 n \n", at)
	}
	w.printf("trailer\n<</Size %d/Root %d 0 R>>\nstartxref\n%d\n%%%%EOF\n", len(w.offsets)+1, root, start)
}
