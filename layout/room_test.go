package layout

import (
	"errors"
	"math"
	"math/rand/v2"
	"slices"
	"strconv"
	"testing"

	"hubrule/segments"
)

func BenchmarkRoom(b *testing.B) {
	brief := brief(b, "suv", "height", "2.2w", "length", "4600mm", "pillar-rake", "30")
	for b.Loop() {
		if _, err := RoomOf(brief, segments.Belt); err != nil {
			b.Fatal(err)
		}
	}
}

func TestRoomOf(t *testing.T) {
	for _, tc := range []struct {
		pins   []string
		figure segments.Figure
		want   Room
	}{
		// Three last digits are left, .005 each, about .55 + 1 + 3 + 1 + .7 (CALC).
		{[]string{"front-overhang", "0.55w", "rear-overhang", "0.7w", "wheels-between", "3"}, segments.Length,
			Room{6.236, 6.264, "held by the pinned wheels between, front overhang and rear overhang", "held by the pinned wheels between, front overhang and rear overhang"}},
		{nil, segments.Rim, Room{.3, .95, "no vehicle goes further", "no vehicle goes further"}},
		// The clearance is pushed out of its range, 0.24 to 0.3, where the sill comes below it.
		{nil, segments.Sill, Room{.251, 1.85, "clearance not above the sill", "greenhouse 0.1w more than header-drop"}},
		// Its own pin does not stand in its way.
		{[]string{"sill", "0.4w"}, segments.Sill, Room{.251, 1.85, "clearance not above the sill", "greenhouse 0.1w more than header-drop"}},
		// All of a sum but one are pinned: only the last digits of three pins are left, .005 each (CALC).
		{[]string{"length", "6.3w", "front-overhang", "0.55w", "wheels-between", "3"}, segments.RearOverhang,
			Room{.736, .764, "held by the pinned wheels between, front overhang and length", "held by the pinned wheels between, front overhang and length"}},
	} {
		got, err := RoomOf(brief(t, "suv", tc.pins...), tc.figure)
		if err != nil || got != tc.want {
			t.Errorf("RoomOf(suv %v, %s) = %+v, %v; want %+v", tc.pins, tc.figure, got, err, tc.want)
		}
	}
}

func TestRoomOfRefuses(t *testing.T) {
	var clash *Clash
	if _, err := RoomOf(brief(t, "suv", "height", "1.1w"), segments.Length); !errors.As(err, &clash) {
		t.Errorf("RoomOf(a clash) = %v; want the clash", err)
	}
	for _, f := range []segments.Figure{segments.Wheel, segments.Deck} {
		if _, err := RoomOf(brief(t, "suv"), f); err == nil {
			t.Errorf("RoomOf(suv, %s) has room; want an error", f)
		}
	}
}

// TestRoomEnds pins random figures at the ends of their rooms, where Solve finds a plan, and a little beyond, where it finds none.
func TestRoomEnds(t *testing.T) {
	random := rand.New(rand.NewPCG(15, 1))
	ends := 0
	for range 80 {
		segment := segments.Names()[random.IntN(len(segments.Names()))]
		b := brief(t, segment)
		plan, err := Solve(b)
		if err != nil {
			t.Fatal(err)
		}
		var figures []segments.Figure
		for _, s := range plan.FigureStatuses() {
			if s.Range != nil {
				figures = append(figures, s.Figure)
			}
		}
		for range 2 { // pins that agree with the typical plan
			f := figures[random.IntN(len(figures))]
			b = pinned(t, b, f, plan.Value(f))
		}
		f := figures[random.IntN(len(figures))]
		room, err := RoomOf(b, f)
		now, _ := Solve(b)
		if err != nil {
			t.Errorf("%s %v: RoomOf(%s): %v", segment, b.Pins, f, err)
			continue
		}
		for _, end := range []struct{ at, out, bound float64 }{{room.Lo, -.0021, f.Info().Lo}, {room.Hi, .0021, f.Info().Hi}} {
			if _, err := Solve(pinned(t, b, f, end.at)); err != nil {
				t.Errorf("%s %v: %s %g is in its room; Solve: %v", segment, b.Pins, f, end.at, err)
			}
			if math.Abs(end.at-end.bound) < .01 {
				continue
			}
			ends++
			if far, err := Solve(pinned(t, b, f, end.at+end.out)); err == nil && !pushes(far, now, f) {
				t.Errorf("%s %v: %s %g is out of its room %+v; Solve finds a plan that bends nothing else", segment, b.Pins, f, end.at+end.out, room)
			}
		}
	}
	if ends < 30 {
		t.Errorf("%d ends were stopped; want 30 for the test to mean something", ends)
	}
}

// pushes reports whether a limit pushes a figure other than f out of its range, further than it is now.
func pushes(far, now Plan, f segments.Figure) bool {
	was := map[segments.Figure]float64{}
	for _, s := range now.FigureStatuses() {
		was[s.Figure] = s.Beyond
	}
	return slices.ContainsFunc(far.FigureStatuses(), func(s FigureStatus) bool {
		return s.Figure != f && !isEnd(s.Figure) && s.State == stateLimited && s.Beyond > was[s.Figure]
	})
}

// pinned returns b with one more pin, or the pin of f moved.
func pinned(t *testing.T, b segments.Brief, f segments.Figure, v float64) segments.Brief {
	t.Helper()
	text := strconv.FormatFloat(v, 'f', 4, 64)
	if f.Info().Unit == segments.InWheels {
		text += "w"
	}
	pin, err := segments.ParsePin(f, text)
	if err != nil {
		t.Fatal(err)
	}
	b.Pins = append(slices.DeleteFunc(slices.Clone(b.Pins), func(p segments.Pin) bool { return p.Figure == f }), pin)
	return b
}
