package job

import (
	"errors"
	"slices"
	"strings"

	"hubrule/internal/slice"
	"hubrule/layout"
	"hubrule/segments"
	"hubrule/segments/strict"
)

// wantVehicle says how a vehicle is written.
const wantVehicle = "SEGMENT+TWEAK=STRENGTH or SEGMENT+FIGURE=VALUE, like suv+sporty=0.5+height=2.2w"

// SplitVehicles cuts lists of vehicles on the command line at their commas. A file may have one in its name.
func SplitVehicles(words []string) []string {
	var out []string
	for _, word := range words {
		if isFile(word) {
			out = append(out, word)
		} else {
			out = append(out, strict.SplitList(word, ',')...)
		}
	}
	return out
}

// parseAgainst reads what overlays compare the vehicles with. Every mistake is reported with the words that hold it.
func parseAgainst(j *Job, words []string) error {
	var wrong []error
	for _, word := range words {
		b, err := vehicleAgainst(j, word)
		wrong = append(wrong, err)
		c := Compared{Brief: b}
		c.stands("--against "+word, "")
		j.Compared = append(j.Compared, c)
		j.Against = append(j.Against, layout.Plan{Profile: b.Profile, Brief: b})
	}
	return errors.Join(wrong...)
}

// stands sets where a vehicle is asked for: a clash then names where its pins stand. Those of files that it names stay where they are.
func (c *Compared) stands(place, key string) {
	c.Place = place + key
	move := func(o *segments.Origin) {
		if !o.InFile || strings.HasPrefix(o.Place, "--against ") {
			*o = segments.Origin{Place: place}
		}
	}
	for i := range c.Brief.Pins {
		move(&c.Brief.Pins[i].Origin)
	}
	for i := range c.Brief.Keeps {
		move(&c.Brief.Keeps[i].Origin)
	}
}

// vehicleAgainst reads one vehicle.
func vehicleAgainst(j *Job, word string) (segments.Brief, error) {
	spec := segments.VehicleSpec(word)
	if spec.IsTable() {
		b, err := library(j.files).ParseTable(spec, "--against "+word)
		if err != nil {
			return b, fileError{word, err}
		}
		return b, nil
	}
	segment, items := spec.Split()
	switch {
	case segment == "":
		return segments.Brief{}, wordError{word, "want SEGMENT, " + wantVehicle}
	case slices.Equal(items, []string{""}):
		return segments.Brief{}, wordError{word, "nothing after the +; want " + wantVehicle}
	case slices.Contains(items, ""):
		return segments.Brief{}, wordError{word, strict.EmptyItem}
	case !segments.IsName(segment):
		j.Files = append(j.Files, segment)
	}
	base, err := loadVehicle(j.files, segment, nil)
	var unknown segments.UnknownName
	if errors.As(err, &unknown) {
		if name, _, _ := strings.Cut(segment, "="); slices.Contains(segments.TweakNames(), name) || isPin(segment) {
			return base, wordError{word, "want a segment before it; a + joins it to its segment, a comma begins another vehicle"}
		}
		return base, wordError{word, unknown.Error()}
	} else if err != nil {
		return base, fileError{word, err}
	}
	r := overrider{library: library(j.files), brief: base, from: map[segments.Figure]string{}}
	tweaks := slices.DeleteFunc(slices.Clone(items), isPin)
	r.tweaks(tweaks, "")
	for _, item := range items {
		if isPin(item) {
			r.pin(item, "")
		}
	}
	r.bounds()
	all := slice.Map(r.wrong, func(text string) error { return wordError{word, text} })
	for _, err := range r.inFiles {
		all = append(all, fileError{word, err})
	}
	return r.brief, errors.Join(all...)
}

// isPin reports whether an item after a segment is a pin, not a tweak: it names a figure, or something nearer to one.
func isPin(item string) bool {
	name, _, _ := strings.Cut(item, "=")
	if _, known := segments.Lookup(strings.ToLower(name)); known || segments.FigureHint(name) != "" {
		return true
	}
	return segments.IsName(name) && strict.Nearest(name, segments.TweakNames()) == "" &&
		strict.Nearest(name, segments.Brief{}.Pinnable()) != ""
}
