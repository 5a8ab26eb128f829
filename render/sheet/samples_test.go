package sheet

import (
	"hubrule/internal/testsheet"
	"hubrule/render/request"
	"os"
	"runtime/debug"
	"slices"
	"testing"

	"hubrule/layout"
	"hubrule/segments"
)

// TestMain lets the heap grow further between collections: every page is garbage soon after it is checked.
func TestMain(m *testing.M) {
	if os.Getenv("GOGC") == "" {
		debug.SetGCPercent(400)
	}
	os.Exit(m.Run())
}

// everySetting reports whether whole sheets are tried in every setting (make views). Otherwise the settings take turns: each segment
// and each paper meets each setting, but not every segment on every paper in every setting.
func everySetting() bool { return os.Getenv("HUBRULE_ALL_VIEWS") != "" }

// eachSegment runs a parallel subtest for every segment, with its number and its typical plan.
func eachSegment(t *testing.T, check func(t *testing.T, i int, p layout.Plan)) {
	t.Helper()
	for i, name := range segments.Names() {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			check(t, i, testsheet.Plan(t, name))
		})
	}
}

// onTurn returns the item whose turn it is, or all of them under everySetting.
func onTurn[T any](turn int, all []T) []T {
	if everySetting() {
		return all
	}
	return all[turn%len(all):][:1]
}

// settingsOnTurn returns the settings of a paper to try: one of them on each turn, facing left and right by turns, or under
// everySetting all of them, facing both ways.
func settingsOnTurn(turn int, p request.Paper) []request.Setting {
	all := settings(on(p))
	if !everySetting() {
		s := all[turn%len(all)]
		s.Facing = facingOnTurn(turn + turn/len(all))
		return []request.Setting{s}
	}
	for _, s := range all {
		s.Facing = request.Right
		all = append(all, s)
	}
	return all
}

func facingOnTurn(turn int) request.Facing {
	return []request.Facing{request.Left, request.Right}[turn%2]
}

func unitsOnTurn(turn int) request.Units {
	return []request.Units{request.Wheels, request.Millimetres, request.Inches}[turn%3]
}

// papers lists the named papers that hold every kind of sheet; what A5 holds is tested apart.
func papers() []request.Paper {
	return slices.DeleteFunc(request.Papers(), func(p request.Paper) bool { return p.Name == "A5" })
}

// on is the usual setting on a paper.
func on(p request.Paper) request.Setting {
	return request.Setting{Paper: p, Facing: request.Left, Labels: request.FullLabels, Units: request.Wheels}
}

// settings varies label style, units, orientation and frame.
func settings(s request.Setting) []request.Setting {
	var out []request.Setting
	for _, s.Labels = range []request.Labels{request.NoLabels, request.ShortLabels, request.FullLabels} {
		for _, s.Units = range []request.Units{request.Wheels, request.Millimetres, request.Inches} {
			out = append(out, s)
		}
	}
	s.Frame, s.Labels, s.Units = true, request.FullLabels, request.Wheels
	out = append(out, s)
	s.Frame, s.Paper = false, s.Paper.Portrait()
	out = append(out, s)
	s.Frame = true
	return append(out, s)
}
