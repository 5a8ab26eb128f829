package job

import (
	"errors"

	"hubrule/layout"
	"hubrule/segments"
)

// Standard returns what a student's work is held against: a plan, and whether its own figures are wanted or the ranges of its segment.
type Standard func(student string) (plan layout.Plan, exact bool, err error)

// FindStandard finds the vehicle to hold readings against, and what it is called: the ranges of a segment or profile count, and the
// figures of a brief or of a segment with tweaks and pins.
func FindStandard(word string) (Standard, string, error) {
	var j Job
	b, err := vehicleAgainst(&j, word)
	var wrong wordError
	if errors.As(err, &wrong) {
		return nil, "", UsageError("--against " + err.Error())
	}
	if err != nil {
		return nil, "", err
	}
	plan, err := layout.Solve(b)
	if err != nil {
		return nil, "", err
	}
	exact := len(b.Tweaks)+len(b.Pins) > 0
	return func(string) (layout.Plan, bool, error) { return plan, exact, nil }, segments.Stem(word), nil
}
