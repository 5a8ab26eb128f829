package cli

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"golang.org/x/text/unicode/norm"

	"hubrule/internal/draw"
	"hubrule/internal/handout"
	"hubrule/internal/job"
	"hubrule/internal/report"
	"hubrule/internal/slice"
	"hubrule/layout"
	"hubrule/render/class"
	"hubrule/render/request"
	"hubrule/segments"
	"hubrule/segments/reading"
	"hubrule/segments/strict"
)

// standard is what readings are held against: of each the plan, and whether its own figures are wanted or its segment's ranges. The
// zero standard holds nothing.
type standard struct {
	readings []reading.Reading // in the order of a class
	plans    []layout.Plan     // one of each reading
	exact    bool
	name     string
	date     string // of a class; may be empty
	notes    []string
}

// standard finds what --against names.
func (f *readFlags) standard(readings []reading.Reading) (standard, error) {
	switch {
	case f.against == "":
		return standard{readings: readings}, nil
	case job.IsClass(f.against):
		return f.classStandard(readings)
	}
	plan, name, exact, err := job.FindStandard(nil, f.against)
	var clash *layout.Clash
	if errors.As(err, &clash) {
		return standard{}, report.ClashError{Clash: clash}
	}
	if err != nil {
		return standard{}, err
	}
	f.inputs = append(f.inputs, draw.FilesOf(request.Request{Plans: []layout.Plan{plan}}, f.against)...)
	plans := slice.Map(readings, func(reading.Reading) layout.Plan { return plan })
	return standard{readings: readings, plans: plans, exact: exact, name: name}, nil
}

// classStandard holds each student's work against the figures that the class gave that student: those of the page that it lies nearest to.
// The readings come in the order of the class; notes name who handed in nothing, or more than once.
func (f *readFlags) classStandard(readings []reading.Reading) (standard, error) {
	group, err := handout.Load(f.against, nil)
	if err != nil {
		return standard{}, err
	}
	f.inputs = append(f.inputs, group.Inputs...)
	works := make([][]reading.Reading, len(group.Enrolled))
	var wrong []error
	for _, r := range readings {
		if i, err := studentOf(r, group.Enrolled, f.against); err != nil {
			wrong = append(wrong, err)
		} else {
			works[i] = append(works[i], r)
		}
	}
	out := standard{exact: true, name: cmp.Or(group.Title, segments.Stem(f.against)), date: group.Date}
	for i, s := range group.Enrolled {
		if n := len(works[i]); n > 1 {
			out.notes = append(out.notes, fmt.Sprintf("%d sketches of %s", n, s.Name))
		} else if n == 0 && len(readings) > 1 {
			out.notes = append(out.notes, "no sketch of "+cmp.Or(s.Name, fmt.Sprintf("student %d", s.Number)))
		}
		for _, r := range works[i] {
			out.readings, out.plans = append(out.readings, r), append(out.plans, nearestPage(r, group.Class, handout.Student(s)))
		}
	}
	return out, errors.Join(wrong...)
}

// studentOf finds whose work a reading is.
func studentOf(r reading.Reading, students []segments.Student, path string) (int, error) {
	key := func(name string) string {
		return strings.ToLower(strings.Join(strings.Fields(norm.NFC.String(name)), " "))
	}
	names := slice.Map(students, func(s segments.Student) string { return s.Name })
	i := slices.IndexFunc(students, func(s segments.Student) bool { return s.Name != "" && key(s.Name) == key(r.Student) })
	switch {
	case i >= 0:
		return i, nil
	case r.Student == "":
		return 0, fmt.Errorf("%s: names no student; want student: and a name of %s", r.StudentPlace(), path)
	}
	return 0, fmt.Errorf("%s: %s", r.StudentPlace(), strict.Unknown("student of "+path, r.Student, names))
}

// nearestPage returns the student's vehicle of the page that a reading lies nearest to.
func nearestPage(r reading.Reading, c class.Class, s class.Student) layout.Plan {
	best, least := layout.Plan{}, math.Inf(1)
	for i := range c.Pages {
		plan := c.PlanOf(s, i)
		sum, n := 0., 0
		for _, d := range r.AgainstPlan(plan) {
			if f := d.Figure.Info(); f.Role == segments.Declared && f.Unit != segments.InDegrees {
				sum, n = sum+d.Beyond*d.Beyond, n+1
			}
		}
		if off := sum / float64(max(n, 1)); off < least {
			best, least = plan, off
		}
	}
	return best
}

// differences returns how reading i lies to what it is held against.
func (s standard) differences(i int, r reading.Reading) []reading.Difference {
	switch {
	case s.plans == nil:
		return nil
	case s.exact:
		return r.AgainstPlan(s.plans[i])
	}
	return r.AgainstRange(s.plans[i])
}
