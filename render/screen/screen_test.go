package screen_test

import (
	"bytes"
	"maps"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"hubrule/internal/job"
	"hubrule/layout"
	"hubrule/render/request"
	"hubrule/render/screen"
	"hubrule/render/sheet"
	"hubrule/segments"
)

var desktop = screen.Screen{Width: 1400, Height: 600, Lettering: 13}

// plan solves a segment with pins: figure, value, figure, value …
func plan(t testing.TB, segment string, pins ...string) layout.Plan {
	t.Helper()
	p, err := segments.Find(segment)
	if err != nil {
		t.Fatal(err)
	}
	b := segments.Brief{Profile: p}
	for i := 0; i < len(pins); i += 2 {
		f, _ := segments.Lookup(pins[i])
		pin, err := segments.ParsePin(f, pins[i+1])
		if err != nil {
			t.Fatal(err)
		}
		b.Pins = append(b.Pins, pin)
	}
	out, err := layout.Solve(b)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// full is the request for the full sheet of plans.
func full(plans ...layout.Plan) request.Request {
	r := job.Default().Request
	r.Plans = plans
	return r
}

func compose(t testing.TB, r request.Request, s screen.Screen) screen.Sheet {
	t.Helper()
	out, _, err := screen.Compose(t.Context(), r, s, 1)
	if err != nil {
		t.Fatalf("Compose(%v %v, %+v): %v", r.Kinds, r.Setting.Views, s, err)
	}
	return out
}

// TestNothingJumps: the wheel and the place of the front axle depend on the segment and the screen alone.
func TestNothingJumps(t *testing.T) {
	want := compose(t, full(plan(t, "suv")), desktop)
	for _, pins := range [][]string{{"height", "2.2w"}, {"height", "2.44w"}, {"front-overhang", "0.5w"}, {"length", "6.5w"}, {"glass-end", "-0.2w"}} {
		got := compose(t, full(plan(t, "suv", pins...)), desktop)
		if got.Plan.Axle.Sub(want.Plan.Axle).Len() > .01 || math.Abs(got.Plan.PerWheel-want.Plan.PerWheel) > .01 || got.Width != want.Width {
			t.Errorf("with %v the plan stands at %+v on %.1f px; want %+v on %.1f", pins, *got.Plan, got.Width, *want.Plan, want.Width)
		}
	}
	// The wheel of an answer, asked for again in rounded pixels, gives the same page.
	for _, s := range []screen.Screen{desktop, {Width: 969, Height: 520, Lettering: 13}, {Width: 366, Height: 300, Lettering: 13}} {
		first := compose(t, full(plan(t, "sedan")), s)
		s.Wheel = math.Round(first.Plan.PerWheel*100) / 100
		again := compose(t, full(plan(t, "sedan", "height", "2.1w")), s)
		if math.Abs(again.Width-first.Width) > .01 || again.Plan.Axle.Sub(first.Plan.Axle).Len() > 1 {
			t.Errorf("on %+v the page was %.1f px wide with its axle at %v, then %.1f at %v", s, first.Width, first.Plan.Axle, again.Width, again.Plan.Axle)
		}
	}
	// Nor does anything jump on the way from one end of the roof's range to the other, on any segment.
	for _, s := range []screen.Screen{desktop, {Width: 969, Height: 520, Lettering: 13}} {
		for _, segment := range segments.Names() {
			first := compose(t, full(plan(t, segment)), s)
			for _, st := range roofs(t, segment) {
				got := compose(t, full(plan(t, segment, "height", st)), s)
				if math.Abs(got.Width-first.Width) > .01 || math.Abs(got.Height-first.Height) > .01 || got.Plan.Axle.Sub(first.Plan.Axle).Len() > .01 || lettering(got) != lettering(first) {
					t.Errorf("%s %s on %+v: %.1f x %.1f, axle %v, lettering %s; want %.1f x %.1f, %v, %s", segment, st, s, got.Width, got.Height, got.Plan.Axle,
						lettering(got), first.Width, first.Height, first.Plan.Axle, lettering(first))
				}
			}
		}
	}
	// A figure far out of its range makes the page larger, not the wheel smaller.
	got := compose(t, full(plan(t, "suv", "length", "9w")), desktop)
	if math.Abs(got.Plan.PerWheel-want.Plan.PerWheel) > .01 || got.Width <= want.Width {
		t.Errorf("9 wheels long: %.1f px a wheel on %.1f px; want %.1f on more than %.1f", got.Plan.PerWheel, got.Width, want.Plan.PerWheel, want.Width)
	}
}

// roofs are heights from one end of a segment's range to the other.
func roofs(t *testing.T, segment string) (out []string) {
	t.Helper()
	p, err := segments.Find(segment)
	if err != nil {
		t.Fatal(err)
	}
	r := p.Figures[segments.Height].Range
	for _, share := range []float64{0, .25, .6, 1} {
		out = append(out, strconv.FormatFloat(r.Lo+share*(r.Hi-r.Lo), 'f', 3, 64)+"w")
	}
	return out
}

// lettering lists the sizes of the words of a page.
func lettering(s screen.Sheet) string {
	sizes := map[string]bool{}
	for _, w := range s.Words {
		sizes[strconv.FormatFloat(w.Size, 'f', 1, 64)] = true
	}
	return strings.Join(slices.Sorted(maps.Keys(sizes)), " ")
}

// TestGripsFollowTheirFigures: when a figure grows, its grip has moved by as many pixels as the grip said, on the plan that was solved anew.
func TestGripsFollowTheirFigures(t *testing.T) {
	for _, facing := range []request.Facing{request.Left, request.Right} {
		before := full(plan(t, "suv"))
		before.Setting.Facing = facing
		sheet := compose(t, before, desktop)
		if len(sheet.Grips) != 11 {
			t.Errorf("%d grips; want 11", len(sheet.Grips))
		}
		for _, g := range sheet.Grips {
			by, unit := .03, "w"
			if g.Figure == segments.PillarRake {
				by, unit = .5, ""
			}
			if g.Figure == segments.WheelsBetween {
				unit = ""
			}
			value := strconv.FormatFloat(before.Plans[0].Value(g.Figure)+by, 'f', 6, 64) + unit
			after := full(plan(t, "suv", g.Figure.String(), value))
			after.Setting.Facing = facing
			moved := compose(t, after, desktop)
			i := slices.IndexFunc(moved.Grips, func(h screen.Grip) bool { return h.Figure == g.Figure })
			if i < 0 {
				t.Errorf("%s: its grip is gone", g.Figure)
				continue
			}
			var got float64
			switch h := moved.Grips[i]; g.Way {
			case screen.Up:
				got = float64(h.At.Y - g.At.Y)
			case screen.Along:
				got = float64(h.At.X - g.At.X)
			case screen.Turn: // clockwise on the screen, where y points down
				was, is := g.At.Sub(g.About), h.At.Sub(h.About)
				got = (math.Atan2(float64(is.Y), float64(is.X)) - math.Atan2(float64(was.Y), float64(was.X))) * 180 / math.Pi
			}
			want := g.Per * by
			if g.Figure == segments.ArchGap { // the grip stands on the diagonal of the arch
				want *= math.Sqrt2 / 2
			}
			if math.Abs(got-want) > .1 {
				t.Errorf("facing %s, %s +%g: its grip moved by %.2f %s; want %.2f", facing, g.Figure, by, got, g.Way, want)
			}
			for _, id := range g.IDs {
				if !bytes.Contains(sheet.SVG, []byte(`id="`+id+`"`)) {
					t.Errorf("%s: no element %s", g.Figure, id)
				}
			}
		}
	}
}

// TestWordsGiveFigures: each word that names a figure shows its value, and the lines hold no words.
func TestWordsGiveFigures(t *testing.T) {
	for _, segment := range segments.Names() {
		p := plan(t, segment)
		sheet := compose(t, full(p), desktop)
		if bytes.Contains(sheet.SVG, []byte("<text")) || bytes.Contains(sheet.SVG, []byte("font-face")) {
			t.Errorf("%s: words among the lines", segment)
		}
		seen := map[string]bool{}
		for _, w := range sheet.Words {
			if w.Figure == "" {
				continue
			}
			f, known := segments.Lookup(w.Figure)
			if !known {
				t.Errorf("%s: a word names %q", segment, w.Figure)
			}
			seen[w.Figure] = true
			for _, s := range w.Spans {
				v, err := strconv.ParseFloat(strings.TrimRight(s.Text, "°"), 64)
				if s.IsValue && err == nil && f.Info().Unit == segments.InWheels && f != segments.GlassEnd && math.Abs(v-p.Value(f)) > .0051 {
					t.Errorf("%s: %s shows %s; its value is %.3f", segment, f, s.Text, p.Value(f))
				}
			}
		}
		for _, f := range []string{"height", "belt", "sill", "clearance", "front-overhang", "rear-overhang", "wheels-between", "wheelbase", "length",
			"pillar-rake", "pillar-aim", "glass-end", "arch-gap", "front-lamp", "rear-lamp", "greenhouse-to-body", "wheel"} {
			if !seen[f] {
				t.Errorf("%s: no word gives %s", segment, f)
			}
		}
	}
}

// TestEveryPageFitsEveryScreen: no word leaves the page, whatever the segment and however small the screen; what is too large makes the page larger.
func TestEveryPageFitsEveryScreen(t *testing.T) {
	for i, segment := range segments.Names() {
		for k, s := range []screen.Screen{{Width: 340, Height: 300, Lettering: 13}, {Width: 360, Height: 520, Lettering: 16}, {Width: 980, Height: 520, Lettering: 13},
			{Width: 1900, Height: 800, Lettering: 26}, {Width: 1385, Height: 420, Lettering: 26}, {Width: 700, Height: 260, Lettering: 13}, {Width: 3800, Height: 1600, Lettering: 18}} {
			r := full(plan(t, segment))
			r.Kinds = []request.Kind{[]request.Kind{request.Full, request.Trace, request.Full, request.Practice}[(i+k)%4]}
			if r.Has(request.Practice) && s.Width < 900 {
				r.Kinds = []request.Kind{request.Full}
			}
			sheet := compose(t, r, s)
			for _, w := range sheet.Words {
				if w.At.X < 0 || float64(w.At.X) > sheet.Width || w.At.Y < 0 || float64(w.At.Y) > sheet.Height {
					t.Errorf("%s on %+v: the word %v stands out of %.0f x %.0f", segment, s, w, sheet.Width, sheet.Height)
				}
				if w.Size < s.Lettering-1e-6 {
					t.Errorf("%s on %+v: lettering of %.1f px", segment, s, w.Size)
				}
			}
			if sheet.Width > s.Width*1.35 {
				t.Errorf("%s on %+v: the page is %.0f px wide", segment, s, sheet.Width)
			}
		}
	}
}

// TestGuidesByThemselves: each guide alone can be shown, and nothing else is.
func TestGuidesByThemselves(t *testing.T) {
	for _, g := range request.SideView.Guides() {
		for _, k := range []request.Kind{request.Full, request.Trace} {
			r := full(plan(t, "suv"))
			r.Kinds, r.Setting.Guides = []request.Kind{k}, []request.Guide{g}
			if svg := compose(t, r, desktop).SVG; g != "wheels" && bytes.Contains(svg, []byte("guide-wheels")) {
				t.Errorf("%s %s: wheels are drawn", k, g)
			}
		}
	}
}

// TestPaperIsTheWholeJobs: the scale on the screen is that of the page that is printed, whatever else is printed with it.
func TestPaperIsTheWholeJobs(t *testing.T) {
	for _, kinds := range [][]request.Kind{{request.Full, request.Trace}, {request.Full, request.Practice, request.Answer}, {request.Trace}} {
		r := full(plan(t, "suv"), plan(t, "van"))
		r.Kinds = kinds
		doc, _, err := sheet.Compose(r)
		if err != nil {
			t.Fatal(err)
		}
		for i, page := range doc.Pages {
			got, _, err := screen.Compose(t.Context(), r, desktop, i+1)
			if err != nil || got.Paper.Wheel != page.Wheel || got.Problem != "" {
				t.Errorf("%v, page %d: the wheel on paper is %g mm, problem %q, %v; want %g", kinds, i+1, got.Paper.Wheel, got.Problem, err, page.Wheel)
			}
		}
	}
	tiled := full(plan(t, "suv"))
	tiled.Setting.Tile, tiled.Setting.Scale.Reduction = true, 10
	if got := compose(t, tiled, desktop); got.Problem != "" || math.Abs(float64(got.Paper.Wheel)-73.9) > .01 {
		t.Errorf("tiles at 1:10: wheel %g mm, problem %q; want 73.9 and none", got.Paper.Wheel, got.Problem)
	}
}

// TestLargestWheels: the largest wheel that may be asked for is composed, on every segment.
func TestLargestWheels(t *testing.T) {
	for _, segment := range segments.Names() {
		compose(t, full(plan(t, segment)), screen.Screen{Width: 400, Height: 8192, Lettering: 8, Wheel: 8192})
	}
}

// TestDark: dark lines become light ones, the paper's tints dark, and the accent stays red.
func TestDark(t *testing.T) {
	dark := desktop
	dark.Dark = true
	svg := string(compose(t, full(plan(t, "suv")), dark).SVG)
	if strings.Contains(svg, "#1f252b") || !strings.Contains(svg, "#d") {
		t.Errorf("the ink of paper on a dark board")
	}
	accent := svg[strings.Index(svg, `id="pillar"`):]
	accent = accent[strings.Index(accent, `stroke="#`)+9:][:6]
	rgb, err := strconv.ParseUint(accent, 16, 32)
	if r, g := rgb>>16, rgb>>8&255; err != nil || r < g+60 {
		t.Errorf("the A-pillar is #%s; want red", accent)
	}
}

func TestRefusals(t *testing.T) {
	for _, tc := range []struct {
		s    screen.Screen
		page int
		want string
	}{
		{screen.Screen{Width: 10, Height: 600, Lettering: 13}, 1, "screen: 10 pixels; want 240 to 8192"},
		{screen.Screen{Width: 1000, Height: math.NaN(), Lettering: 13}, 1, "screen: NaN pixels; want 240 to 8192"},
		{screen.Screen{Width: 1000, Height: 600, Lettering: 1}, 1, "screen: lettering of 1 pixels; want 8 to 64"},
		{screen.Screen{Width: 1000, Height: 600, Lettering: 13, Wheel: 1e9}, 1, "screen: a wheel of 1e+09 pixels; want 8 to 1000"},
		{desktop, 2, "2; want 1 to 1"},
		{desktop, 0, "0; want 1 to 1"},
	} {
		if _, _, err := screen.Compose(t.Context(), full(plan(t, "suv")), tc.s, tc.page); err == nil || err.Error() != tc.want {
			t.Errorf("Compose(%+v, page %d) = %v; want %s", tc.s, tc.page, err, tc.want)
		}
	}
}

func BenchmarkMoving(b *testing.B) {
	r, s := full(plan(b, "suv", "height", "2.3w")), desktop
	s.Moving, s.Wheel = true, 130
	for b.Loop() {
		if _, _, err := screen.Compose(b.Context(), r, s, 1); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkFull(b *testing.B) {
	r := full(plan(b, "suv"))
	for b.Loop() {
		if _, _, err := screen.Compose(b.Context(), r, desktop, 1); err != nil {
			b.Fatal(err)
		}
	}
}
