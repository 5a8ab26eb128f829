package outline

import (
	"fmt"
	"math"

	"hubrule/internal/geom"
	"hubrule/layout"
)

// endFaults checks what every nose, tail, lamp and door keeps, judged by eye and common practice: where the lower edge is lowest, that the
// front shut line stands nearly upright and off the arch, that lamps lie on the silhouette, and that both bumpers part at one height.
func endFaults(p layout.Plan, b *body, o Outline) []string {
	front, rear := b.frontLens(), b.rearLens()
	all := append(lowFaults(p, b), lensFaults(o, front, rear)...)
	tell := func(format string, args ...any) { all = append(all, fmt.Sprintf(format, args...)) }
	if b.shape.Doors > 0 {
		d := b.frontDoor()
		lean := math.Atan2(float64(d.frontTop.X-d.frontLow.X), float64(d.frontTop.Y-d.frontLow.Y)) * 180 / math.Pi
		if math.Abs(lean) > 4 {
			tell("front shut line leans %.1f°", lean)
		}
		if d.frontLow.X < p.FrontArch()+.05 {
			tell("front shut line %.3f behind the arch", d.frontLow.X-p.FrontArch())
		}
	}
	nose, tail := b.bumperEnds(front)
	if off := abs(nose[0].Y - tail[0].Y); off > .08+1e-9 {
		tell("bumpers part at %.3f and %.3f", nose[0].Y, tail[0].Y)
	}
	for _, line := range [2][2]point{nose, tail} {
		run := line[1].Sub(line[0])
		if slope := math.Abs(math.Atan2(float64(run.Y), math.Abs(float64(run.X)))) * 180 / math.Pi; slope > 8 {
			tell("bumper's line slopes by %.1f°", slope)
		}
	}
	if glass := b.sideGlass(); glass.split && b.shape.QuarterLight > 0 {
		edge := geom.Polyline(glass.line, chords)
		middle := (p.BeltAt(p.GlassEnd()) + geom.BoundsOf(glass.line).Max.Y) / 2
		_, end := extentAt(edge, middle)
		_, rearmost := extentAt(b.polyline, middle)
		if pillar := rearmost - end; pillar < .15 || pillar > .32 {
			tell("last pillar %.2f thick at mid-glass", pillar)
		}
	}
	return all
}

// lowFaults checks that a nose whose lower edge runs level out of the arch does so for about half of the way.
func lowFaults(p layout.Plan, b *body) []string {
	arch := b.frontArch()
	lip := arch.at(arch.To)
	if b.shape.Nose.Level == 0 || b.Chin()-lip.Y <= .012 {
		return nil
	}
	foremost := lip
	for _, q := range b.polyline {
		if q.Y > lip.Y+.004 {
			break
		}
		foremost = q
	}
	if share := (lip.X - foremost.X) / (lip.X - p.Nose()); share < .30 || share > .66 {
		return []string{fmt.Sprintf("lower edge is level for %.2f of the way to the nose", share)}
	}
	return nil
}

// lensFaults checks that the lenses' outer edges lie on the drawn upper line, and are high enough to be lamps.
func lensFaults(o Outline, lenses ...lens) []string {
	var all []string
	skin := geom.Polyline(o.Upper, 96)
	for _, l := range lenses {
		for _, q := range geom.Polyline(l.skin, 12) {
			if off := offBody(skin, q); off > .005 {
				all = append(all, fmt.Sprintf("lens %.4f off the skin at (%.3f, %.3f)", off, q.X, q.Y))
				break
			}
		}
		if high := l.highOuter.Y - l.lowOuter.Y; high < .04 {
			all = append(all, fmt.Sprintf("lens %.3f high at (%.3f, %.3f)", high, l.lowOuter.X, l.lowOuter.Y))
		}
	}
	return all
}
