package layout

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"hubrule/internal/slice"
	"hubrule/segments"
)

// SegmentDistance is a segment and how far a plan is from it.
type SegmentDistance struct {
	Segment  string
	Distance float64 // in half-ranges, root mean square over the figures known
}

// Verdict says what a plan reads as.
type Verdict struct {
	Line    string            // a complete sentence
	Short   string            // the same for a sheet's title block, without figures
	Nearest []SegmentDistance // every segment, the nearest first
	None    bool              // it is far from every segment
}

// measured is what is known of a side view: a value for each figure, NaN if unknown, and the form, "" if unknown.
type measured struct {
	values segments.Values
	form   segments.Form
}

// marker is a figure that tells segments apart, with the median half-range of the catalogue: one yardstick for all segments, since
// a segment with a wide range would otherwise claim its neighbours.
type marker struct {
	figure     segments.Figure
	sigma      float64
	more, less string // phrases for a large and a small value
}

func markers() []marker {
	return []marker{
		{segments.WheelsBetween, .25, "longer between the wheels", "shorter between the wheels"},
		{segments.Height, .13, "taller", "lower"},
		{segments.Sill, .08, "higher off the ground", "nearer the ground"},
		{segments.GreenhouseToBody, .067, "with more glass", "with less glass"},
		{segments.FrontOverhang, .13, "with more nose", "with less nose"},
		{segments.RearOverhang, .165, "with more tail", "with less tail"},
		{segments.Width, .095, "wider", "narrower"},
	}
}

// Steps of the verdict, in half-ranges: judged by how tweaks and measured bodies fall (docs/verdict.md).
const (
	reads     = .5 // own segment, nothing to add
	stretched = 1. // beyond it the plan has left its range
	none      = 2. // beyond it from all segments
	clearly   = .3 // nearer than another by so much is nearer without doubt
)

// distance returns how far m is from p. A figure that is not known is left out of the mean.
func distance(m measured, p *segments.Profile) float64 {
	form := formDistance(m.form, p.Form)
	return math.Sqrt(meanSquare(deviationsFrom(m, p)) + float64(form*form))
}

// meanSquare is 0 of nothing.
func meanSquare(all []deviation) (sum float64) {
	for _, d := range all {
		sum += float64(d.by*d.by) / float64(len(all))
	}
	return sum
}

// formDistance is 0 for the same form or one not known, 1 for forms that run into each other, 2 for all others (judged by eye).
func formDistance(a, b segments.Form) float64 {
	is := func(x, y segments.Form) bool { return a == x && b == y || a == y && b == x }
	switch {
	case a == b || a == "" || b == "":
		return 0
	case is(segments.TwoBox, segments.OneBox), is(segments.ThreeBox, segments.Fastback):
		return 1
	}
	return 2
}

// nearestSegments returns the segments by rising distance; equals keep their order.
func nearestSegments(m measured, among []*segments.Profile) []SegmentDistance {
	out := slice.Map(among, func(p *segments.Profile) SegmentDistance { return SegmentDistance{p.Name, distance(m, p)} })
	slices.SortStableFunc(out, func(a, b SegmentDistance) int { return cmp.Compare(a.Distance, b.Distance) })
	return out
}

// ReadsAs returns what the plan reads as among the segments, beside its own.
func (p Plan) ReadsAs(among []*segments.Profile) Verdict {
	return readsAs(measured{p.Values(), p.Profile.Form}, p.Profile, among)
}

// readsAs returns what m, in which no marker is missing, reads as among the segments. Own is the segment that was asked for: a
// profile of the user's own takes the place of its namesake, and of the segment that it extends.
func readsAs(m measured, own *segments.Profile, among []*segments.Profile) Verdict {
	others := slices.DeleteFunc(slices.Clone(among), func(p *segments.Profile) bool {
		return p.Name == own.Name || p.Name == own.Extends
	})
	nearest := nearestSegments(m, append([]*segments.Profile{own}, others...))
	short, rest := compareWithOwn(m, own, nearest)
	// Before the rest, which may end in another segment's name: the tail is this plan's.
	short += fastTail(m, own)
	return Verdict{short + rest, short, nearest, nearest[0].Distance > none}
}

// compareWithOwn compares m with the segment that was asked for: in short, and the figures that follow in the line.
func compareWithOwn(m measured, own *segments.Profile, nearest []SegmentDistance) (short, rest string) {
	d, best := distance(m, own), nearest[0]
	far := deviationsFrom(m, own)
	slices.SortStableFunc(far, func(a, b deviation) int { return cmp.Compare(math.Abs(b.by), math.Abs(a.by)) })
	firstTwo, looks := far[0].String()+", "+far[1].String(), far[0].more
	if far[0].by < 0 {
		looks = far[0].less
	}
	switch {
	case best.Distance > none:
		return fmt.Sprintf("reads as none of the %d", len(nearest)), "; nearest " + best.Segment
	case best.Segment != own.Name && best.Distance < d-clearly:
		return "reads as " + best.Segment + " rather than " + own.Name, ": " + firstTwo
	case d <= reads:
		return "reads as " + own.Name, ""
	case d <= stretched:
		return "reads as " + own.Name + ", " + looks, " (" + far[0].String() + ")"
	}
	rest = ": " + firstTwo
	if i := slices.IndexFunc(nearest, func(n SegmentDistance) bool { return n.Segment != own.Name }); i >= 0 {
		rest += "; next: " + nearest[i].Segment
	}
	return article(own.Name) + " stretched past its range", rest
}

// fastTail says that the rear screen of a form with a deck runs to the tail; "" where it does not, or does so typically.
func fastTail(m measured, own *segments.Profile) string {
	const short = .30 // deck behind the screen's foot, in wheels: judged by eye
	behind := func(v segments.Values) float64 {
		return v[segments.RearWheel]/v[segments.Wheel]/2 + v[segments.RearOverhang] - v[segments.TailFoot]
	}
	if !own.Form.Has(segments.TailFoot) || !(behind(m.values) < short) || behind(typicalValues(own)) < short {
		return ""
	}
	return ", with a fastback tail"
}

// deviation is how far a figure lies from a segment, in half-ranges of the yardstick.
type deviation struct {
	marker
	by float64
}

// deviationsFrom lists the known figures with their deviations from the middle of p's ranges, or from its measured bodies, whichever is
// nearer on the whole: a segment's profile may follow studio practice beside what is built.
func deviationsFrom(m measured, p *segments.Profile) []deviation {
	profile := deviations(m, func(f segments.Figure) float64 { return (p.Figures[f].Range.Lo + p.Figures[f].Range.Hi) / 2 })
	centre := modelOf(p).figures(p)
	bodies := deviations(m, func(f segments.Figure) float64 { return centre[f] })
	if meanSquare(bodies) < meanSquare(profile) {
		return bodies
	}
	return profile
}

func deviations(m measured, centre func(segments.Figure) float64) (out []deviation) {
	for _, k := range markers() {
		if v := m.values[k.figure]; !math.IsNaN(v) {
			out = append(out, deviation{k, (v - centre(k.figure)) / k.sigma})
		}
	}
	return out
}

// String writes a deviation: "height −1.2".
func (d deviation) String() string {
	return strings.Replace(fmt.Sprintf("%s %+.1f", d.figure, d.by), " -", " \u2212", 1)
}

// article puts a or an before a segment's name; suv is spelt letter by letter. A user's file may be called anything, even ".yaml".
func article(name string) string {
	if strings.HasPrefix(name, "suv") || name != "" && strings.Contains("aeiouAEIOU", name[:1]) {
		return "an " + name
	}
	return "a " + name
}
