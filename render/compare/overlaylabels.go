package compare

import (
	"fmt"
	"slices"
	"strings"

	"hubrule/internal/geom"
	"hubrule/internal/slice"
	"hubrule/layout"
	"hubrule/render/counting"
	"hubrule/render/draft"
	"hubrule/render/request"
	"hubrule/segments"
)

// levelLabels lists the levels of all plans; a shared one is named once.
func (o *overlayPage) levelLabels(all *counting.Drawing) []counting.LadderEntry {
	var out []counting.LadderEntry
	for _, l := range counting.Levels() {
		if l.Underneath || !all.Wants(l.Guide) {
			continue
		}
		at := func(k int) geom.Wheels { return l.Height(o.plans[k]) * o.sizes[k] }
		one := true
		for k := range o.plans {
			off := all.MM(at(k) - at(0))
			one = one && max(off, -off) < mergeWithin
		}
		for k, p := range o.plans {
			name := string(l.Guide)
			if !one {
				name += ", " + o.names[k]
			}
			value := draft.Value(o.drawing(k, all.Place).FormatLength(l.Height(p)))
			if one || k == o.Subject() { // the others are what it is held against
				value = value.For(l.Figure.String())
			}
			if k == 0 || !one {
				label := draft.NewLabel(coloured(k, draft.Name(name+" "), value))
				out = append(out, counting.LadderEntry{At: at(k), From: .3, Label: label})
			}
		}
	}
	return out
}

// pillars labels the rake of every A-pillar, of equal ones once, and reports whether there was room for all: with longer arms if need be,
// since they reach past the other vehicles. If there was not, it writes none, and the key gives the rakes.
func (o *overlayPage) pillars(all *counting.Drawing) bool {
	before := *all.Surface
	for _, reach := range []geom.MM{counting.PillarReach, counting.PillarReach * 5 / 3} {
		if o.pillarsWithin(reach, all) {
			return true
		}
		*all.Surface = before
	}
	return false
}

// pillarsWithin labels the A-pillars with arms shorter than reach.
func (o *overlayPage) pillarsWithin(reach geom.MM, all *counting.Drawing) bool {
	at := func(k int) string {
		p := o.plans[k]
		return fmt.Sprintf("%.3f %.3f %.3f", p.PillarFoot(), p.PillarHead(), o.sizes[k])
	}
	for k, p := range o.plans {
		var names []string
		for j := range o.plans {
			if at(j) == at(k) {
				names = append(names, o.names[j])
			}
		}
		if !all.Wants("pillar") || names[0] != o.names[k] {
			continue
		}
		if !o.several() {
			names = names[:1]
		}
		d := o.drawing(k, all.Place)
		d.Surface = all.Surface
		rake := draft.Value(draft.FormatAngle(p.PillarRake()))
		if slices.Contains(names, o.names[o.Subject()]) {
			rake = rake.For(segments.PillarRake.String())
		}
		words := coloured(k, draft.Name("A-pillar, "+strings.Join(names, " and ")+" "), rake)
		if !d.PillarCallout(draft.NewLabel(words), reach) {
			return false
		}
	}
	return true
}

// title names the segments.
func (o *overlayPage) title() string {
	if o.Setting.Title != "" {
		return o.Setting.Title
	}
	return strings.Join(o.segments(), ", ")
}

// segments lists the titles of the segments, each once.
func (o *overlayPage) segments() []string {
	var out []string
	for _, p := range o.plans {
		if !slices.Contains(out, p.Profile.Title) {
			out = append(out, p.Profile.Title)
		}
	}
	return out
}

// titleBlock returns the words of the title block.
func (o *overlayPage) titleBlock() (draft.Caption, [][]draft.Fact) {
	segments, wheel := o.segments(), o.onPaper[0]
	title := draft.Caption{Heading: strings.Join(segments, ", "), Sub: "overlay of " + strings.Join(o.names, " and ")}
	if o.several() || o.keys != nil || slices.Equal(o.names, segments) { // the heading or the key names them
		title.Sub = fmt.Sprintf("overlay of %d vehicles", len(o.plans)) + o.drawnAlike()
	}
	if o.Setting.Title != "" {
		title = draft.Caption{Heading: o.Setting.Title, Sub: title.Heading + ", " + title.Sub}
	}
	onPaper := draft.Fact{Name: "wheel on paper", Value: draft.FormatMM(wheel)}
	own := counting.Facts(o.plans[0], wheel, o.Setting.Units)
	second := []draft.Fact{own[0][1], own[1][0]} // scale and tyre
	if o.differ() {
		onPaper.Value = between(o.onPaper, draft.FormatMM)
		second = []draft.Fact{{Name: "scale", Value: Scale(o.plans, wheel, o.Setting.Scale)},
			{Name: "wheels",
				Value: between(slice.Map(o.plans, wheelOf), func(d geom.MM) string { return draft.FormatFixed(float64(d), 0) + " mm" })}}
	}
	return title, [][]draft.Fact{
		{onPaper, counting.UnitFacts(o.Setting.Units, o.plans...)[0]},
		second,
	}
}

// drawnAlike says what is alike of the vehicles.
func (o *overlayPage) drawnAlike() string {
	switch {
	case !o.differ():
		return " on one front axle"
	case o.Setting.Scale.Reduction > 0:
		return " at one scale"
	}
	return ", all wheels drawn alike"
}

// wheelOf returns the diameter of a plan's wheel on the vehicle.
func wheelOf(p layout.Plan) geom.MM { return geom.MM(p.OnVehicle(1)) }

// differ reports whether the vehicles have wheels of several sizes.
func (o *overlayPage) differ() bool {
	return slices.ContainsFunc(o.plans, func(p layout.Plan) bool { return wheelOf(p) != wheelOf(o.plans[0]) })
}

// between prints the least and the greatest of some values, or the one value that they all have.
func between(values []geom.MM, format func(geom.MM) string) string {
	lo, hi := format(slices.Min(values)), format(slices.Max(values))
	if lo == hi {
		return lo
	}
	if s, ok := strings.CutSuffix(lo, " mm"); ok {
		lo = s
	}
	return lo + " to " + hi
}

// Scale prints the scale of plans laid over each other, given the wheel of the first on paper: where all wheels are drawn alike, each
// vehicle has a scale of its own.
func Scale(plans []layout.Plan, wheel geom.MM, asked request.Scale) string {
	scales := slice.Map(plans, func(p layout.Plan) geom.MM { return wheelOf(p) / asked.WheelBeside(plans[0], wheel, p) })
	return between(scales, func(n geom.MM) string { return draft.FormatScale(float64(n)) })
}
