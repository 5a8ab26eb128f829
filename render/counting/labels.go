package counting

import (
	"fmt"
	"math"

	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/render"
	"hubrule/render/draft"
)

// The grid of places that are tried: their distance in wheels, and its half size in steps.
const (
	gridStep = .05
	gridRows = 8
)

// Over and under the wanted place they are tried in smaller steps: what is left over of a stack is no higher than its number.
const (
	fineStep = .01
	fineRows = 10
)

// Search is where a numeral may stand: the wanted place first, then outwards on a grid of a twentieth of a wheel.
type Search struct {
	wanted  layout.Point // from the wheel's centre
	within  geom.Wheels  // of the wheel's centre
	ceiling geom.Wheels  // its top stays below this height; 0: no ceiling
}

// At is a search for a place near (dx, dy) from a wheel's centre and within a distance of it.
func At(dx, dy, within geom.Wheels) Search { return Search{wanted: planPt(dx, dy), within: within} }

// numeral writes l at the spot nearest to the wanted one that is free by a gap, and reports whether there was one.
func (d *Drawing) numeral(l draft.Label, c layout.Point, s Search, gap geom.MM) bool {
	places := []layout.Point{s.wanted}
	for i := 1; i <= fineRows; i++ {
		up := planPt(0, geom.Wheels(i)*fineStep)
		places = append(places, s.wanted.Add(up), s.wanted.Sub(up))
	}
	for i := -gridRows; i <= gridRows; i++ {
		for j := -gridRows; j <= gridRows; j++ {
			if p := planPt(geom.Wheels(i)*gridStep, geom.Wheels(j)*gridStep); p.Len() <= s.within {
				places = append(places, p)
			}
		}
	}
	// No box that is tried below reaches further than this.
	across := d.MM(max(gridRows*gridStep, s.wanted.X, -s.wanted.X))
	up := d.MM(max(gridRows*gridStep, s.wanted.Y+fineRows*fineStep, fineRows*fineStep-s.wanted.Y))
	reach := draft.Pt(across+l.Width/2+1, up+l.Height/2+1)
	around := d.Within(draft.Box{Min: d.OnPage(c).Sub(reach), Max: d.OnPage(c).Add(reach)})
	nearest := geom.Wheels(math.Inf(1))
	var best draft.PlacedLabel
	for _, p := range places {
		at := d.OnPage(c.Add(p))
		placed := l.TopAt(at.X, at.Y-l.Height/2, render.Middle)
		tooHigh := s.ceiling > 0 && placed.Top < d.Y(s.ceiling)+.4
		if far := p.Sub(s.wanted).Len(); far < nearest && !tooHigh && around.Free(placed.Box(), gap) {
			nearest, best = far, placed
		}
	}
	if best.Lines == nil {
		return false
	}
	d.Write("labels", best)
	return true
}

// Numerals counts: in the upper half of each wheel, clear of axle line, sill and outline. Counts are what a sheet is for: they never give
// way to words.
func (d *Drawing) Numerals() error {
	if d.Wants("between") && !d.NumberRow(d.BetweenTyres(), At(0, .25, .38)) {
		return NoRoom("the counts between the wheels")
	}
	if d.Wants("stack") && !d.Labels.ValuesOnly { // the ladder gives the height
		return d.StackNumerals()
	}
	return nil
}

// CountIn writes a count into a wheel round c and reports whether there was a place. Small counts that find none stand closer to lines, or
// beside the wheel on a leader.
func (d *Drawing) CountIn(text string, c layout.Point, s Search) bool {
	l := draft.OneLine(d.Count(text))
	if d.numeral(l, c, s, countGap) {
		return true
	}
	return d.Labels.SmallCounts && (d.numeral(l, c, s, countGap/2) || d.besideWheel(l, c.Add(s.wanted)))
}

// countGap is how far counts keep clear of lines.
const countGap geom.MM = .6

// NumberRow counts the whole wheels of a row and reports whether all numbers found room.
func (d *Drawing) NumberRow(r Row, s Search) bool {
	all := true
	for i := range r.Whole() {
		all = d.CountIn(fmt.Sprint(i+1), r.Centre(i), s) && all
	}
	return all
}

// StackNumerals counts the stack. A left-over is written inside its used part, or else beside it on a leader.
func (d *Drawing) StackNumerals() error {
	p := d.Plan
	// A rear tyre of another size is no counted wheel: the title block gives the unit of the counts.
	all := !d.Wants("wheels") || p.TyreRatio() != 1 || d.CountIn("1", planPt(p.Wheelbase(), .5), At(.15, .2, .4))
	for k := 1; float64(k) < float64(p.Height())-LeastRest; k++ {
		c := planPt(p.Wheelbase(), geom.Wheels(k)+.5)
		part := min(1, p.Height()-geom.Wheels(k))
		if part >= .995 {
			all = d.CountIn(fmt.Sprint(k+1), c, At(0, .12, .46)) && all
			continue
		}
		l, inside := draft.OneLine(d.Count("+ "+draft.FormatFixed(float64(part), 2))), At(0, part/2-.5, .46)
		inside.ceiling = p.Height()
		all = (d.numeral(l, c, inside, countGap) || d.besideWheel(l, c.Add(inside.wanted))) && all
	}
	if !all {
		return NoRoom("the counts of the stack")
	}
	return nil
}

// besideWheel writes l beside a counted wheel, at the end of a leader from its used part at p: the nearest free place wins.
func (d *Drawing) besideWheel(l draft.Label, p layout.Point) bool {
	from := d.OnPage(p)
	var best draft.PlacedLabel
	var leader draft.Segment
	nearest := geom.MM(math.Inf(1))
	size := l.MiddleAt(from.X, from.Y, render.Start).Box()
	reach := draft.Pt(d.MM(1.5)+size.Width()+2, d.MM(1.2)+size.Height()+2)
	near := d.Within(draft.Box{Min: from.Sub(reach), Max: from.Add(reach)})
	for _, anchor := range []render.Anchor{render.Start, render.End} {
		out := geom.MM(1 - int(anchor)) // Start stands to the right of the leader's end, End to the left
		for along := geom.MM(3); along < d.MM(1.5); along++ {
			for up := -d.MM(.6); up < d.MM(1.2); up++ {
				post := draft.Segment{A: from, B: draft.Pt(from.X+out*along, from.Y-up)}
				placed := l.MiddleAt(post.B.X+geom.MM(out*.9), post.B.Y, anchor)
				far := post.B.Sub(from).Len()
				if far < nearest && d.Space.Contains(placed.Box()) && near.Free(placed.Box(), .9) && near.ClearsLabels(post) {
					nearest, leader, best = far, post, placed
				}
			}
		}
	}
	if best.Lines == nil {
		return false
	}
	d.Leader(leader.A, leader.B)
	d.Write("labels", best)
	return true
}

// LabelWithNote is a line of words and, where notes are written, a note under it.
func (d *Drawing) LabelWithNote(line []draft.Word, remark string) draft.Label {
	if !d.Labels.Notes {
		return draft.NewLabel(line)
	}
	return draft.NewLabel(line, []draft.Word{draft.Note(remark)})
}

// PillarReach is how long the arm to an A-pillar's words becomes on the sheet of one vehicle.
const PillarReach geom.MM = 60

// PillarCallout writes the A-pillar's words at the end of a level arm forwards, shorter than reach, into the empty corner over the bonnet.
func (d *Drawing) PillarCallout(l draft.Label, reach geom.MM) bool {
	foot, head := d.OnPage(d.Plan.PillarFoot()), d.OnPage(d.Plan.PillarHead())
	if d.Tiled { // so large that the windscreen lies further ahead
		reach = max(reach, d.MM(.9))
	}
	for _, share := range []float64{.8, .7, .9, .6, .5, .4, .3, .2} {
		at := foot.Lerp(head, share)
		for long := geom.MM(5); long < reach; long++ {
			if d.PlaceLabel(l.MiddleAt(at.X-long-1, at.Y, render.End), 1.2, at, draft.Pt(at.X-long, at.Y)) {
				return true
			}
		}
	}
	return false
}
