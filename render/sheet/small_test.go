package sheet

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"testing"

	"hubrule/internal/testsheet"
	"hubrule/layout"
	"hubrule/render/request"
)

// What a note promises is so: each cure alone gives the wheel that it names, and that is noticeably larger.
func TestSmallWheelNote(t *testing.T) {
	t.Parallel()
	full, trace, practice := request.Full, request.Trace, request.Practice
	promise := regexp.MustCompile(`--(\S+)(?: (\S+))?(?: alone)? gives (\d+) mm`)
	seen := map[string]int{}
	eachOf := [][]request.Kind{{full, trace}, {trace}, {full, practice, trace}, {practice, request.Answer}}
	for i, p := range []layout.Plan{testsheet.Plan(t, "suv"), testsheet.Plan(t, "van"), testsheet.Plan(t, "city"), testsheet.Plan(t, "sports")} {
		for k, kinds := range eachOf {
			paper := testsheet.Paper(t, []string{"A4", "letter", "A5"}[(i+k)%3])
			if i == 2 && k < 2 {
				paper = testsheet.Paper(t, "letter").Portrait()
			}
			r := request.Request{Plans: []layout.Plan{p}, Kinds: kinds, Setting: on(paper)}
			doc, messages, err := Compose(r)
			if err != nil {
				continue // A5 does not hold every kind
			}
			said := strings.Join(messages.Notes, "\n")
			if want := fmt.Sprintf("the wheel is %g mm", float64(doc.Pages[0].Wheel)); said != "" && !strings.HasPrefix(said, want) {
				t.Errorf("%v on %s: %s; want %s", kinds, paper.Name, said, want)
			}
			for _, m := range promise.FindAllStringSubmatch(said, -1) {
				cured := r
				switch m[1] {
				case "sheet":
					cured.Kinds = []request.Kind{request.Kind(m[2])}
				case "landscape":
					cured.Setting.Paper = paper.Landscape()
				case "paper":
					cured.Setting.Paper = testsheet.Paper(t, m[2])
					if paper.Height > paper.Width {
						cured.Setting.Paper = cured.Setting.Paper.Portrait()
					}
				}
				doc, _, err := Compose(cured)
				if err != nil || fmt.Sprint(float64(doc.Pages[0].Wheel)) != m[3] {
					t.Errorf("%v on %s: %s: %v, %v", kinds, paper.Name, m[0], doc.Pages[0].Wheel, err)
				}
				seen[m[1]]++
			}
		}
	}
	if seen["sheet"] < 2 || seen["landscape"] < 1 || seen["paper"] < 4 {
		t.Errorf("only %v promised", seen)
	}
}

// Nothing is said where nothing helps noticeably, on larger paper, of one full sheet, or where the scale was chosen.
func TestNoSmallWheelNote(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		segment, paper string
		kinds          []request.Kind
		wheel          int
	}{
		{"suv", "A3", []request.Kind{request.Full, request.Trace}, 0}, {"suv", "A4", []request.Kind{request.Full}, 0},
		{"suv", "A4", []request.Kind{request.Trace}, 0}, {"suv", "A4", []request.Kind{request.Full, request.Trace}, 20},
	} {
		s := testsheet.Setting(t, c.paper)
		if c.wheel > 0 {
			s.Scale = request.Scale{Wheel: 20}
		}
		_, messages, err := Compose(request.Request{Plans: []layout.Plan{testsheet.Plan(t, c.segment)}, Kinds: c.kinds, Setting: s})
		if err != nil || !slices.Equal(messages.Notes, nil) {
			t.Errorf("%v: %v, %q", c, err, messages.Notes)
		}
	}
}
