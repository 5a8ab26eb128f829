package job

import (
	"errors"
	"strings"

	"hubrule/layout"
	"hubrule/segments"
)

// parseAgainst reads what overlays compare the vehicles with. Every mistake is reported with the words that hold it.
func parseAgainst(j *Job, words []string) error {
	var wrong []error
	for _, word := range words {
		b, err := vehicleAgainst(j, word)
		wrong = append(wrong, err)
		// A clash then names where its pins stand.
		origin := segments.Origin{Place: "--against " + word}
		for i := range b.Pins {
			b.Pins[i].Origin = origin
		}
		for i := range b.Keeps {
			b.Keeps[i].Origin = origin
		}
		j.Compared = append(j.Compared, Compared{b, word})
		j.Against = append(j.Against, layout.Plan{Profile: b.Profile, Brief: b})
	}
	return errors.Join(wrong...)
}

// vehicleAgainst reads one vehicle.
func vehicleAgainst(j *Job, word string) (segments.Brief, error) {
	const want = "want SEGMENT or SEGMENT+TWEAK=STRENGTH,…, like suv+sporty=0.5"
	spec := segments.VehicleSpec(word)
	if spec.IsTable() {
		b, err := spec.ParseTable("--against " + word)
		if err != nil {
			return b, fileError{err}
		}
		return b, nil
	}
	segment, tweaks, bent := spec.Split()
	switch {
	case segment == "":
		return segments.Brief{}, wordError{word, want}
	case bent && tweaks == nil:
		return segments.Brief{}, wordError{word, "nothing after the +; want " + strings.TrimPrefix(want, "want SEGMENT or ")}
	case !segments.IsName(segment):
		j.Files = append(j.Files, segment)
	}
	base, err := LoadVehicle(segment, nil)
	var unknown segments.UnknownName
	if errors.As(err, &unknown) {
		return base, wordError{word, unknown.Error()}
	} else if err != nil {
		return base, fileError{err}
	}
	r := overrider{brief: base}
	r.tweaks(tweaks, "")
	r.bounds()
	var all []error
	for _, text := range r.wrong {
		all = append(all, wordError{word, text})
	}
	for _, err := range r.inFiles {
		all = append(all, fileError{err})
	}
	return r.brief, errors.Join(all...)
}
