package class

import (
	"context"
	"fmt"
	"math"
	"os"
	"reflect"
	"runtime/debug"
	"slices"
	"strings"
	"testing"

	"hubrule/internal/geom"
	"hubrule/internal/slice"
	"hubrule/internal/testsheet"
	"hubrule/layout"
	"hubrule/render"
	"hubrule/render/counting"
	"hubrule/render/draft"
	"hubrule/render/request"
	"hubrule/segments"
)

// TestMain lets the heap grow further between collections: every page is garbage soon after it is checked.
func TestMain(m *testing.M) {
	if os.Getenv("GOGC") == "" {
		debug.SetGCPercent(400)
	}
	os.Exit(m.Run())
}

// classOf is a class of so many students with one page.
func classOf(t testing.TB, students int, vary float64, segment string, kinds ...request.Kind) Class {
	s := testsheet.Setting(t, "A3")
	s.Given = request.GivenMost
	var all []Student
	for i := range students {
		all = append(all, Student{Number: i + 1})
	}
	return Class{
		Title: "Proportions, week 3", Date: "2026-11-25", Students: all, Vary: vary, Seed: 7,
		Pages: []Page{{Request: request.Request{Plans: []layout.Plan{testsheet.Plan(t, segment)}, Kinds: kinds, Setting: s}, Copies: 1}},
	}
}

func settled(t testing.TB, c Class) (Set, []string) {
	t.Helper()
	set, remarks, err := c.Settle(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	return set, slice.Map(remarks, Remark.String)
}

// flat returns a page with what it shares among its own marks.
func flattened(p render.Page) render.Page {
	if p.Base != nil {
		p.Marks = slices.Concat(p.Base.Marks, p.Marks)
		p.Guides = draft.GuidesOf(p.Marks)
	}
	return p
}

// handouts draws every handout.
func handouts(t testing.TB, set Set) []Handout {
	t.Helper()
	var out []Handout
	for student := range set.Students {
		for page := range set.Pages {
			h, err := set.Handout(student, page)
			if err != nil {
				t.Fatal(err)
			}
			out = append(out, h)
		}
	}
	return out
}

// TestStudentsDiffer: any two students who are not named differ by half the variation in some figure, and every plan stays inside its
// ranges.
func TestStudentsDiffer(t *testing.T) {
	t.Parallel()
	for _, vary := range []float64{.1, .6, 1} {
		for _, name := range []string{"suv", "pickup", "convertible"} {
			set, messages := settled(t, classOf(t, 60, vary, name, request.Trace))
			var plans []layout.Plan
			for student := range set.Students {
				plans = append(plans, set.varied[0].plan(student))
			}
			for i, p := range plans {
				for f := segments.WheelsBetween; f <= segments.Tumblehome; f++ {
					if r := p.Profile.Figures[f].Range; p.Profile.Form.Has(f) && (p.Value(f) < r.Lo-1e-5 || p.Value(f) > r.Hi+1e-5) {
						t.Errorf("%s, vary %v: %v = %v of student %d is outside %v", name, vary, f, p.Value(f), i+1, r)
					}
				}
				for k, q := range plans[:i] {
					named := fmt.Sprintf("%s: student %d and student %d look alike: ", name, k+1, i+1)
					isNamed := slices.ContainsFunc(messages, func(m string) bool { return strings.HasPrefix(m, named) })
					if apart := difference(p, q); isNamed != (apart < vary/2) {
						t.Errorf("%s, vary %v: students %d and %d differ by %.4f half-ranges", name, vary, k+1, i+1, apart)
					}
				}
			}
		}
	}
}

// difference returns by how many half-ranges two plans of one brief differ in the figure that differs most, among those that a side
// view shows.
func difference(p, q layout.Plan) float64 {
	most := 0.
	for f := range segments.FigureCount {
		if p.InSideView(f) {
			most = math.Max(most, math.Abs(p.Value(f)-q.Value(f))/p.Profile.Figures[f].Range.HalfWidth())
		}
	}
	return most
}

// TestPairsWhoLookAlike: where nearly everything is pinned, the pairs that look alike are named.
func TestPairsWhoLookAlike(t *testing.T) {
	t.Parallel()
	p, err := segments.Find("suv")
	if err != nil {
		t.Fatal(err)
	}
	b := segments.Brief{Profile: p}
	for f := segments.WheelsBetween; f <= segments.Tumblehome; f++ {
		if f == segments.LampDepth || !p.Form.Has(f) {
			continue
		}
		unit := "w"
		if u := f.Info().Unit; u != segments.InWheels {
			unit = ""
		}
		pin, err := segments.ParsePin(f, fmt.Sprintf("%.6f%s", p.Figures[f].Value, unit))
		if err != nil {
			t.Fatal(err)
		}
		b.Pins = append(b.Pins, pin)
	}
	only, err := layout.Solve(b)
	if err != nil {
		t.Fatal(err)
	}
	c := classOf(t, 12, .6, "suv", request.Trace)
	c.Pages[0].Request.Plans[0] = only
	_, messages := settled(t, c)
	const first = "suv: student 1 and student 3 look alike: no figure differs by more than "
	if len(messages) != maxPairs+1 || !strings.HasPrefix(messages[0], first) ||
		!strings.Contains(messages[0], " half-ranges (0.3 were wanted); another seed: helps") ||
		messages[maxPairs] != "suv: 17 more pairs look alike" {
		t.Errorf("messages %q", messages)
	}
}

// TestCureOfAPair: the set that a message names as the cure of a pair is one.
func TestCureOfAPair(t *testing.T) {
	t.Parallel()
	c := classOf(t, 0, .6, "suv", request.Trace)
	c.Students = []Student{{Name: "Ada", Number: 1}, {Name: "Bo", Number: 2}, {Name: "Cy", Number: 3}}
	v := c.variations()[0]
	if err := c.drawAll(v); err != nil {
		t.Fatal(err)
	}
	v.values[2] = v.values[0] // as good as never happens by itself
	remarks, err := c.alike(context.Background(), v)
	want := "suv: Ada and Cy look alike: no figure differs by more than 0.00 half-ranges (0.3 were wanted); set: 1 gives Cy another draw"
	if err != nil || !slices.Equal(remarks, []Remark{{Text: want, Student: 3, Set: "1"}}) {
		t.Fatalf("remarks %+v, %v; want %q", remarks, err, want)
	}
	c.Students[2].Set = "1"
	set, messages := settled(t, c)
	if len(messages) > 0 || fmt.Sprint(set.varied[0].values[:2]) != fmt.Sprint(v.values[:2]) {
		t.Errorf("messages %q, or a set changes others", messages)
	}
}

// TestSameSeedSameSet: the same class gives the same figures, another seed others.
func TestSameSeedSameSet(t *testing.T) {
	t.Parallel()
	first := func(students int, seed uint64) string {
		c := classOf(t, students, .6, "suv", request.Trace)
		c.Seed = seed
		set, _ := settled(t, c)
		return fmt.Sprint(set.varied[0].plan(3).Values())
	}
	once, again, more := first(5, 7), first(5, 7), first(9, 7)
	if again != once || more != once {
		t.Error("the same seed gives different figures")
	}
	if first(5, 8) == once {
		t.Error("another seed gives the same figures")
	}
}

// TestWheelIsNobodysInParticular: on all papers the wheel stays whoever is in the class; over all segments nearly all fit at it.
func TestWheelIsNobodysInParticular(t *testing.T) {
	t.Parallel()
	for i, name := range segments.Names() {
		c := classOf(t, 6, 1, name, request.Full, request.Practice)
		c.Pages[0].Request.Setting.Paper = papers()[i%len(papers())]
		c.Students[4].Facing = request.Right
		set, _ := settled(t, c)
		if one := c; i < len(papers()) { // once on each paper
			one.Students = c.Students[4:5]
			if alone, _ := settled(t, one); alone.wheel != set.wheel {
				t.Errorf("%s: a wheel of %v for one student alone, %v for all", name, alone.wheel, set.wheel)
			}
		}
		smaller := 0
		for _, h := range handouts(t, set) {
			if h.Note != "" {
				smaller++
			}
		}
		if smaller > 1 {
			t.Errorf("%s: %d of 6 students need a smaller wheel", name, smaller)
		}
	}
}

// TestOneNeedsRoom: where the words of one student need a smaller wheel, nobody else's change.
func TestOneNeedsRoom(t *testing.T) {
	t.Parallel()
	c := classOf(t, 3, .6, "suv", request.Full)
	set, _ := settled(t, c)
	page := func(student int) string {
		h, err := set.Handout(student, 0)
		if err != nil {
			t.Fatal(err)
		}
		return h.Note + string(testsheet.SvgOf(t, h.Sheets[0]))
	}
	before := page(1)
	// A vehicle far longer than its ranges allow.
	set.varied[0].values[0][segments.RearOverhang] += 1
	if got, want := page(0), "pages[1]: the words of student 1 need more room: a wheel of "; !strings.HasPrefix(got, want) {
		t.Errorf("no note %q: %.100q", want, got)
	}
	if page(1) != before {
		t.Error("another student's sheet changed")
	}
}

// TestScaleThatFitsEveryone: where one student's vehicle is too large for the scale asked for, the error names the student, and a scale at
// which all students' sheets fit.
func TestScaleThatFitsEveryone(t *testing.T) {
	t.Parallel()
	c := classOf(t, 3, .6, "suv", request.Full)
	scale := &c.Pages[0].Request.Setting.Scale
	scale.Wheel = 46
	set, _ := settled(t, c)
	set.varied[0].values[0][segments.RearOverhang] += 1
	set.varied[0].values[2][segments.RearOverhang] += 2
	_, err := set.Handout(0, 0)
	var fits float64
	const want = "pages[1]: suv does not fit on A3 with a wheel of 46 mm, for student 1; scale: wheel=%fmm "
	if _, scanned := fmt.Sscanf(fmt.Sprint(err), want, &fits); scanned != nil {
		t.Fatalf("%v; want %s", err, want)
	}
	scale.Wheel = geom.MM(fits)
	handouts(t, set)
	scale.Wheel += 2
	if _, err := set.Handout(2, 0); err == nil {
		t.Errorf("wheel=%vmm fits, and so does %v", fits, scale.Wheel)
	}
}

// TestAnswersAreThoseOfTheSheets takes figures from a student's practice and trace sheets, as SVG, by a reader that shares no code with
// the writer, and finds them on the same student's answer sheet and on nobody's sheets.
func TestAnswersAreThoseOfTheSheets(t *testing.T) {
	t.Parallel()
	set, _ := settled(t, classOf(t, 6, .6, "suv", request.Trace, request.Practice))
	for student, h := range handouts(t, set) {
		answers := strings.Join(testsheet.WordsOn(testsheet.ReadSVG(t, testsheet.SvgOf(t, h.Answers[0]))), "\n")
		for i, page := range h.Sheets {
			f := testsheet.ReadSVG(t, testsheet.SvgOf(t, page))
			read := readFigures(t, f)
			for name, v := range read {
				if !strings.Contains(answers, fmt.Sprintf("%.2f", v)) && !strings.Contains(answers, fmt.Sprintf("\n%.0f\n", v)) {
					t.Errorf("student %d, sheet %d: %s reads as %.4f; the answers have no such figure:\n%s", student+1, i+1, name, v, answers)
				}
			}
			words := testsheet.WordsOn(f)
			for _, b := range (&counting.Drawing{Plan: set.varied[0].plan(student), Units: request.Wheels}).Blanks(func(request.Guide) bool { return false }) {
				if strings.Contains(b.Value, ".") && slices.Contains(words, b.Value) {
					t.Errorf("student %d, sheet %d says the answer %s to %q", student+1, i+1, b.Value, b.Name)
				}
			}
		}
	}
}

// readFigures measures what blanks ask for, in wheels.
func readFigures(t testing.TB, f testsheet.SVG) map[string]float64 {
	t.Helper()
	get := func(id, attribute string) float64 { return f.Shapes[id].Num(t, attribute) }
	wheel := 2 * get("wheel-front", "r")
	up := func(id string) float64 { return (get("ground", "y1") - get(id, "y1")) / wheel }
	front, rear := get("wheel-front", "cx"), get("wheel-rear", "cx")
	var arch float64
	for _, step := range testsheet.PathSteps(t, f.Shapes["arch-front"].At["d"]) {
		if step.Verb == 'A' {
			arch = step.Numbers[0]
		}
	}
	return map[string]float64{
		"wheels between": math.Round((rear-front-wheel)/wheel*100) / 100,
		"roof":           up("roof"), "sill": up("sill"),
		"wheelbase":      (rear - front) / wheel,
		"front overhang": (front - wheel/2 - get("nose", "x1")) / wheel,
		"rear overhang":  (get("tail", "x1") - rear - wheel/2) / wheel,
		"arch gap":       arch/wheel - .5,
	}
}

// TestClassSheetsAreInOrder: nothing overlaps on any sheet of a class, with and without names, on every paper, nor on
// the key.
func TestClassSheetsAreInOrder(t *testing.T) {
	t.Parallel()
	for i, paper := range papers() {
		for _, frame := range []bool{i%2 == 1} {
			c := classOf(t, 3, .6, "suv", request.AllKinds()...)
			job := &c.Pages[0].Request
			job.Setting.Paper, job.Setting.Frame = paper, frame
			job.Kinds = []request.Kind{request.Full, request.Trace, request.Steps, request.Practice, request.Spread, request.Thumbnails}
			c.Students[1] = Student{Name: strings.Repeat("Wilhelmina van der Velde-Óskarsdóttir ", 7), Facing: request.Right}
			c.Students[2] = Student{Name: "Ada <b>&amp;</b>"}
			c.Absent = []string{"Bo Ilves", c.Students[1].Name}
			set, _ := settled(t, c)
			pages := set.KeyFront()
			named := false
			for _, w := range testsheet.WrittenOn(flattened(pages[0])) {
				named = named || strings.HasPrefix(w.Text, "Bo Ilves, Wilhelmina")
			}
			if !named {
				t.Errorf("%s: the cover of the key does not name who is absent", paper.Name)
			}
			for _, h := range handouts(t, set) {
				pages = append(append(pages, h.Sheets...), h.Answers...)
			}
			for _, p := range pages {
				if err := flattened(p).Check(); err != nil {
					t.Error(err)
				}
				for _, fault := range testsheet.Faults(flattened(p)) {
					t.Errorf("%s, frame %v, %s: %s", paper.Name, frame, p.Title, fault)
				}
			}
		}
	}
}

// TestWhatAllShare: without variation all students have one drawing, and one answer does for all who face one way.
func TestWhatAllShare(t *testing.T) {
	t.Parallel()
	c := classOf(t, 4, 0, "suv", request.Steps, request.Practice)
	c.Students[2].Facing = request.Right
	set, messages := settled(t, c)
	if len(messages) != 1 || !strings.Contains(messages[0], "pages[1]: the steps sheet shows the figures that the practice sheet asks for") {
		t.Errorf("messages %q", messages)
	}
	all := handouts(t, set)
	if all[0].Sheets[1].Base != all[1].Sheets[1].Base || all[0].Sheets[1].Base == all[2].Sheets[1].Base {
		t.Error("students who face one way do not share a drawing, or those who face two ways do")
	}
	if n := len(set.SharedAnswers()); n != 2 {
		t.Errorf("%d answers, want one for each way to face", n)
	}
}

// papers lists the named papers that hold every kind of sheet.
func papers() []request.Paper {
	return slices.DeleteFunc(request.Papers(), func(p request.Paper) bool { return p.Name == "A5" })
}

// TestOneStudentAlone: what is drawn for one student, with the wheel that is known, is what everybody is drawn for.
func TestOneStudentAlone(t *testing.T) {
	t.Parallel()
	c := classOf(t, 9, .6, "suv", request.Steps, request.Practice)
	c.Students[4].Facing = request.Right
	whole, _ := settled(t, c)
	for _, wheel := range []geom.MM{0, whole.SettledWheel()} {
		c.Wheel = wheel
		one, err := c.SettleFor(4, 0)
		if err != nil {
			t.Fatal(err)
		}
		want, _ := whole.Handout(4, 0)
		if got, err := one.Handout(4, 0); err != nil || !reflect.DeepEqual(got, want) {
			t.Errorf("with a wheel of %v another handout: %v", wheel, err)
		}
	}
}
