package job

import (
	"slices"
	"strconv"
	"strings"

	"hubrule/layout"
	"hubrule/render/format"
	"hubrule/segments"
)

// Flags returns the arguments and flags of a command that draws a job in some formats, without its files, and whether flags can say it
// all: the tweaks, pins and keeps of a command are those of every vehicle.
func Flags(j Job, formats ...format.Format) (words []string, ok bool) {
	first := bends(j.Plans[0])
	for _, p := range j.Plans {
		if b := briefOf(p); b.Title != "" || !slices.Equal(bends(p), first) {
			return nil, false
		}
		words = append(words, argument(p))
	}
	words = append(words, first...)
	for _, p := range j.Against {
		spec, plain := vehicleSpec(p)
		if !plain {
			return nil, false
		}
		words = append(words, "--against", spec)
	}
	w := &writer{}
	for _, s := range Settings() {
		of := s.AboutFiles(j.Setting.Paper) && slices.ContainsFunc(formats, s.Format)
		if s.Name == "against" || !of && (s.AboutFiles(j.Setting.Paper) || !s.UsedBy(j.Request)) {
			continue
		}
		value := s.write(w, j)
		switch plain := unquoted(value); {
		case value == "" || value == s.Default || plain == s.Default:
		case s.Bool && value == "true":
			words = append(words, "--"+s.Name)
		case s.Bool || strings.HasPrefix(plain, "-"):
			words = append(words, "--"+s.Name+"="+plain)
		default:
			words = append(words, "--"+s.Name, plain)
		}
	}
	return words, true
}

// unquoted returns a value in YAML as a flag has it.
func unquoted(value string) string {
	if text, err := strconv.Unquote(value); err == nil {
		return text
	}
	if list, ok := strings.CutPrefix(value, "["); ok {
		return strings.ReplaceAll(strings.TrimSuffix(list, "]"), ", ", ",")
	}
	return value
}

// argument names the vehicle of a plan.
func argument(p layout.Plan) string {
	b := briefOf(p)
	if b.Source == "" || segments.IsName(b.Source) {
		return b.Profile.Name
	}
	if strings.HasPrefix(b.Source, "-") {
		return "./" + b.Source
	}
	return b.Source
}

// items lists what bends a plan, as flags and comparisons write it.
func items(p layout.Plan) (tweaks, pins, keeps []string) {
	b := briefOf(p)
	for _, t := range b.Tweaks {
		name := t.Tweak.Name
		if t.Source != "" {
			name = t.Source
		}
		tweaks = append(tweaks, name+"="+inFull(t.Strength))
	}
	for _, f := range b.Pins {
		pins = append(pins, f.Figure.String()+"="+f.Text)
	}
	for _, k := range b.Keeps {
		keeps = append(keeps, k.Figure.String())
	}
	return tweaks, pins, keeps
}

// bends returns the flags that bend a plan.
func bends(p layout.Plan) (words []string) {
	tweaks, pins, keeps := items(p)
	for _, f := range []struct {
		flag  string
		items []string
	}{{"--tweak", tweaks}, {"--pin", pins}, {"--keep", keeps}} {
		for _, item := range f.items {
			words = append(words, f.flag, item)
		}
	}
	return words
}

// vehicleSpec writes a vehicle to compare with, and reports whether one word can.
func vehicleSpec(p layout.Plan) (spec string, plain bool) {
	tweaks, pins, keeps := items(p)
	words := slices.Concat([]string{argument(p)}, tweaks, pins)
	odd := slices.ContainsFunc(words, func(w string) bool { return strings.ContainsAny(w, "+,{") })
	return strings.Join(words, "+"), keeps == nil && briefOf(p).Title == "" && !odd
}
