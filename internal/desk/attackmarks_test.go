package desk_test

import (
	"bytes"
	"encoding/base64"
	"encoding/binary"
	"encoding/json"
	"encoding/xml"
	"fmt"
	"hash/crc32"
	"image"
	"image/png"
	"io"
	"mime"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// pngOf is the start of a PNG whose header says a size, grey with one bit a pixel (third edition, 11.2.1).
func pngOf(width, height uint32) []byte {
	chunk := []byte("IHDR\x00\x00\x00\x00\x00\x00\x00\x00\x01\x00\x00\x00\x00")
	binary.BigEndian.PutUint32(chunk[4:], width)
	binary.BigEndian.PutUint32(chunk[8:], height)
	out := append([]byte("\x89PNG\r\n\x1a\n\x00\x00\x00\x0d"), chunk...)
	return binary.BigEndian.AppendUint32(out, crc32.ChecksumIEEE(chunk))
}

// TestPicturesInCalls: a picture is refused by its header before it is decoded, by its size where the marks say another, and where it is none.
func TestPicturesInCalls(t *testing.T) {
	t.Parallel()
	c := open(t, "", false)
	marks, _ := marksAs(t, "../../testdata/reading/plain-noisy.yaml") // 3000 by 2000 pixels
	var small bytes.Buffer
	if err := png.Encode(&small, image.NewGray(image.Rect(0, 0, 30, 20))); err != nil {
		t.Fatal(err)
	}
	for _, p := range []struct {
		data []byte
		want string
	}{
		{pngOf(60_000, 60_000), "60000 x 60000 pixels; want at most 20000 on a side"}, {pngOf(1<<31-1, 1), "on a side"},
		{pngOf(10_001, 10_000), "10001 x 10000 pixels; want at most 100 million"}, {small.Bytes(), "30 x 20 pixels, but the marks have the size [3000, 2000]"},
		{pngOf(3000, 2000), "a PNG that is damaged or cut short"}, {small.Bytes()[:20], "ends within its header"}, {nil, "an empty file"},
		{[]byte("\x00\x00\x00\x18ftypheic"), "HEIC, which is not read"}, {[]byte("<svg/>"), "SVG, which is not read"}, {[]byte("GIF89a"), "GIF, which is not read"},
		{[]byte("%PDF-1.7"), "PDF"}, {[]byte("kind: marks"), "not a picture"}, {bytes.Repeat([]byte{0xff, 0xd8, 0xff}, 1000), "JPEG"},
	} {
		said := base64.StdEncoding.EncodeToString(p.data)
		got := c.refused("/keep", fmt.Sprintf(`{"marks": %s, "format": "png", "picture": %q}`, marks, said), 422).Problems[0]
		if got.Where != "picture" || !strings.Contains(got.Text, p.want) {
			t.Errorf("%.30q: %+v, want %q", p.data, got, p.want)
		}
	}
	for _, wrong := range []string{`"%%%"`, `"iVBORw0KGgo"`, `"` + strings.Repeat("A", 300<<10) + `="`} {
		if got := c.refused("/keep", fmt.Sprintf(`{"marks": %s, "format": "svg", "picture": %s}`, marks, wrong), 422).Problems[0]; got.Where != "picture" {
			t.Errorf("%.20s: %+v", wrong, got)
		}
	}
	c.refused("/keep", fmt.Sprintf(`{"marks": %s, "format": "svg", "picture": 5}`, marks), 422)
	c.refused("/read", fmt.Sprintf(`{"marks": %s, "picture": "AAAA"}`, marks), 400)
}

// TestLargeBodies: only a picture makes a body large, and only of /keep; the rest of it stays within what all calls have.
func TestLargeBodies(t *testing.T) {
	t.Parallel()
	c := open(t, "", false)
	marks, _ := marksAs(t, "../../testdata/reading/plain-noisy.yaml")
	host := "Host: " + strings.TrimPrefix(c.origin, "http://") + "\r\nOrigin: " + c.origin + "\r\nContent-Type: application/json\r\n"
	for path, length := range map[string]int{"/keep": 58_000_000, "/read": 300_000, "/norms": 300_000, "/frame": 300_000} {
		if status, _ := raw(t, c, fmt.Sprintf("POST %s HTTP/1.1\r\n%sContent-Length: %d\r\n\r\n{", path, host, length)); status != 413 {
			t.Errorf("%s takes %d bytes: %d", path, length, status)
		}
	}
	large := strings.Repeat(" ", 300<<10)
	c.refused("/keep", `{"marks": `+marks+large+`, "format": "svg"}`, 413)
	c.refused("/keep", `{"job": {"segment": "suv", "title": "`+large+`"}, "format": "svg"}`, 413)
	c.refused("/keep", `{"marks": `+marks+`, "format": "svg", "picture": "`+strings.Repeat("AAAA", 100_000)+`"}`, 422)
	c.refused("/keep", `{"job": {"segment": "suv"}, "format": "svg", "picture": "`+strings.Repeat("AAAA", 100_000)+`"}`, 413)
}

// TestNamesOfFiles: a name of a file leads nowhere else, and stands in the header as it is.
func TestNamesOfFiles(t *testing.T) {
	t.Parallel()
	c := open(t, "", false)
	marks, _ := marksAs(t, "../../testdata/reading/plain-noisy.yaml")
	for _, name := range []string{"../x", "x/y", `x\y`, "..", ".", ".hidden", "/etc/passwd", "x\x00", "x\r\nSet-Cookie: a=b", " x", strings.Repeat("x", 201), "x\u202ey"} {
		said, _ := json.Marshal(name) // a text
		for _, call := range []string{`{"marks": MARKS, "name": NAME, "format": "yaml"}`, `{"readings": [{"marks": MARKS}], "name": NAME}`, `{"readings": [{"marks": MARKS, "name": NAME}]}`} {
			path := "/keep"
			if strings.Contains(call, "readings") {
				path = "/norms"
			}
			if p := c.refused(path, strings.NewReplacer("MARKS", marks, "NAME", string(said)).Replace(call), 422).Problems[0]; !strings.HasSuffix(p.Where, "name") {
				t.Errorf("%q to %s: %+v", name, path, p)
			}
		}
	}
	for _, name := range []string{"side", "my car; filename=x.exe", `a"b`, "Zoë 車", "-rf", "a'b", "$(reboot)", "x%2e%2e%2fy", "con", "a.b"} {
		said, _ := json.Marshal(name) // a text
		answer, data := c.send("POST", "/keep", fmt.Sprintf(`{"marks": %s, "name": %s, "format": "yaml"}`, marks, said))
		kind, params, err := mime.ParseMediaType(answer.Header.Get("Content-Disposition"))
		if answer.StatusCode != 200 || err != nil || kind != "attachment" || params["filename"] != name+".yaml" || len(params) != 1 {
			t.Errorf("%q: %s, %v, %v: %.200s", name, answer.Header.Get("Content-Disposition"), params, err, data)
		}
		var command struct{ Line string }
		c.ask("POST", "/command", fmt.Sprintf(`{"marks": %s, "name": %s, "against": "suv"}`, marks, said), &command)
		if words := shellWords(t, command.Line); len(words) != 7 || strings.TrimPrefix(words[1], "./") != name+".yaml" || strings.HasPrefix(words[1], "-") {
			t.Errorf("%q: the line %s has the words %q", name, command.Line, words)
		}
	}
}

// TestMarksReadNoFiles: whatever paths marks and norms name, nothing is opened.
func TestMarksReadNoFiles(t *testing.T) {
	t.Chdir(t.TempDir())
	if err := os.WriteFile("secret.yaml", []byte("extends: van\ntitle: Secret\n"), 0o666); err != nil {
		t.Fatal(err)
	}
	here, err := os.Getwd()
	if err != nil {
		t.Fatal(err)
	}
	c := open(t, "", false)
	for _, path := range []string{"secret.yaml", "./secret.yaml", filepath.Join(here, "secret.yaml"), "/etc/passwd", "/dev/zero", "../x.yaml", "/proc/self/mem"} {
		said, _ := json.Marshal(path) // a text
		call := `{"marks": {"picture": PATH, "size": [3000, 2000], "facing": "left", "like": PATH, "marks": {}}}`
		ps := c.refused("/read", strings.ReplaceAll(call, "PATH", string(said)), 422).Problems
		if !strings.Contains(ps[0].Text, "files are read only where") || ps[0].Where != "like" || strings.Contains(fmt.Sprint(ps), "Secret") || strings.Contains(fmt.Sprint(ps), "no such") {
			t.Errorf("%s: %+v", path, ps)
		}
		for _, call := range []string{`{"marks": {}, "against": PATH}`, `{"marks": {}, "against": {"segment": PATH}}`} {
			c.refused("/read", strings.ReplaceAll(call, "PATH", string(said)), 422)
		}
		marks, _ := json.Marshal(map[string]string{"yaml": "kind: marks\nfacing: left\nsize: [300, 200]\npicture: " + path + "\nlike: " + path + "\nmarks: {}\n"}) // of texts
		c.refused("/open", string(marks), 422)
	}
	good := "{\"marks\": {\"picture\": \"/dev/zero\", \"size\": [3000, 2000], \"facing\": \"left\", \"marks\": {}}, \"format\": \"yaml\"}"
	if answer, data := c.send("POST", "/keep", good); answer.StatusCode != 200 || !strings.Contains(string(data), `picture: "/dev/zero"`) {
		t.Errorf("the name of a picture: %s, %s", answer.Status, data)
	}
}

// TestStrangeMarks: whatever numbers and texts marks hold, they are read or refused at their places, and texts stay texts.
func TestStrangeMarks(t *testing.T) {
	t.Parallel()
	c := open(t, "", false)
	marks, _ := marksAs(t, "../../testdata/reading/plain-noisy.yaml")
	with := func(key, value string) string {
		var keys map[string]json.RawMessage
		if err := json.Unmarshal([]byte(marks), &keys); err != nil {
			t.Fatal(err)
		}
		keys[key] = json.RawMessage(value)
		data, err := json.Marshal(keys)
		if err != nil {
			t.Fatal(err)
		}
		return string(data)
	}
	points := strings.TrimSuffix(strings.Repeat("[1, 2], ", 1000), ", ")
	for _, wrong := range []struct{ key, value, where string }{
		{"size", `["NaN", 2000]`, "size[1]"}, {"size", `[1e999, 2000]`, "size[1]"}, {"size", `[-3000, 2000]`, "size[1]"}, {"focal", `"Infinity"`, "focal"},
		{"pm", `"nan"`, "pm"}, {"marks", `{"tyre-front": [` + points + `]}`, "marks.tyre-front"}, {"marks", `{"belt": [` + points + `]}`, "marks.belt"},
		{"marks", `{"nose": ["NaN", 5]}`, "marks.nose[1]"}, {"marks", `{"nose": [1e300, 5]}`, "marks.nose[1]"}, {"marks", `{"nose": {"at": [5, 5], "pm": -1}}`, "marks.nose.pm"},
		{"marks", `{"<script>": [1, 2]}`, "marks"}, {"marks", `[]`, "marks"}, {"facing", `"<b>"`, "facing"}, {"student", `"a\u0000b"`, "student"},
		{"tyre-front", `[1, 2]`, ""}, {"like", `"suvv"`, "like"}, {"on-sheet", `{"paper": "A3", "left": [1, 1], "top": [1, 1], "right": [1, 1], "bottom": [1, 1]}`, "on-sheet"},
	} {
		all := c.refused("/read", `{"marks": `+with(wrong.key, wrong.value)+`}`, 422).Problems
		if p := all[0]; p.Where != wrong.where || p.Text == "" {
			t.Errorf("%s: %.60s: %+v, want it at %s", wrong.key, wrong.value, all, wrong.where)
		}
	}
	c.refused("/read", `{"marks": {"size": [NaN, 1]}}`, 400)
	c.refused("/read", `{"marks": {"facing": "left", "facing": "left"}}`, 400)
	c.refused("/read", `{"marks": `+marks+`, "screen": {"width": 1400, "height": 800, "lettering-px": 13, "shown": [0, 0, 1e308, 1e308]}}`, 422)
	const evil = `<script>alert(1)<!--]]>&amp;"'`
	said, _ := json.Marshal(evil) // a text
	var got readAnswer
	c.ask("POST", "/read", `{"marks": `+with("student", string(said))+`, "name": "<script>x", "screen": {"width": 1400, "height": 800, "lettering-px": 13, "shown": [0, 0, 3000, 2000]}}`, &got)
	if !strings.Contains(got.Head, evil) || strings.Contains(got.Sheet.SVG, "<script") {
		t.Errorf("markup: %q", got.Head)
	}
	_, svg := c.send("POST", "/keep", `{"marks": `+with("student", string(said))+`, "name": "<script>x", "format": "svg"}`)
	wellFormed(t, svg)
}

// wellFormed refuses a file that is no XML, or that has a script.
func wellFormed(t *testing.T, svg []byte) {
	t.Helper()
	d := xml.NewDecoder(bytes.NewReader(svg))
	for {
		token, err := d.Token()
		if err == io.EOF {
			return
		}
		if err != nil {
			t.Fatalf("%v in %.300s", err, svg)
		}
		if e, ok := token.(xml.StartElement); ok && strings.EqualFold(e.Name.Local, "script") {
			t.Fatalf("a script in %.300s", svg)
		}
	}
}
