package picture_test

import (
	"bytes"
	"encoding/binary"
	"encoding/hex"
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

// Three WebP files of 3 x 2 pixels, written by ImageMagick.
const (
	losslessWebP = "5249464620000000574542505650384c130000002f024000000f10f3bffff31f0e6e7010d1ff1000"
	lossyWebP    = "524946464600000057454250565038203a0000009001009d012a0300020002c04c25a80274ba00039800feee44dfbc864bfa921b349c3455f36933bffd98935fb8bfeb43ffd3126bf717ea800000"
	maskedWebP   = "524946465a00000057454250565038580a00000010000000020000010000414c504807000000007f7f7f7f7f7f00565038202c0000009001009d012a0300020002c04c25a00274ba00039800feee431fee6c738b7057ff6d0fff5a1ffeb43fe94000"
)

func unhex(s string) []byte {
	b, err := hex.DecodeString(s)
	if err != nil {
		panic(err)
	}
	return b
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
	const none, tooMany = "<nil>", "save it smaller, or as a JPEG that is not progressive"
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
		"bomb":         {lying(good, 10000, 10000), none, "10000 x 10000 pixels are too many for a PNG of this kind; want at most 25 million: " + tooMany},
		"progressive":  {progressive, none, "9000 x 9000 pixels are too many for a JPEG of this kind; want at most 13 million: " + tooMany},
		"empty pixels": {lying(good, 5000, 5000), none, "a PNG that is damaged or cut short"},
		"empty scan":   {lyingJPEG(photo, 8000, 8000), none, "a JPEG that is damaged or cut short"},
		"torn":         {good[:len(good)/2], none, "a PNG that is damaged or cut short"},
		"torn jpeg":    {photo[:len(photo)-9], none, "a JPEG that is damaged or cut short"},
		"torn head":    {good[:20], "a PNG that ends within its header", ""},
		"no frame":     {photo[:30], "a JPEG that ends within its header", ""},
		"changed":      {append(bytes.Clone(good[:60]), bytes.Repeat([]byte{7}, 90)...), none, "a PNG that is damaged or cut short"},
		"arithmetic":   {arithmetic, "a JPEG that cannot be read: it is of a rare kind (lossless, arithmetic coding, more than 8 bits); save it as PNG", ""},
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
	if err := f.Truncate(picture.MaxSize + 1); err != nil {
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

// TestLargePicturesShrink: to 16 million pixels, in proportion, and each is the mean of those that it stands for.
func TestLargePicturesShrink(t *testing.T) {
	m := image.NewGray(image.Rect(0, 0, 16000, 1600))
	for i := range m.Pix {
		m.Pix[i] = uint8(i % 16000 % 2 * 200)
	}
	got, err := picture.Decode(outside.File(t, "p.png", pngBytes(t, m)))
	if err != nil || got.Rect.Size() != image.Pt(12649, 1264) {
		t.Fatalf("%v, %v", got.Rect, err)
	}
	sum := 0
	for x := range 12649 {
		sum += int(got.Pix[600*got.Stride+4*x])
	}
	if mean := float64(sum) / 12649; mean < 99.5 || mean > 100.5 {
		t.Errorf("the mean is %v; want 100", mean)
	}
}

// FuzzPicture: whatever a file holds, it has a size that is kept or one line that says why not.
func FuzzPicture(f *testing.F) {
	f.Add(pngBytes(f, slope(5, 3)))
	f.Add(jpegBytes(f, slope(17, 9)))
	f.Add(unhex(losslessWebP))
	f.Add(unhex(lossyWebP))
	f.Add(unhex(maskedWebP))
	f.Add([]byte("\xff\xd8\xff\xe1\x00\x22Exif\x00\x00II*\x00\x08\x00" +
		"\x00\x00\x00\x01\x00\x12\x01\x03\x00\x01\x00\x00\x00\x06\x00\x00\x00\x00\x00\x00\x00"))
	f.Fuzz(func(t *testing.T, data []byte) {
		path := outside.File(t, "picture", data)
		h, err := picture.Open(path)
		if err == nil && (min(h.Width, h.Height) < 1 || max(h.Width, h.Height) > picture.MaxSide || h.Orientation < 1 || h.Orientation > 8) {
			t.Fatalf("%+v", h)
		}
		if err == nil && h.Width*h.Height < 1e6 {
			pixels, failed := picture.Decode(path)
			if err = failed; err == nil && pixels.Rect.Size() != image.Pt(h.Width, h.Height) {
				t.Fatalf("%v; the header says %+v", pixels.Rect, h)
			}
		}
		if err != nil && (strings.ContainsAny(err.Error(), "\n\x00") || strings.Contains(err.Error(), path)) {
			t.Fatalf("%q", err)
		}
	})
}
