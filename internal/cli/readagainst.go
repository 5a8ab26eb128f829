package cli

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"golang.org/x/text/unicode/norm"

	"hubrule/internal/job"
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
	plans []layout.Plan // one of each reading
	exact bool
	name  string
}

// standard finds what --against names.
func (f *readFlags) standard(readings []reading.Reading) (standard, error) {
	switch {
	case f.against == "":
		return standard{}, nil
	case job.IsClass(f.against):
		return classStandard(f.against, readings)
	}
	plan, name, exact, err := job.FindStandard(f.against)
	var clash *layout.Clash
	if errors.As(err, &clash) {
		return standard{}, clashError(clash)
	}
	if err != nil {
		return standard{}, err
	}
	return standard{slice.Map(readings, func(reading.Reading) layout.Plan { return plan }), exact, name}, nil
}

// classStandard holds each student's work against the figures that the class gave that student: those of the page that it lies nearest to.
func classStandard(path string, readings []reading.Reading) (standard, error) {
	group, err := loadClass(path, nil)
	if err != nil {
		return standard{}, err
	}
	out := standard{exact: true, name: segments.Stem(path)}
	var wrong []error
	for _, r := range readings {
		student, err := studentOf(r, group.students, path)
		if wrong = append(wrong, err); err == nil {
			out.plans = append(out.plans, nearestPage(r, group.Class, student))
		}
	}
	return out, errors.Join(wrong...)
}

// studentOf finds whose work a reading is.
func studentOf(r reading.Reading, students []segments.Student, path string) (class.Student, error) {
	key := func(name string) string { return strings.ToLower(norm.NFC.String(name)) }
	var names []string
	for _, s := range students {
		if s.Name != "" && key(s.Name) == key(r.Student) {
			return class.Student{Name: s.Name, Number: s.Number, Set: s.Set, Facing: request.Facing(s.Facing)}, nil
		}
		names = append(names, s.Name)
	}
	if r.Student == "" {
		return class.Student{}, fmt.Errorf("%s: names no student; want student: and a name of %s", r.File(), path)
	}
	return class.Student{}, fmt.Errorf("%s: %s", r.File(), strict.Unknown("student of "+path, r.Student, names))
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
