package reading

import (
	"cmp"
	"math"
	"slices"

	"hubrule/internal/geom"
	"hubrule/internal/parallel"
	"hubrule/segments"
)

// Narrowing is what one more thing that is known of a picture would gain: the figure whose ± it narrows most in relation to that.
type Narrowing struct {
	What     string // a mark, or a key of marks files
	With     string // the mark of the other axle, where both are set; else ""
	Count    int    // points to set on each; 0 for a key
	Figure   segments.Figure
	From, PM float64 // its ± now and then
}

func (n Narrowing) gain() float64 { return 1 - n.PM/n.From }

// What is not worth a hand's work, and how many are listed: judged by eye.
const (
	leastGain    = .1
	mostListed   = 4
	enoughOnTyre = 8
	moreOnTyre   = 12
	enoughOnFar  = 4
)

// Narrowings lists what would narrow the reading, the best first. Each is tried: set where the camera that was found sees it, as exactly as
// the other marks are, and read again.
func (r Reading) Narrowings() []Narrowing {
	if r.Picture == nil {
		return nil
	}
	tries := r.Picture.tries()
	found := make([]Narrowing, len(tries))
	parallel.Do(len(tries), func(i int) {
		if then, err := tries[i].marks.Reading(); err == nil {
			found[i] = r.narrowedBy(then)
			found[i].What, found[i].With, found[i].Count = tries[i].what, tries[i].with, tries[i].count
		}
	})
	found = slices.DeleteFunc(found, func(n Narrowing) bool { return n.From == 0 || n.gain() < leastGain })
	slices.SortStableFunc(found, func(a, b Narrowing) int { return cmp.Compare(b.gain(), a.gain()) })
	return found[:min(len(found), mostListed)]
}

// narrowedBy finds the figure whose ± a later reading narrows most.
func (r Reading) narrowedBy(then Reading) (best Narrowing) {
	again := []segments.Figure{segments.Wheelbase, segments.FrontOverhangAxle, segments.RearOverhangAxle} // what others say in other words
	for f := range segments.FigureCount {
		was, is := r.Figures[f], then.Figures[f]
		if slices.Contains(again, f) || was.State != Read && was.State != Unreadable || is.State != Read || was.PM < leastPM(f) {
			continue
		}
		if n := (Narrowing{Figure: f, From: was.PM, PM: is.PM}); best.From == 0 || n.gain() > best.gain() {
			best = n
		}
	}
	return best
}

// try is the marks of a picture with one thing more.
type try struct {
	marks      Marks
	what, with string
	count      int
}

// tries lists what may be added to the marks.
func (p *Picture) tries() (out []try) {
	add := func(what string, set func(*Marks)) {
		t := try{marks: *p.marks, what: what}
		set(&t.marks)
		out = append(out, t)
	}
	m := p.marks
	out = append(out, p.pairs(TyreFront, TyreRear, p.moreOnTyre)...)
	if m.Sheet != nil {
		return out
	}
	out = append(out, p.pairs(FarFront, FarRear, p.onFarTyre)...)
	if ground := p.onGround(); len(m.Points[Ground]) == 0 && ground != nil && !slices.Contains(m.Hidden, Ground) {
		add(Ground.String(), func(m *Marks) { m.Points[Ground] = ground })
		out[len(out)-1].count = len(ground)
	}
	if !m.lensKnown() {
		focal := equivalent(p.camera.focalPixels(), math.Hypot(float64(m.Width), float64(m.Height)))
		add("focal", func(m *Marks) { m.Focal = focal })
	}
	if m.HalfWidth == 0 && m.Like == nil {
		add("half-width", func(m *Marks) { m.HalfWidth = usualHalfWidth })
	}
	return out
}

// pairs adds points to a mark of the front axle and that of the rear one: to both at once where both have room for some.
func (p *Picture) pairs(front, rear Name, more func(axle int, n Name) []Mark) []try {
	t := try{marks: *p.marks}
	for axle, n := range []Name{front, rear} {
		if slices.Contains(p.marks.Hidden, n) {
			continue
		}
		points := more(axle, n)
		if len(points) == 0 {
			continue
		}
		t.marks.Points[n] = slices.Concat(p.marks.Points[n], points)
		if t.count = max(t.count, len(points)); t.what == "" {
			t.what = n.String()
		} else {
			t.with = n.String()
		}
	}
	if t.what == "" {
		return nil
	}
	return []try{t}
}

// moreOnTyre returns points for the largest gaps among the marks of a near tyre: on its flanks, not on its lowest sixth.
func (p *Picture) moreOnTyre(axle int, n Name) (out []Mark) {
	has := len(p.marks.Points[n])
	if has == 0 {
		return nil
	}
	want := enoughOnTyre
	if has >= want {
		want = moreOnTyre
	}
	var taken []float64
	plane, tyre := newView(&p.camera, 0), p.camera.wheel(axle)
	for _, s := range p.marks.sightings(n) {
		at, _ := plane.back(s.at)
		d := at.sub(tyre.centre)
		taken = append(taken, math.Atan2(d.x, -d.y))
	}
	for range want - has {
		best, widest := 0., -1.
		for turn := -150.; turn <= 150; turn += 5 {
			if math.Abs(turn) < 30 {
				continue
			}
			angle, gap := turn*math.Pi/180, math.Inf(1)
			for _, other := range taken {
				gap = min(gap, math.Abs(math.Remainder(angle-other, 2*math.Pi)))
			}
			if gap > widest {
				best, widest = angle, gap
			}
		}
		taken = append(taken, best)
		if k, ok := p.seenAt(tyre.at(best), 0); ok {
			out = append(out, k)
		}
	}
	return out
}

// at returns the point of a circle so far from its lowest one, rearwards.
func (c circle) at(angle float64) vec {
	sin, cos := math.Sincos(angle)
	return vec{c.centre.x + c.radius*sin, c.centre.y - c.radius*cos}
}

// onFarTyre returns points of a far tyre that can be seen: under the sill, beside the near tyres.
func (p *Picture) onFarTyre(axle int, n Name) (out []Mark) {
	if len(p.marks.Points[n]) >= enoughOnFar-1 {
		return nil
	}
	const usualSill = .4
	depth, sill := -p.camera[track], usualSill
	in := p.marks.inputs()
	in.camera = p.camera
	if y := in.figures()[segments.Sill]; !math.IsNaN(y) {
		sill = y
	}
	near := newView(&p.camera, 0)
	var open []float64
	for turn := -75.; turn <= 75; turn += 5 {
		angle := turn * math.Pi / 180
		seen := newView(&p.camera, depth).toPicture.apply(p.camera.wheel(axle).at(angle))
		at, _ := near.back(seen)
		hidden := at.y > sill
		for i := range 2 {
			tyre := p.camera.wheel(i)
			hidden = hidden || at.sub(tyre.centre).len() < tyre.radius
		}
		if !hidden {
			open = append(open, angle)
		}
	}
	switch known := p.marks.lensKnown() || p.marks.farMarked(); {
	case !known: // where the camera stood is not known well enough to tell what hides them
		open = []float64{-60 * math.Pi / 180, -25 * math.Pi / 180, 25 * math.Pi / 180, 60 * math.Pi / 180}
	case len(open) < enoughOnFar:
		return nil
	}
	for i := range enoughOnFar {
		if k, ok := p.seenAt(p.camera.wheel(axle).at(open[i*(len(open)-1)/(enoughOnFar-1)]), depth); ok {
			out = append(out, k)
		}
	}
	return out
}

// onGround returns where both near tyres meet the road.
func (p *Picture) onGround() []Mark {
	front, one := p.seenAt(vec{}, 0)
	rear, two := p.seenAt(vec{x: p.camera[wheelbase]}, 0)
	if !one || !two {
		return nil
	}
	return []Mark{front, rear}
}

// seenAt returns a mark where the camera sees a point of the body, if it lies on the picture.
func (p *Picture) seenAt(at vec, depth float64) (Mark, bool) {
	seen := p.Projection.At(geom.Wheels(at.x), geom.Wheels(at.y), geom.Wheels(depth))
	if p.FacesRight {
		seen.X = -seen.X
	}
	seen = seen.Add(Point{X: p.Width / 2, Y: p.Height / 2})
	return Mark{At: seen}, seen.X >= 0 && seen.Y >= 0 && seen.X <= p.Width && seen.Y <= p.Height
}
