package desk

import (
	"encoding/json"
	"testing"

	"hubrule/internal/job"
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

// FuzzClass: whatever a class holds, it is read or refused; one that is read is written in a form that is read as the same, as JSON and as a
// file.
func FuzzClass(f *testing.F) {
	d, err := Open("suv", nil)
	if err != nil {
		f.Fatal(err)
	}
	for _, class := range []string{
		`{"title": "W", "date": "2026-11-25", "students": ["Ada", {"name": "Bo", "facing": "right", "set": "+7", "absent": true}], "pages": [{"segment": "suv", "sheets": ["steps", "practice"]}], "vary": "0.60"}`,
		`{"students": 3, "pages": [{"segment": "van", "tweak": {"sporty": "1"}, "pin": {"length": "4.70m", "pillar-rake": 31.50}, "sheets": "trace", "copies": "2"}], "order": "page", "paper": "A4", "portrait": true}`,
		`{"students": ["007", "true", "~", "a: b", "- x", "'", "#", "é", "x "], "pages": [{"segment": "suv", "sheets": ["full"], "title": "1:2", "scale": "1:20"}], "seed": 9007199254740992}`,
		`{"students": "names.csv", "pages": []}`, `[]`,
	} {
		f.Add([]byte(class))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		doc, err := strict.ParseJSON(data)
		if err != nil || !doc.Is("class", "") {
			return
		}
		file, _, err := d.parseClass(doc)
		if err != nil {
			if len(problemsOf(err)) == 0 {
				t.Error("refused without a reason")
			}
			return
		}
		text, first := job.WrittenClass(file), job.ClassJSON(file)
		opened, err := d.openedClass(text)
		if err != nil {
			t.Fatalf("%s is saved as\n%s\nwhich is refused: %v", data, text, err)
		}
		if again := opened.(map[string]json.RawMessage)["class"]; string(again) != string(first) {
			t.Errorf("%s\nis written as\n%s\nand opened as\n%s", data, first, again)
		}
		sent, err := strict.ParseJSON(first)
		if err != nil {
			t.Fatal(err)
		}
		again, _, err := d.parseClass(sent)
		if err != nil {
			t.Fatalf("%s is written as %s, which is refused: %v", data, first, err)
		}
		if second := job.WrittenClass(again); second != text {
			t.Errorf("%s\nis saved as\n%s\nand then\n%s", data, text, second)
		}
	})
}
