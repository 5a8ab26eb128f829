package photo

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"hubrule/internal/geom"
	"hubrule/render"
	"hubrule/render/draft"
	"hubrule/segments"
	"hubrule/segments/reading"
)

// amount writes a figure and its ±: "2.21 ± 0.01", "29.1° ± 0.4°".
func amount(f segments.Figure, v reading.Value) string {
	decimals, unit := 2, ""
	if f.Info().Unit == segments.InDegrees {
		decimals, unit = 1, "°"
	}
	return draft.FormatFixed(v.Value, decimals) + unit + " ± " + draft.FormatFixed(max(v.PM, math.Pow10(-decimals)), decimals) + unit
}

// words writes the figures: lengths under the picture, the A-pillar and the glass over it, heights and all else at its side.
func (d *drawing) words() {
	d.lengths()
	if d.Against == nil {
		d.callouts()
	}
	bottom := d.heights()
	d.rest(bottom)
}

// lane places labels in a row, each near its anchor, with leaders from the picture; a label that finds no room is left to the list.
type inLane struct {
	label draft.Label
	from  draft.Point // where its leader begins
}

// row writes labels in a row whose tops lie at y, and returns whether there was room.
func (d *drawing) row(items []inLane, y geom.MM, below bool) bool {
	lane := draft.Lane{Lo: d.Space.Min.X, Hi: d.box.Max.X, Gap: 4}
	_, centres := draft.Distribute(items, lane, func(i inLane) (geom.MM, geom.MM) { return i.from.X, i.label.Width })
	for i, x := range centres {
		l := items[i].label.TopAt(x, y, render.Middle)
		end := draft.Pt(x, l.Box().Max.Y+.6)
		if below {
			end = draft.Pt(x, y-.6)
		}
		d.Leader(items[i].from, end)
		d.Write("labels", l)
	}
	return centres != nil
}

// lengths writes the lengths along the ground under the picture.
func (d *drawing) lengths() {
	var items []inLane
	for _, b := range d.bracketsRead() {
		v, _ := d.read(b.figure)
		middle := d.at((b.from+b.to)/2, -bracketDrop, 0)
		middle.Y = min(middle.Y, d.box.Max.Y)
		items = append(items, inLane{draft.OneLine(draft.Name(b.name+" "), draft.Value(amount(b.figure, v))), middle})
	}
	y := d.box.Max.Y + 3
	d.row(items, y, true)
	if v, ok := d.read(segments.Length); ok {
		base, _ := d.read(segments.Wheelbase)
		l := draft.OneLine(draft.Name("length "), draft.Value(amount(segments.Length, v)), draft.Name("    wheelbase "),
			draft.Value(amount(segments.Wheelbase, base)))
		d.Write("labels", l.TopAt((d.box.Min.X+d.box.Max.X)/2, y+l.Height+2, render.Middle))
	}
}

// callouts writes what leans: the A-pillar, and where the side glass ends, over the picture.
func (d *drawing) callouts() {
	var items []inLane
	if rake, ok := d.read(segments.PillarRake); ok {
		aim, _ := d.read(segments.PillarAim)
		high, _ := d.picture.Mark(reading.APillar, 1)
		items = append(items, inLane{draft.OneLine(draft.Name("A-pillar "), draft.Value(amount(segments.PillarRake, rake)),
			draft.Name(", aim "), draft.Value(amount(segments.PillarAim, aim))), d.onPage(high)})
	}
	if end, ok := d.read(segments.GlassEnd); ok {
		top, _ := d.length(segments.Height)
		at := d.at(d.base+d.q/2+geom.Wheels(end.Value), max(top, 1)+.1, d.picture.DepthOf(reading.GlassEnd, 0))
		at.Y = max(at.Y, d.box.Min.Y)
		items = append(items, inLane{draft.OneLine(draft.Name("glass end "), draft.Value(amount(segments.GlassEnd, end))), at})
	}
	d.row(items, max(d.Space.Min.Y, d.box.Min.Y-7), false)
}

// heights writes the levels beside the picture, each with a leader from its line, and returns where they end.
func (d *drawing) heights() geom.MM {
	_, to := d.extent()
	var items []inLane
	for _, l := range levelsRead() {
		v, ok := d.read(l.figure)
		if !ok {
			continue
		}
		at := d.at(to, geom.Wheels(v.Value)+d.rise(l.figure, to), d.picture.DepthOf(l.mark, 0))
		at.X = min(at.X, d.box.Max.X)
		items = append(items, inLane{draft.OneLine(draft.Name(l.name+" "), draft.Value(amount(l.figure, v))), at})
	}
	items = slices.DeleteFunc(items, func(i inLane) bool { return d.Against != nil })
	lane := draft.Lane{Lo: d.box.Min.Y, Hi: d.box.Max.Y, Gap: 1.2}
	_, centres := draft.Distribute(items, lane, func(i inLane) (geom.MM, geom.MM) { return i.from.Y, i.label.Height })
	bottom := d.box.Min.Y
	for i, y := range centres {
		x := d.box.Max.X + 7
		d.Leader(items[i].from, draft.Pt(d.box.Max.X+2, items[i].from.Y), draft.Pt(x-1, y))
		d.Write("labels", items[i].label.MiddleAt(x, y, render.Start))
		bottom = max(bottom, y)
	}
	return bottom
}

// rest lists at the side what has no place on the picture: other figures, or how each lies to what the picture is held against.
func (d *drawing) rest(below geom.MM) {
	var lines [][]draft.Word
	if d.Against == nil {
		lines = d.otherFigures()
	} else {
		lines = d.differences()
	}
	x := d.box.Max.X + 7
	if d.Against != nil {
		x = d.box.Max.X + 3
	}
	l := draft.NewLabel(lines...)
	top := d.box.Min.Y
	if d.Against == nil {
		top = max(below+6, d.box.Max.Y-l.Height)
	}
	for len(lines) > 1 && top+l.Height > d.Space.Max.Y {
		lines = lines[:len(lines)-1]
		l = draft.NewLabel(lines...)
	}
	if len(lines) > 0 {
		d.Write("labels", l.TopAt(x, top, render.Start))
	}
}

// otherFigures lists the figures that stand nowhere else.
func (d *drawing) otherFigures() (lines [][]draft.Word) {
	for _, f := range []segments.Figure{
		segments.GreenhouseToBody, segments.BeltRise, segments.Cowl, segments.ScreenBase, segments.BonnetEdge, segments.FrontLamp,
		segments.LampDepth, segments.RearLamp, segments.ArchGap, segments.HeaderDrop, segments.Deck, segments.TailFoot, segments.Chin,
		segments.TailLow,
	} {
		if v, ok := d.read(f); ok {
			lines = append(lines, []draft.Word{draft.Name(strings.ReplaceAll(f.String(), "-", " ") + " "), draft.Value(amount(f, v))})
		}
	}
	return lines
}

// differences lists what to move, the farthest off first, then what cannot be told.
func (d *drawing) differences() [][]draft.Word {
	const onSheet = " on your sheet" // said once, in the heading
	lines := [][]draft.Word{{draft.Heading("against "+d.Name, draft.Small)}}
	if d.picture.WheelOnSheet() > 0 {
		lines[0] = append(lines[0], draft.Note(", mm"+onSheet))
	}
	all := slices.Clone(d.Differences)
	slices.SortStableFunc(all, func(a, b reading.Difference) int { return cmp.Compare(b.Weight(), a.Weight()) })
	all = slices.DeleteFunc(all, func(m reading.Difference) bool { return slices.Contains(follows, m.Figure) })
	var unsure [][]draft.Word
	for _, m := range all {
		words := m.Words()
		switch {
		case words == "":
		case m.CannotTell:
			unsure = append(unsure, []draft.Word{draft.Note(words + ": cannot tell")})
		default:
			accent := draft.Value(words)
			accent.Role = draft.Accent
			line := []draft.Word{accent}
			if on := strings.TrimSuffix(d.Reading.OnPaper(m, ", "), onSheet); on != "" {
				line = append(line, draft.Note(on))
			}
			lines = append(lines, line)
		}
	}
	if len(lines) == 1 {
		lines = append(lines, []draft.Word{draft.Note("all that was read lies as it should")})
	}
	return append(lines, unsure...)
}

// follows are figures that say again what others in the list say.
var follows = []segments.Figure{
	segments.Wheelbase, segments.FrontOverhangAxle, segments.RearOverhangAxle, segments.BodySide, segments.Greenhouse, segments.LampOffset,
	segments.PillarFoot, segments.PillarHead,
}
