package sheet

import (
	"fmt"
	"sort"

	"hubrule/internal/geom"
	"hubrule/render"
)

// noseWords writes axle height and arch gap on the nose side, sorted by height; each slides outwards until it is free.
func (d *drawing) noseWords() error {
	type entry struct {
		at   geom.Wheels
		from geom.MM // x on the page where its leader starts
		l    label
	}
	p := d.plan
	from, _ := reachOf(p)
	var entries []entry
	if d.wants("arches") {
		for _, y := range []geom.Wheels{1, 1 + p.ArchGap()} {
			d.line("arches", "", tickLine(), point{X: d.x(0), Y: d.y(y)}, point{X: d.x(p.Nose()) - 3.2, Y: d.y(y)})
		}
		at := d.x(p.Nose()) - 2.4
		d.line("arches", "", tickLine(), point{X: at, Y: d.y(1)}, point{X: at, Y: d.y(1 + p.ArchGap())})
		entries = append(entries, entry{1 + p.ArchGap()/2, at, newLabel([]word{name("arch gap")}, []word{value(d.length(p.ArchGap()))})})
	}
	if d.wants("wheels") {
		entries = append(entries, entry{.5, d.x(from), newLabel([]word{name("axle "), value(d.length(.5))})})
	}
	if d.wants("checks") {
		end, _ := d.angleEnds()
		entries = append(entries, entry{end.Y, d.x(end.X), newLabel([]word{name("approach "), value(angle(p.Approach()))})})
	}
	sort.SliceStable(entries, func(i, j int) bool { return entries[i].at > entries[j].at })
	var anchors, sizes []geom.MM
	for _, e := range entries {
		anchors, sizes = append(anchors, d.y(e.at)), append(sizes, e.l.height)
	}
	centres := pushApart(anchors, sizes, 1, d.space.Min.Y, d.y(0)-1)
	if centres == nil {
		return tight("the nose's words")
	}
	for i, e := range entries {
		x := e.from - 3
		for ; ; x-- {
			b := e.l.box(x, centres[i]-e.l.height/2, render.End)
			if b.Min.X < d.space.Min.X {
				return tight("the nose's words")
			}
			if d.free(b, .9) {
				break
			}
		}
		d.leader(point{X: e.from, Y: anchors[i]}, point{X: x + .8, Y: centres[i]})
		d.write("labels", e.l, x, centres[i]-e.l.height/2, render.End)
	}
	return nil
}

// flag is a call-out above the figure: a post at its anchor, words beside the post's top.
type flag struct {
	x, y  geom.MM // anchor on the page
	rise  geom.MM // where the search for a free place starts, below the anchor
	label label
}

// flags lists the call-outs, outer anchors first, so that inner ones fly over them.
func (d *drawing) flags() []flag {
	p := d.plan
	var out []flag
	if d.wants("lamps") {
		rear := d.noted([]word{name("rear lamp "), value(d.length(p.RearLamp()))}, "one lamp higher")
		front := d.noted([]word{name("front lamp "), value(d.length(p.FrontLamp()))}, lampWords(p.FrontLamp()-1-p.ArchGap()))
		out = append(out,
			flag{d.x(p.Tail() - rearLampLong/2), d.y(p.RearLamp() + p.LampDepth()), -3, rear},
			flag{d.x(p.Nose() + frontLampLong*.4), d.y(p.FrontLamp() + p.LampDepth()), -3, front})
	}
	if d.wants("glass") {
		behind := p.GlassEnd() - p.RearEdge()
		l := newLabel([]word{name("glass end "), value(d.length(behind))})
		if d.way.notes {
			l = newLabel([]word{name("side glass ends")}, []word{note(d.glassWords(behind))})
		}
		out = append(out, flag{d.x(p.GlassEnd()), d.y(p.Height() + .1), 6, l})
	}
	return out
}

// noted is a line of words and, where notes are written, a note under it.
func (d *drawing) noted(line []word, remark string) label {
	if !d.way.notes {
		return newLabel(line)
	}
	return newLabel(line, []word{note(remark)})
}

// lampWords says where the front lamp starts, given its base above the arch top.
func lampWords(above geom.Wheels) string {
	switch {
	case above > .01:
		return "above the arch top"
	case above < -.01:
		return "below the arch top"
	}
	return "starts at the arch top"
}

// glassWords says where the side glass ends, given how far behind the rear tyre's edge.
func (d *drawing) glassWords(behind geom.Wheels) string {
	switch {
	case behind > .005:
		return d.length(behind) + " behind the back of the rear tyre"
	case behind < -.005:
		return d.length(-behind) + " ahead of the back of the rear tyre"
	}
	return "over the back of the rear tyre"
}

// pillarWords says where the A-pillar aims.
func (d *drawing) pillarWords() label {
	p := d.plan
	first := []word{name("A-pillar "), value(angle(p.PillarRake()))}
	aims := []word{name("aims at "), value(d.length(p.PillarAim()))}
	if !d.way.notes {
		return newLabel(first, aims)
	}
	band := fmt.Sprintf("band %s to %s", d.length(geom.Wheels(p.AimRange().Lo)), d.length(geom.Wheels(p.AimRange().Hi)))
	return newLabel(first, append(aims, note(" on the front axle")), []word{note(band)})
}

// raiseFlags sets every call-out at the free place nearest to its anchor: upwards in half millimetres, on both sides of its post.
func (d *drawing) raiseFlags() error {
	for _, f := range d.flags() {
		if !d.raise(f) {
			return tight("the call-outs")
		}
	}
	if d.wants("pillar") && !d.pillarArm(d.pillarWords()) {
		return tight("the A-pillar's words")
	}
	return nil
}

func (d *drawing) raise(f flag) bool {
	const beside = 1.3
	wide := f.label.width + beside + 1
	around := d.near(box{Min: point{X: f.x - wide, Y: d.space.Min.Y - 1}, Max: point{X: f.x + wide, Y: f.y + f.rise + 1}})
	for y := f.y + f.rise; y-f.label.height > d.space.Min.Y; y -= .5 {
		top := y - f.label.height
		post := segment{point{X: f.x, Y: f.y}, point{X: f.x, Y: top + .4}}
		for _, side := range []struct {
			x      geom.MM
			anchor render.Anchor
		}{{f.x + beside, render.Start}, {f.x - beside, render.End}} {
			b := f.label.box(side.x, top, side.anchor)
			if d.space.Contains(b) && around.free(b, .9) && d.clears(post) {
				d.leader(post.a, post.b)
				d.write("labels", f.label, side.x, top, side.anchor)
				return true
			}
		}
	}
	return false
}

// pillarArm writes the A-pillar's words at the end of a level arm forwards, into the empty corner over the bonnet.
func (d *drawing) pillarArm(l label) bool {
	foot, head := d.onPage(d.plan.PillarFoot()), d.onPage(d.plan.PillarHead())
	for _, share := range []float64{.8, .7, .9, .6, .5, .4, .3, .2} {
		at := foot.Lerp(head, share)
		for long := geom.MM(5); long < 60; long++ {
			end := point{X: at.X - long, Y: at.Y}
			b := l.box(end.X-1, at.Y-l.lift(), render.End)
			if d.space.Contains(b) && d.free(b, 1.2) && d.clears(segment{at, end}) {
				d.leader(at, end)
				d.write("labels", l, end.X-1, at.Y-l.lift(), render.End)
				return true
			}
		}
	}
	return false
}

// topLane writes all call-outs in one row above the figure, posts straight up: there is always room for that row.
func (d *drawing) topLane() error {
	flags := d.flags()
	if d.wants("pillar") {
		head := d.onPage(d.plan.PillarHead())
		flags = append(flags, flag{x: head.X, y: head.Y, label: d.pillarWords()})
	}
	sort.SliceStable(flags, func(i, j int) bool { return flags[i].x < flags[j].x })
	var anchors, sizes []geom.MM
	for _, f := range flags {
		anchors, sizes = append(anchors, f.x), append(sizes, f.label.width)
	}
	centres := pushApart(anchors, sizes, 3, d.space.Min.X, d.space.Max.X)
	if centres == nil {
		return tight("the row of call-outs")
	}
	bend := d.y(topOf(d.plan))
	foot := bend - 4
	for i, f := range flags {
		post := segment{point{X: f.x, Y: f.y}, point{X: f.x, Y: bend}}
		slant := segment{post.b, point{X: centres[i], Y: foot + .6}}
		if foot-f.label.height < d.space.Min.Y || !d.clears(post) || !d.clears(slant) {
			return tight("the row of call-outs")
		}
		d.leader(post.a, post.b, slant.b)
		d.write("labels", f.label, centres[i], foot-f.label.height, render.Middle)
	}
	return nil
}

// clearanceWords hangs the clearance from a post in the cusp between two counted wheels; bottom is where the strip begins.
func (d *drawing) clearanceWords(bottom geom.MM) {
	l := newLabel([]word{name("clearance "), value(d.length(d.plan.Clearance()))})
	if d.wants("checks") {
		l = newLabel(l.lines[0], []word{name("breakover "), value(angle(d.plan.Breakover()))})
	}
	for _, x := range []geom.MM{d.x(1.5), d.x(2.5), d.x(geom.Wheels(.5 + float64(wholeWheels(d.plan.WheelsBetween()))))} {
		for top := d.y(0) + 1.2; top+l.height < bottom; top += .5 {
			post := segment{point{X: x, Y: d.y(d.plan.Clearance())}, point{X: x, Y: top + l.height - .4}}
			if !d.clears(post) {
				continue
			}
			for _, side := range []struct {
				x      geom.MM
				anchor render.Anchor
			}{{x + 1.2, render.Start}, {x - 1.2, render.End}} {
				if d.free(l.box(side.x, top, side.anchor), .8) {
					d.leader(post.a, post.b)
					d.write("labels", l, side.x, top, side.anchor)
					return
				}
			}
		}
	}
}
