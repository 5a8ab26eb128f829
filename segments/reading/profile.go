package reading

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"path/filepath"
	"strconv"
	"strings"

	"hubrule/internal/slice"
	"hubrule/layout"
	"hubrule/segments"
	"hubrule/segments/strict"
)

// Profile returns the reading as a profile that can be drawn: what was read as it was read, with its ± as the range, and everything else
// as in the segment that the vehicle is like, or in the nearest one where none is named. Notes are whole sentences: what was left out
// and why, and which figures cannot be drawn as they were read.
func (r Reading) Profile() (p *segments.Profile, notes []string, err error) {
	base := r.Like
	if base == nil {
		if base, err = nearest(r); err != nil {
			return nil, nil, err
		}
		notes = append(notes, fmt.Sprintf("%s: no segment named; what was not read is as in %s, the nearest by what was", r.Name, base.Name))
	}
	d := draft{name: r.Name, verb: "was read as"}
	d.profile = extend(base, r.Name, "read from "+r.source())
	if r.Wheel.Diameter > 0 {
		d.profile.SetTyres(r.Wheel, cmp.Or(r.RearWheel, r.Wheel))
	} else {
		notes = append(notes, fmt.Sprintf("%s: no tyre named; millimetres are those of %s on %s", r.Name, base.Name, base.Wheel))
	}
	for f, v := range r.Figures {
		f := segments.Figure(f)
		if why := r.refusal(f, base.Form); v.State == Read && why != "" {
			d.note("%s", why)
		} else if v.State == Read {
			d.read[f] = v
		}
	}
	d.basis = r.basis
	if err := d.finish(); err != nil {
		return nil, nil, err
	}
	return d.profile, append(notes, d.notes...), nil
}

// refusal says why figure f cannot be used as it was read; "" where it can.
func (r Reading) refusal(f segments.Figure, form segments.Form) string {
	info, v := f.Info(), r.Figures[f].Value
	switch {
	case info.Unit == segments.InMM || info.Unit == segments.AsWord:
		return ""
	case !form.Has(f):
		return fmt.Sprintf("%s was read, and a %s has none; left out", f, form)
	case !(v >= info.Lo && v <= info.Hi):
		return fmt.Sprintf("%s %s was read, and a vehicle has %s to %s; left out", f, amount(f, v), amount(f, info.Lo), amount(f, info.Hi))
	}
	return ""
}

// basis is the line that says where a figure comes from: from readings of others, if not of its own.
func (r Reading) basis(f segments.Figure, e estimate, from []segments.Figure) string {
	line := "M read from " + r.source()
	if from != nil {
		line = "M from " + names(from) + " read from " + r.source()
	}
	line += ", ± " + amount(f, e.pm())
	if most := r.Figures[f].MostFrom; most != "" {
		line += ", most of it " + most
	}
	return line
}

// source names what was read without its folder, which means nothing elsewhere.
func (r Reading) source() string { return filepath.Base(r.Source) }

// nearest returns the segment that the figures read fit best.
func nearest(r Reading) (*segments.Profile, error) {
	pins := r.pins()
	if len(pins) == 0 {
		return nil, errors.New(r.Name + ": no figure was read, and no segment is named; want one of them")
	}
	return layout.Rank(pins, segments.All())[0].Segment, nil
}

// Rank compares what was read with every segment, the likeliest first: see [layout.Rank]. It returns nil where nothing was read.
func (r Reading) Rank(among []*segments.Profile) []layout.Likeness {
	if pins := r.pins(); len(pins) > 0 {
		return layout.Rank(pins, among)
	}
	return nil
}

// pins returns what was read as pins, with the tyre at the front if it is known; none where no figure but the tyre was read.
func (r Reading) pins() (out []segments.Pin) {
	for f, v := range r.Figures {
		f := segments.Figure(f)
		if v.State == Read && f.Info().Role != segments.Given && r.refusal(f, segments.ThreeBox) == "" {
			out = append(out, pinOf(f, exactly(f, v.Value), r.Source))
		}
	}
	if len(out) == 0 {
		return nil
	}
	for _, t := range []struct {
		f    segments.Figure
		tyre segments.Tyre
	}{{segments.Wheel, r.Wheel}, {segments.RearWheel, r.RearWheel}} {
		if t.tyre.Diameter > 0 {
			out = append(out, pinOf(t.f, t.tyre.String(), r.Source))
		}
	}
	return out
}

// pinOf makes a pin of a text that this package wrote.
func pinOf(f segments.Figure, text, place string) segments.Pin {
	pin, err := segments.ParsePin(f, text)
	if err != nil {
		panic("reading: " + err.Error())
	}
	pin.Origin = segments.Origin{Place: place, InFile: true}
	return pin
}

// extend starts a profile from a base, under a name of its own.
func extend(base *segments.Profile, name, summary string) *segments.Profile {
	p := base.Extended(name)
	p.Title = cmp.Or(oneLine(name, 40), base.Title) // as many characters as a profile's title and line may have
	p.Summary = oneLine(summary, 120)
	if base.Pins != nil { // what it fixes becomes what it has: a pin would hold against what was read
		if plan, err := layout.Solve(segments.Brief{Profile: base, Pins: base.Pins}); err == nil {
			for f := segments.WheelsBetween; f <= segments.Tumblehome; f++ {
				if base.Form.Has(f) {
					assume(p, f, plan.Value(f))
				}
			}
			p.Pins = nil
		}
	}
	return p
}

// oneLine returns text without control characters, cut after so many characters.
func oneLine(text string, most int) string {
	text = strings.Map(func(r rune) rune {
		if _, found := strict.Control(string(r)); found {
			return -1
		}
		return r
	}, text)
	if letters := []rune(text); len(letters) > most {
		text = string(letters[:most-1]) + "…"
	}
	return strings.TrimSpace(text)
}

// exactly writes a value as profiles have it, with four decimals at most.
func exactly(f segments.Figure, x float64) string {
	text := strict.FormatNumber(rounded(x))
	if f.Info().Unit == segments.InWheels {
		text += "w"
	}
	return text
}

// amount writes a value for people: to a thousandth of a wheel, a tenth of a degree.
func amount(f segments.Figure, x float64) string { return amountTo(f, x, 0) }

// amountTo writes a value with so many more decimals.
func amountTo(f segments.Figure, x float64, more int) string {
	decimals, unit := 3+more, ""
	switch f.Info().Unit {
	case segments.InWheels:
		unit = "w"
	case segments.InDegrees:
		decimals, unit = 1+more, "°"
	}
	part := math.Pow10(decimals)
	return strict.FormatNumber(math.Round(x*part)/part) + unit
}

// apart writes two values with as many decimals as show which is larger.
func apart(f segments.Figure, a, b float64) (string, string) {
	more := 0
	for more < 3 && amountTo(f, a, more) == amountTo(f, b, more) {
		more++
	}
	return amountTo(f, a, more), amountTo(f, b, more)
}

// rounded returns x with four decimals, as a file that is read again gives it.
func rounded(x float64) float64 {
	x, _ = strict.ParseNumber(strconv.FormatFloat(x, 'f', 4, 64))
	return x
}

// names joins the names of figures.
func names(figures []segments.Figure) string {
	return strings.Join(slice.Map(figures, segments.Figure.String), ", ")
}
