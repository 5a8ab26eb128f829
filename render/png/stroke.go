package png

import "math"

// loop is a closed polygon in an image.
type loop []pixelPoint

// smooth is the cosine of the largest turn (11 degrees) at which two chords count as parts of one curve, whose edge
// is mitred; at a sharper one the join is round.
const smooth = 0.98

// side is one chord of a polyline: its direction, of length 1, and how long it is.
type side struct {
	pixelPoint
	long float64
}

// outline returns what a pen of twice the given half width covers along c: convex polygons, all of one sense, that
// together are the line with butt ends and round joins.
func (c polyline) outline(half float64) []loop {
	sides := c.sides()
	var out []loop
	for i, d := range sides {
		from, to := c.points[i], c.points[(i+1)%len(c.points)]
		start, end := across(d.pixelPoint, half), across(d.pixelPoint, half)
		if before, ok := c.neighbour(sides, i-1); ok {
			if before.goesOnAs(d, half) {
				start = mitre(before.pixelPoint, d.pixelPoint, half)
			} else {
				out = append(out, join(from, before.pixelPoint, d.pixelPoint, half))
			}
		}
		if after, ok := c.neighbour(sides, i+1); ok && d.goesOnAs(after, half) {
			end = mitre(d.pixelPoint, after.pixelPoint, half)
		}
		out = append(out, loop{from.Add(start), to.Add(end), to.Sub(end), from.Sub(start)})
	}
	return out
}

// sides returns c's chords.
func (c polyline) sides() []side {
	n := len(c.points)
	if !c.closed {
		n--
	}
	out := make([]side, n)
	for i := range out {
		step := c.points[(i+1)%len(c.points)].Sub(c.points[i])
		out[i] = side{unit(step), length(step)}
	}
	return out
}

// neighbour returns side i; only closed polylines go on beyond their ends.
func (c polyline) neighbour(sides []side, i int) (side, bool) {
	if !c.closed && (i < 0 || i >= len(sides)) {
		return side{}, false
	}
	return sides[(i+len(sides))%len(sides)], true
}

// goesOnAs reports whether s and next are parts of one curve that is wide enough for the pen: in a tighter one the
// inner edges would cross, and what they hold would be wound round backwards.
func (s side) goesOnAs(next side, half float64) bool {
	cut := half * math.Abs(s.Cross(next.pixelPoint)) // of each chord, times 1 + cosine
	return s.Dot(next.pixelPoint) > smooth && cut < min(s.long, next.long)/2
}

// across is direction d turned by a quarter, at half the pen's width.
func across(d pixelPoint, half float64) pixelPoint { return pixelPoint{X: -d.Y, Y: d.X}.Times(half) }

// mitre is where the edges along a and b meet, as seen from their corner.
func mitre(a, b pixelPoint, half float64) pixelPoint { return across(a.Add(b), half/(1+a.Dot(b))) }

// join returns the sector that closes the outer side of a corner, in the sense of the chords' own polygons.
func join(at, a, b pixelPoint, half float64) loop {
	from, to := across(a, half), across(b, half)
	if a.Cross(b) > 0 {
		from, to = to.Times(-1), from.Times(-1)
	}
	out := loop{at, at.Add(from)}
	if a.Dot(b) < -smooth { // back along itself: the middle of the arc lies ahead
		ahead := a.Times(half)
		out = append(round(out, at, from, ahead, half), at.Add(ahead))
		from = ahead
	}
	return append(round(out, at, from, to, half), at.Add(to))
}

// round appends the arc's points between from and to, as seen from at; it halves until the chords are flat.
func round(out loop, at, from, to pixelPoint, half float64) loop {
	middle := from.Add(to)
	if half-float64(length(middle)/2) < flatness {
		return out
	}
	middle = unit(middle).Times(half)
	out = append(round(out, at, from, middle, half), at.Add(middle))
	return round(out, at, middle, to, half)
}

// dashed returns the dashes of c: pattern is dash, gap, dash, gap … in pixels, from the start of c.
func (c polyline) dashed(pattern []float64) []polyline {
	if c.closed {
		c.points = append(c.points[:len(c.points):len(c.points)], c.points[0])
	}
	var out []polyline
	run := []pixelPoint{c.points[0]}
	k, left := 0, pattern[0]
	for i, to := range c.points[1:] {
		from := c.points[i]
		whole := length(to.Sub(from))
		for done := 0.; ; {
			if left > whole-done {
				left -= whole - done
				break
			}
			done += left
			cut := from.Lerp(to, done/whole)
			if k%2 == 0 {
				out = appendOpen(out, append(run, cut))
			}
			run = []pixelPoint{cut}
			k++
			left = pattern[k%len(pattern)]
		}
		run = append(run, to)
	}
	if k%2 == 0 {
		out = appendOpen(out, run)
	}
	return out
}

// appendOpen appends the run as an open polyline, without repeated points.
func appendOpen(out []polyline, run []pixelPoint) []polyline {
	var c flattener
	for i := range run {
		c.to(run[0], run[i])
	}
	c.end(false)
	return append(out, c.lines...)
}
