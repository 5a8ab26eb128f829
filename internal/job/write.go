package job

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"hubrule/layout"
	"hubrule/render/format"
	"hubrule/render/png"
	"hubrule/render/request"
	"hubrule/segments"
)

// writer writes a job line by line.
type writer struct {
	text    strings.Builder
	named   func(path string) string
	remarks []string // after the line that is being written
}

func (w *writer) line(key, value string) {
	if value != "" {
		fmt.Fprintf(&w.text, "%s: %s\n", key, value)
	}
	w.flush()
}

func (w *writer) flush() {
	for _, r := range w.remarks {
		fmt.Fprintf(&w.text, "# %s\n", r)
	}
	w.remarks = nil
}

// settings writes those of some settings that the job uses and that do not have their default.
func (w *writer) settings(j Job, which func(Setting) bool) {
	for _, s := range Settings() {
		if !which(s) || s.Format == nil && !s.UsedBy(j.Request) {
			continue
		}
		if value := s.write(w, j); s.always || value != s.Default {
			w.line(s.Key, value)
		}
	}
}

// Written returns a request as a brief in YAML: equal requests have one text, however they were given. Kinds and paper
// are always there, other settings where they change something. Named writes the path of a user's own file as YAML; nil keeps the names
// of files and folders out, and comments say what is missing.
func Written(r request.Request, named func(path string) string) string {
	w := writer{named: named}
	w.line("kind", "brief")
	lines, remarks := briefOf(r.Plans[0]).YAMLLines(named)
	for _, l := range lines {
		fmt.Fprintln(&w.text, l)
	}
	w.remarks = remarks
	w.flush()
	w.line("also", w.vehicles("also", r.Plans[1:]))
	w.settings(Job{Request: r, Picture: format.Options{Options: png.Options{DPI: r.Setting.Paper.DPI}}},
		func(s Setting) bool { return !s.AboutFiles(r.Setting.Paper) })
	return w.text.String()
}

// WrittenOptions returns the lines of a brief about its files in those of some formats.
func WrittenOptions(j Job, formats ...format.Format) string {
	var w writer
	w.settings(j, func(s Setting) bool {
		return s.AboutFiles(j.Setting.Paper) && slices.ContainsFunc(formats, s.Format)
	})
	return w.text.String()
}

// briefOf returns what a plan was made for; of a typical plan that nobody asked for, its segment.
func briefOf(p layout.Plan) segments.Brief {
	b := p.Brief
	if b.Profile == nil {
		b.Profile = p.Profile
	}
	return b
}

// vehicles returns further plans as a list for key. What cannot be drawn again without a user's own file is a remark.
func (w *writer) vehicles(key string, plans []layout.Plan) string {
	var items []string
	for _, p := range plans {
		lines, remarks := briefOf(p).YAMLLines(w.named)
		if len(lines) == 0 || !strings.HasPrefix(lines[0], "segment: ") {
			remarks[0] += " " + segments.FlowMapping(lines)
		} else {
			items = append(items, segments.FlowMapping(lines))
		}
		for _, r := range remarks {
			w.remarks = append(w.remarks, key+": "+r)
		}
	}
	if items == nil {
		return ""
	}
	return yamlList(items)
}

// scaleText writes a scale; a reduction in quotes, since YAML may take it for a time.
func scaleText(s request.Scale) string {
	switch {
	case s.Wheel > 0:
		return "wheel=" + inFull(s.Wheel) + "mm"
	case s.Reduction > 0:
		return strconv.Quote("1:" + inFull(s.Reduction))
	}
	return ""
}

// inFull writes a number so that it is read as the same one.
func inFull[T ~float64](x T) string { return strconv.FormatFloat(float64(x), 'f', -1, 64) }

func ifTrue(yes bool) string {
	if yes {
		return "true"
	}
	return ""
}

// yamlList writes names as a list in YAML, "" of none.
func yamlList[T ~string](list []T) string {
	if len(list) == 0 {
		return ""
	}
	return "[" + strings.Join(request.Names(list), ", ") + "]"
}
