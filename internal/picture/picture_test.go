package picture_test

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"hash/crc32"
	"image"
	"image/color"
	"image/jpeg"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"syscall"
	"testing"

	"hubrule/internal/outside"
	"hubrule/internal/picture"
)

func ExampleOpen() {
	_, err := picture.Open("picture_test.go")
	fmt.Println(err)
	// Output: not a picture; want PNG, JPEG or WebP
}

func jpegBytes(t testing.TB, m image.Image) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := jpeg.Encode(&b, m, nil); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// lying returns the PNG with another size in its header.
func lying(data []byte, width, height uint32) []byte {
	data = bytes.Clone(data)
	binary.BigEndian.PutUint32(data[16:], width)
	binary.BigEndian.PutUint32(data[20:], height)
	binary.BigEndian.PutUint32(data[29:], crc32.ChecksumIEEE(data[12:29]))
	return data
}

// lyingJPEG returns the JPEG with another size in its header.
func lyingJPEG(data []byte, width, height uint16) []byte {
	data = bytes.Clone(data)
	at := bytes.Index(data, []byte{0xff, 0xc0})
	binary.BigEndian.PutUint16(data[at+5:], height)
	binary.BigEndian.PutUint16(data[at+7:], width)
	return data
}

// TestRefusedPictures: each has one message, of its header or of its pixels, and little memory is used for it.
func TestRefusedPictures(t *testing.T) {
	const none, tooMany = "<nil>", " pixels are too many for a PNG of this kind; want at most "
	const rare = "it is of a rare kind (lossless, arithmetic coding, more than 8 bits); save it as PNG"
	const smaller = " million: save it smaller, or as a JPEG that is not progressive"
	good, photo := pngBytes(t, slope(50, 40)), jpegBytes(t, slope(50, 40))
	progressive := lyingJPEG(photo, 9000, 9000)
	progressive[bytes.Index(progressive, []byte{0xff, 0xc0})+1] = 0xc2
	arithmetic := bytes.Clone(photo)
	arithmetic[bytes.Index(arithmetic, []byte{0xff, 0xc0})+1] = 0xc9
	box := func(brand string) []byte { return []byte("\x00\x00\x00\x18ftyp" + brand + "\x00\x00\x00\x00mif1heic") }
	for name, c := range map[string]struct {
		data         []byte
		open, decode string // "" as open
	}{
		"wide":         {lying(good, 60000, 60000), "60000 x 60000 pixels; want at most 20000 on a side", ""},
		"huge":         {lying(good, 1<<31, 5), "1073741824 x 5 pixels; want at most 20000 on a side", ""},
		"flat":         {lying(good, 0, 40), "a PNG of 0 x 40 pixels", ""},
		"wide jpeg":    {lyingJPEG(photo, 60000, 60000), "60000 x 60000 pixels; want at most 20000 on a side", ""},
		"bomb":         {lying(good, 10000, 10000), none, "10000 x 10000" + tooMany + "25" + smaller},
		"progressive":  {progressive, none, "9000 x 9000" + strings.Replace(tooMany, "PNG", "JPEG", 1) + "13" + smaller},
		"empty pixels": {lying(good, 5000, 5000), none, "a PNG that is damaged or cut short"},
		"empty scan":   {lyingJPEG(photo, 8000, 8000), none, "a JPEG that is damaged or cut short"},
		"torn":         {good[:len(good)/2], none, "a PNG that is damaged or cut short"},
		"torn jpeg":    {photo[:len(photo)-9], none, "a JPEG that is damaged or cut short"},
		"torn head":    {good[:20], "a PNG that ends within its header", ""},
		"no frame":     {photo[:30], "a JPEG that ends within its header", ""},
		"changed":      {append(bytes.Clone(good[:60]), bytes.Repeat([]byte{7}, 90)...), none, "a PNG that is damaged or cut short"},
		"arithmetic":   {arithmetic, "a JPEG that cannot be read: " + rare, ""},
		"heic":         {box("heic"), "HEIC, which is not read; save it as JPEG or PNG", ""},
		"avif":         {box("avif"), "AVIF, which is not read; save it as JPEG or PNG", ""},
		"cr3":          {box("crx "), "a camera's raw file, which is not read; save it as JPEG or PNG", ""},
		"mov":          {box("qt  "), "a video, which is not read; save it as JPEG or PNG", ""},
		"cr2":          {[]byte("II*\x00\x10\x00\x00\x00CR\x02\x00"), "a camera's raw file, which is not read; save it as JPEG or PNG", ""},
		"raf":          {[]byte("FUJIFILMCCD-RAW 0201"), "a camera's raw file, which is not read; save it as JPEG or PNG", ""},
		"nef":          {[]byte("MM\x00*\x00\x00\x00\x08"), "TIFF or a camera's raw file, which is not read; save it as JPEG or PNG", ""},
		"gif":          {[]byte("GIF89a"), "GIF, which is not read; save it as JPEG or PNG", ""},
		"bmp":          {[]byte("BM\x00\x00"), "BMP, which is not read; save it as JPEG or PNG", ""},
		"pdf":          {[]byte("%PDF-1.7"), "PDF, which is not read; save it as JPEG or PNG", ""},
		"psd":          {[]byte("8BPS\x00\x01"), "PSD, which is not read; save it as JPEG or PNG", ""},
		"svg":          {[]byte("<?xml version='1.0'?>\n<svg/>"), "SVG, which is not read; save it as JPEG or PNG", ""},
		"empty":        {nil, "an empty file; want a picture: PNG, JPEG or WebP", ""},
		"words":        {[]byte("kind: marks\n"), "not a picture; want PNG, JPEG or WebP", ""},
	} {
		path := outside.File(t, "picture", c.data)
		before := allocated()
		_, err := picture.Open(path)
		if used := allocated() - before; fmt.Sprint(err) != c.open || used > 1<<20 {
			t.Errorf("%s: Open says %v, with %d bytes; want %s", name, err, used, c.open)
		}
		if c.decode == "" {
			c.decode = c.open
		}
		if _, err = picture.Decode(path); fmt.Sprint(err) != c.decode {
			t.Errorf("%s: Decode says %v; want %s", name, err, c.decode)
		}
		if used := allocated() - before; used > 150e6 {
			t.Errorf("%s: %d bytes", name, used)
		}
	}
}

func allocated() uint64 {
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	return m.TotalAlloc
}

// TestOnlyRegularFiles: nothing waits at a pipe.
func TestOnlyRegularFiles(t *testing.T) {
	dir := t.TempDir()
	pipe, large := filepath.Join(dir, "pipe.png"), filepath.Join(dir, "large.png")
	f, err := os.Create(large)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if err := f.Truncate(100<<20 + 1); err != nil {
		t.Fatal(err)
	}
	if err := syscall.Mkfifo(pipe, 0o600); err != nil {
		t.Fatal(err)
	}
	for path, want := range map[string]string{
		pipe: "not a regular file; want a picture: PNG, JPEG or WebP", os.DevNull: "not a regular file; want a picture: PNG, JPEG or WebP",
		dir: "a directory; want a picture: PNG, JPEG or WebP", dir + "/none.png": "no such file or directory", large: "larger than 100 MB",
	} {
		_, err := picture.Open(path)
		_, again := picture.Decode(path)
		if fmt.Sprint(err) != want || fmt.Sprint(again) != want {
			t.Errorf("%s: %v, %v; want %s", path, err, again, want)
		}
	}
}

// TestTransparentIsWhite: what a picture does not cover is paper.
func TestTransparentIsWhite(t *testing.T) {
	m := image.NewNRGBA(image.Rect(0, 0, 3, 1))
	m.SetNRGBA(1, 0, color.NRGBA{R: 100, A: 255})
	m.SetNRGBA(2, 0, color.NRGBA{A: 128})
	got, err := picture.Decode(outside.File(t, "p.png", pngBytes(t, m)))
	if want := []byte{255, 255, 255, 255, 100, 0, 0, 255, 127, 127, 127, 255}; err != nil || !bytes.Equal(got.Pix, want) {
		t.Errorf("%v, %v; want %v", got, err, want)
	}
}
