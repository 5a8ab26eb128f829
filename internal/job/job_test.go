package job

import (
	"strings"
	"testing"

	"hubrule/layout"
	"hubrule/render/request"
	"hubrule/segments"
	"hubrule/segments/strict"
)

// Words are cut nowhere, and control characters are refused.
func TestOneLineCutsNothing(t *testing.T) {
	long := strings.Repeat("語", 300)
	if got, err := oneLine("  " + long + "\n"); got != long || err != nil {
		t.Errorf("oneLine: %q, %v", got, err)
	}
	for _, wrong := range []string{"a\nb", "a\u2028b", "\x00"} {
		if _, err := oneLine("x" + wrong + "x"); err == nil || !strings.HasPrefix(err.Error(), "a control character, ") {
			t.Errorf("oneLine(%q): %v", wrong, err)
		}
	}
}

// Requests are refused for what their sheets cannot show, in exact words.
func TestCheck(t *testing.T) {
	profile, err := segments.Find("suv")
	if err != nil {
		t.Fatal(err)
	}
	many := make([]layout.Plan, 25)
	for i := range many {
		many[i] = layout.Typical(profile)
	}
	for _, c := range []struct {
		job  request.Request
		want string
	}{
		{request.Request{Plans: many[:1], Kinds: []request.Kind{request.Overlay}}, "an overlay wants something to compare with: a second segment, --against, or a tweak or pin"},
		{request.Request{Plans: many[:5], Kinds: []request.Kind{request.Overlay}}, "an overlay holds at most 4 vehicles; found 5"},
		{request.Request{Plans: many[:1], Against: many[:1], Kinds: []request.Kind{request.Full}}, "--against goes with --sheet overlay"},
		{request.Request{Plans: many[:7], Kinds: []request.Kind{request.Spread}}, "a spread holds at most 6 vehicles; found 7"},
		{request.Request{Plans: many[:1], Kinds: []request.Kind{request.Full}, Count: 3}, "--count goes with --sheet thumbnails"},
		{request.Request{Plans: many[:1], Kinds: []request.Kind{request.Thumbnails}, Count: 25}, "--count: 25; want 2 to 24"},
		{request.Request{Plans: many[:1], Kinds: []request.Kind{request.Thumbnails}, Count: 1}, "--count: 1; want 2 to 24"},
		{request.Request{Plans: many[:3], Kinds: []request.Kind{request.Thumbnails}, Count: 2}, "--count: 2; want at least one for each of the 3 segments"},
		{request.Request{Plans: many, Kinds: []request.Kind{request.Thumbnails}}, "thumbnails hold at most 24 segments; found 25"},
	} {
		if err := Check(c.job); err == nil || err.Error() != c.want {
			t.Errorf("%v, %d plans: %v; want %s", c.job.Kinds, len(c.job.Plans), err, c.want)
		}
	}
}

// A row says all that the others say, names are unique, and what a setting is by default is not written.
func TestTable(t *testing.T) {
	j := Default()
	seen := map[string]bool{}
	for _, s := range Settings() {
		if seen[s.Name] || seen[s.Key] {
			t.Errorf("two settings are called %s", s.Name)
		}
		seen[s.Name], seen[s.Key] = true, true
		if s.Help == "" || s.parse == nil || s.write == nil {
			t.Errorf("%s lacks help, parse or write", s.Name)
		}
		if !s.Bool && strings.Count(s.Help, "`") != 2 {
			t.Errorf("the help of %s names no value: %s", s.Name, s.Help)
		}
		if s.changes(j) && !s.always {
			t.Errorf("%s is written though nothing sets it", s.Name)
		}
		if s.Default != "" && s.Bool {
			t.Errorf("%s is a flag with a default", s.Name)
		}
	}
}

// Every number has bounds, which are reported in one form.
func TestBoundsOfNumbers(t *testing.T) {
	bounded := 0
	for _, s := range Settings() {
		for _, b := range s.Bounds {
			bounded++
			for _, tt := range []struct {
				x  float64
				ok bool
			}{{b.Lo, true}, {b.Hi, true}, {b.Lo - 1, false}, {b.Hi + 1, false}, {-b.Hi * 1e9, false}, {b.Hi * 1e9, false}} {
				var j Job
				word := strict.FormatNumber(tt.x) + b.Unit
				err := s.parse(&j, []string{word})
				if tt.ok != (err == nil) || err != nil && (!strings.HasPrefix(err.Error(), word+"; want ") || !strings.Contains(err.Error(), b.String())) {
					t.Errorf("--%s %s: %v; want %s", s.Name, word, err, b)
				}
			}
		}
	}
	if bounded < 10 {
		t.Errorf("%d bounds", bounded)
	}
}
