package desk

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"os"
	"testing"
	"time"

	"hubrule/internal/fault"
	"hubrule/segments/strict"
)

// FuzzMarks: whatever a call of marks holds, it is read or refused, soon and with a reason; what is kept of it is opened as the same marks,
// and read alike.
func FuzzMarks(f *testing.F) {
	d, err := Open("suv", nil)
	if err != nil {
		f.Fatal(err)
	}
	for _, name := range []string{"plain", "no-help", "sunk-right", "round"} {
		text, err := os.ReadFile("../../testdata/reading/" + name + "-noisy.yaml")
		if err != nil {
			f.Fatal(err)
		}
		marks := strict.Parse("side.yaml", text).Top().JSON("kind")
		f.Add(append(append([]byte(`{"marks": `), marks...), '}'))
		f.Add(append(append([]byte(`{"screen": {"width": 900, "height": 500, "lettering-px": 13, "shown": [0, 900, 1200, 800]}, "against": "suv", "marks": `), marks...), '}'))
	}
	f.Add([]byte(`{"marks": {"size": [100, 100], "facing": "left", "picture": "x", "on-sheet": {"paper": "A4", "left": [1, 1]}, "round": {"nose": "0w"}, "marks": {"nose": {"at": [1, 2], "pm": 3, "inboard": "0.1w"}}}, "name": "\u0000"}`))
	f.Add([]byte(`{"marks": {}, "against": {"segment": "x", "profile": "extends: suv\nfigures: {height: 2.2w}"}, "narrows": true}`))
	f.Fuzz(func(t *testing.T, body []byte) {
		began := time.Now()
		out, err := d.work(t.Context(), (*Desk).readMarks, body)
		if took := time.Since(began); took > 10*time.Second {
			t.Errorf("took %v", took)
		}
		if errors.As(err, new(*fault.Fault)) || err != nil && len(problemsOf(err)) == 0 {
			t.Errorf("refused without a reason: %v", err)
		}
		if _, err := json.Marshal(out); err != nil {
			t.Errorf("%v is no JSON: %v", out, err)
		}
		var in marked
		if json.Unmarshal(body, &in) != nil || in.Marks == nil {
			return
		}
		file, wrong := d.marks(in)
		if wrong != nil {
			return
		}
		text := file.YAML()
		opened, wrong := d.openMarks(text)
		if wrong != nil {
			t.Fatalf("%s is kept as\n%s\nwhich is refused: %v", in.Marks, text, wrong)
		}
		again, wrong := d.marks(marked{opened.(map[string]json.RawMessage)["marks"], in.Name})
		if wrong != nil || again.YAML() != text {
			t.Fatalf("%s is kept as\n%s\nand again as\n%s: %v", in.Marks, text, again.YAML(), wrong)
		}
		if err != nil {
			return
		}
		was, _ := file.Reading() // it was read above
		is, wrong := again.Reading()
		if wrong != nil {
			t.Fatalf("%s is read, but not once it was kept: %v", in.Marks, wrong)
		}
		was.Picture, is.Picture = nil, nil
		one, _ := json.Marshal(was) // numbers and texts
		two, _ := json.Marshal(is)
		if !bytes.Equal(one, two) {
			t.Errorf("%s is read as\n%s\nand once it was kept as\n%s", in.Marks, one, two)
		}
	})
}

// Only so many calls with pictures are read at a time; another waits, and leaves its place as soon as its caller is gone.
func TestPicturesWait(t *testing.T) {
	p := newPictures()
	for range mostPictures {
		if _, err := take(t.Context(), p.reading); err != nil {
			t.Fatal(err)
		}
	}
	ctx, cancel := context.WithTimeout(t.Context(), 20*time.Millisecond)
	defer cancel()
	if _, err := take(ctx, p.reading); err == nil {
		t.Error("one picture more is read at once")
	}
}
