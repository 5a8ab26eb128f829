package desk

import (
	"encoding/json"
	"testing"

	"hubrule/segments/strict"
)

// FuzzJob: whatever a job holds, it is read or refused; one that is read is written in a form that is read as the same.
func FuzzJob(f *testing.F) {
	d, err := Open("suv", nil)
	if err != nil {
		f.Fatal(err)
	}
	for _, job := range []string{
		`{"segment": "suv", "tweak": {"sporty": 1}, "pin": {"height": "2.30w", "pillar-rake": 31.50}, "keep": ["belt"], "sheets": ["full"], "paper": "A3"}`,
		`{"segment": "van", "also": [{"segment": "suv", "title": "<b>"}], "sheets": "spread", "count": "6"}`,
		`{"segment": "suv", "against": ["suv+sporty=0.5+height=2.2w", {"segment": "van"}], "sheets": "overlay"}`,
		`{"segment": "suv", "view": "perspective", "camera": "front-low", "eye": "1500mm"}`, `[1e400, null, "\u0000\ud800"]`, `{}`,
	} {
		f.Add([]byte(job))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		a, err := d.read(data)
		if err != nil {
			if _, isJSON := refusal(err); len(problemsOf(err)) == 0 {
				t.Errorf("refused without a reason: %v", isJSON)
			}
			return
		}
		first := d.asJSON(a)
		again, err := d.read(first)
		if err != nil {
			t.Fatalf("%s is written as %s, which is refused: %v", data, first, err)
		}
		if second := d.asJSON(again); string(second) != string(first) {
			t.Errorf("%s\nis written as\n%s\nand then\n%s", data, first, second)
		}
	})
}

// Whatever is written as JSON is JSON, and is read as it was.
func FuzzJSON(f *testing.F) {
	f.Add([]byte(`{"a": [1, -0.50, "x\u2028", true, null, {"b": "2"}]}`))
	f.Fuzz(func(t *testing.T, data []byte) {
		doc, err := strict.ParseJSON(data)
		if err != nil || doc.Err() != nil {
			return
		}
		out := doc.Top().JSON()
		if !json.Valid(out) {
			t.Fatalf("%q is written as %q", data, out)
		}
		again, err := strict.ParseJSON(out)
		if err != nil {
			t.Fatalf("%q: %v", out, err)
		}
		if second := again.Top().JSON(); string(second) != string(out) {
			t.Errorf("%q is written as %q and then %q", data, out, second)
		}
	})
}
