package reading

import (
	"math/rand/v2"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"

	"hubrule/layout"
	"hubrule/segments"
)

func segment(t testing.TB, name string) *segments.Profile {
	t.Helper()
	p, err := segments.Find(name)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// readOf returns a reading of figures with a ± of so many wheels.
func readOf(like *segments.Profile, pm float64, figures map[segments.Figure]float64) Reading {
	r := Reading{Name: "side", Source: "side.jpg", Like: like}
	for f, v := range figures {
		r.Figures[f] = Value{Value: v, PM: pm, State: Read}
	}
	return r
}

func profileOf(t testing.TB, r Reading) (*segments.Profile, []string) {
	t.Helper()
	p, notes, err := r.Profile()
	if err != nil {
		t.Fatal(err)
	}
	return p, notes
}

// planOf lays out a profile as a brief that asks for nothing else is.
func planOf(t testing.TB, p *segments.Profile) layout.Plan {
	t.Helper()
	plan, err := layout.Solve(segments.Brief{Profile: p, Pins: p.Pins})
	if err != nil {
		t.Fatalf("%s: %v", p.Name, err)
	}
	return plan
}

// Each figure that can be read stands in the plan as it was read, alone on every segment, derived figures too.
func TestProfileHoldsEachFigure(t *testing.T) {
	for _, like := range segments.All() {
		typical := layout.Typical(like).FigureStatuses()
		for _, s := range typical {
			if s.Figure.Info().Unit == segments.InMM || s.Figure.Info().Unit == segments.AsWord {
				continue
			}
			want := s.Value + .01
			p, notes := profileOf(t, readOf(like, .02, map[segments.Figure]float64{s.Figure: want}))
			if got := planOf(t, p).Value(s.Figure); got < want-.0201 || got > want+.0201 || len(notes) != 1 {
				t.Errorf("%s: %s read as %.3f is drawn as %.3f; notes %q", like.Name, s.Figure, want, got, notes)
			}
		}
	}
}

func anySegment(t testing.TB, r *rand.Rand) *segments.Profile {
	return segment(t, segments.Names()[r.IntN(len(segments.Names()))])
}

// randomReading reads some figures of a plan that keeps the limits of a vehicle, each wrong by a third of its ± at most.
func randomReading(r *rand.Rand, like *segments.Profile) Reading {
	var turns segments.Values
	for f := range turns {
		turns[f] = 2*r.Float64() - 1
	}
	plan, ok := layout.Vary(layout.Typical(like), turns, 1)
	if !ok {
		plan = layout.Typical(like)
	}
	out := Reading{Name: "side", Source: "side.jpg", Like: like}
	for _, s := range plan.FigureStatuses() {
		if s.Figure.Info().Unit == segments.InMM || s.Figure.Info().Unit == segments.AsWord || r.IntN(3) > 0 {
			continue
		}
		pm := .002 + .05*r.Float64()
		if s.Figure.Info().Unit == segments.InDegrees {
			pm *= 30
		}
		out.Figures[s.Figure] = Value{Value: s.Value + pm*(2*r.Float64()-1)*.3, PM: pm, State: Read, MostFrom: "tyre marks"}
	}
	return out
}

// What was read of a body that can be is drawn within its ±, or a note says why it is not; and the profile written to a file and read
// again is the same profile.
func TestProfileOfRandomReadings(t *testing.T) {
	r := rand.New(rand.NewPCG(14, 1))
	path := filepath.Join(t.TempDir(), "side.yaml")
	read, noted := 0, 0
	for range trials(t, 40) {
		reading := randomReading(r, anySegment(t, r))
		if reading.pins() == nil {
			continue
		}
		p, notes := profileOf(t, reading)
		plan := planOf(t, p)
		for f, v := range reading.Figures {
			f := segments.Figure(f)
			if v.State != Read {
				continue
			}
			read++
			if got := plan.Value(f); got < v.Value-v.PM-2e-4 || got > v.Value+v.PM+2e-4 {
				noted++
				if !slices.ContainsFunc(notes, func(n string) bool { return strings.Contains(n, ": "+f.String()+" ") }) {
					t.Errorf("%s %s: read as %.4f ± %.4f, drawn as %.4f; notes %q", reading.Like.Name, f, v.Value, v.PM, got, notes)
				}
			}
		}
		sameFromFile(t, p, path)
	}
	if noted*50 > read {
		t.Errorf("%d of %d figures that were read are drawn outside their ±", noted, read)
	}
	t.Logf("%d figures read, %d of them drawn outside their ±", read, noted)
}

// sameFromFile writes a profile to a file and compares what comes back.
func sameFromFile(t *testing.T, p *segments.Profile, path string) {
	t.Helper()
	text, err := p.YAML("read from a picture")
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	back, err := segments.Find(path)
	if err != nil {
		t.Fatalf("%v\n%s", err, text)
	}
	want := *p
	for _, q := range []*segments.Profile{&want, back} {
		q.Pins = append([]segments.Pin(nil), q.Pins...)
		for i := range q.Pins {
			q.Pins[i].Origin = segments.Origin{}
		}
	}
	if !reflect.DeepEqual(&want, back) {
		for f := range want.Figures {
			if want.Figures[f] != back.Figures[f] {
				t.Errorf("%s: %+v, from its file %+v", segments.Figure(f), want.Figures[f], back.Figures[f])
			}
		}
		t.Fatalf("another profile from the file:\n%s", text)
	}
}

// What a person is told of what cannot be drawn as it was read, or was not read.
func TestProfileNotes(t *testing.T) {
	type figures = map[segments.Figure]float64
	for _, tt := range []struct {
		like    string
		figures figures
		want    []string
	}{
		{"suv", figures{segments.Height: 2.3}, nil},
		{"suv", figures{segments.Deck: 1.2, segments.Height: 2.3}, []string{"side: deck was read, and a two-box has none; left out"}},
		{"suv", figures{segments.FrontOverhang: -.01}, []string{"side: front-overhang -0.01w was read, and a vehicle has 0w to 4w; left out"}},
		{"suv", figures{segments.WheelsBetween: 3, segments.Wheelbase: 4.1},
			[]string{"side: wheelbase was read as 4.1w, and follows as 4w from wheels-between"}},
		{"suv", figures{segments.Cowl: 1.7, segments.Belt: 1.6}, []string{"side: cowl was read as 1.7w and is drawn as 1.582w, outside its ±: cowl not above the belt"}},
		{"suv", figures{segments.Length: 2.1}, []string{"side: length was read as 2.1w and is drawn as 6.27w, outside its ±: wheels-between would be 0.02"}},
		{"", figures{segments.Height: 1.78, segments.WheelsBetween: 3.1, segments.Width: 2.9},
			[]string{"side: no segment named; what was not read is as in mid-engine, the nearest by what was"}},
	} {
		r := readOf(nil, .02, tt.figures)
		if tt.like != "" {
			r.Like = segment(t, tt.like)
		}
		r.Wheel = segment(t, "suv").Wheel
		if _, notes := profileOf(t, r); !slices.Equal(notes, tt.want) {
			t.Errorf("%s %v: notes %q; want %q", tt.like, tt.figures, notes, tt.want)
		}
	}
	r := Reading{Name: "side"}
	if _, _, err := r.Profile(); err == nil || err.Error() != "side: no figure was read, and no segment is named; want one of them" {
		t.Errorf("nothing read: %v", err)
	}
}

// Whatever numbers were read, the profile can be drawn and written, or is refused in one line.
func TestProfileOfAbsurdReadings(t *testing.T) {
	r := rand.New(rand.NewPCG(14, 2))
	path := filepath.Join(t.TempDir(), "side.yaml")
	refused := 0
	for range trials(t, 12) {
		reading := Reading{Name: "side", Source: "side.jpg", Like: anySegment(t, r)}
		for f := range segments.FigureCount {
			if info := f.Info(); info.Unit != segments.InMM && info.Unit != segments.AsWord && r.IntN(6) == 0 {
				reading.Figures[f] = Value{Value: info.Lo + (info.Hi-info.Lo)*r.Float64(), PM: .05 * r.Float64(), State: Read}
			}
		}
		p, _, err := reading.Profile()
		if err != nil {
			refused++
			t.Log(err)
			continue
		}
		planOf(t, p)
		sameFromFile(t, p, path)
	}
	t.Logf("%d refused", refused)
}

// What no vehicle can be is nothing that a segment has, typical or at the ends of its ranges.
func TestSegmentsArePossible(t *testing.T) {
	for _, p := range segments.All() {
		for _, s := range layout.Typical(p).FigureStatuses() {
			if s.Range == nil || s.Figure.Info().Unit == segments.InMM {
				continue
			}
			for _, x := range []float64{s.Value, s.Range.Lo, s.Range.Hi} {
				if !(Value{Value: x, PM: .001}).isPossible(s.Figure) {
					t.Errorf("%s: %s %g", p.Name, s.Figure, x)
				}
			}
		}
	}
}
