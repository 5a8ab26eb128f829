package sheet

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/render"
	"hubrule/render/request"
	"hubrule/segments"
)

// about is what the job's files say of themselves.
func (job driver) about() render.About {
	return render.About{Author: job.Setting.Author, Job: Written(job.Request, nil)}
}

// Written returns the job as a brief in YAML: what was meant, however it was said, so that one job has one text. Kinds and paper are
// always there, other settings where they change something. Named writes the path of a user's own file as YAML; nil keeps
// the names of files and folders out, and comments say what is missing.
func Written(r request.Request, named func(path string) string) string {
	job := driver{r}
	w := jobWriter{named: named}
	w.line("kind", "brief")
	lines, remarks := briefOf(job.Plans[0]).YAMLLines(named)
	for _, l := range lines {
		w.line(l.Key, l.Value)
	}
	for _, r := range remarks {
		w.remark(r)
	}
	w.vehicles("also", job.Plans[1:])
	w.line("sheets", list(job.Kinds))
	if slices.ContainsFunc(job.Kinds, request.Kind.HasBlanks) && job.Setting.GivenLevel() != request.GivenWheels {
		w.line("given", strconv.Itoa(job.Setting.GivenLevel()))
	}
	w.vehicles("against", job.Against)
	byItself := job
	byItself.Count = 0
	if job.Count != 0 && job.Count != byItself.Thumbnails() {
		w.line("count", strconv.Itoa(job.Count))
	}
	w.views(job)
	w.onPaper(job.Setting)
	w.looks(job)
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

// jobWriter writes a job line by line.
type jobWriter struct {
	text  strings.Builder
	named func(path string) string
}

func (w *jobWriter) line(key, value string) { fmt.Fprintf(&w.text, "%s: %s\n", key, value) }

func (w *jobWriter) remark(text string) { fmt.Fprintf(&w.text, "# %s\n", text) }

// vehicles writes further plans as a list under key. What cannot be drawn again without a user's own file is a remark.
func (w *jobWriter) vehicles(key string, plans []layout.Plan) {
	var items, remarks []string
	for _, p := range plans {
		lines, told := briefOf(p).YAMLLines(w.named)
		if len(lines) == 0 || lines[0].Key != "segment" {
			told[0] += " " + segments.FlowMapping(lines)
		} else {
			items = append(items, segments.FlowMapping(lines))
		}
		remarks = append(remarks, told...)
	}
	if len(items) > 0 {
		w.line(key, "["+strings.Join(items, ", ")+"]")
	}
	for _, r := range remarks {
		w.remark(key + ": " + r)
	}
}

// onPaper writes paper and scale. A size that has a name goes by it; two names of one size are one.
func (w *jobWriter) onPaper(s request.Setting) {
	name, upright := digits(s.Paper.Width)+"x"+digits(s.Paper.Height)+"mm", false
	for _, p := range request.Papers() {
		turned := p.Upright()
		lies, stands := p.Width == s.Paper.Width && p.Height == s.Paper.Height, turned.Width == s.Paper.Width && turned.Height == s.Paper.Height
		if lies || stands {
			name, upright = p.Name, stands
		}
	}
	w.line("paper", name)
	w.only(upright, "portrait", "true")
	switch {
	case s.Scale.Wheel > 0:
		w.line("scale", "wheel="+digits(s.Scale.Wheel)+"mm")
	case s.Scale.Reduction > 0:
		w.line("scale", strconv.Quote("1:"+strconv.FormatFloat(s.Scale.Reduction, 'f', -1, 64))) // plain, YAML may take it for a time
	}
	w.only(s.Tile, "tile", "true")
}

// digits writes a length so that it is read as the same one.
func digits(l geom.MM) string { return strconv.FormatFloat(float64(l), 'f', -1, 64) }

// only writes a line where it says more than its absence does.
func (w *jobWriter) only(differs bool, key, value string) {
	if differs {
		w.line(key, value)
	}
}

// looks writes the other settings.
func (w *jobWriter) looks(job driver) {
	s := job.Setting
	w.only(s.Facing == request.Right, "facing", string(s.Facing))
	if s.Guides != nil {
		chosen := slices.DeleteFunc(request.Guides(), func(g request.Guide) bool { return !slices.Contains(s.Guides, g) })
		w.line("guides", list(chosen))
	}
	w.only(s.Labels != request.FullLabels && s.Labels != "", "labels", string(s.Labels))
	w.only(s.Units != request.Wheels && s.Units != "", "units", string(s.Units))
	w.only(job.inked(), "ink", string(s.Ink))
	w.only(job.outlined(), "outline", strconv.FormatBool(s.Outline == request.On))
	w.only(s.Checks, "checks", "true")
	w.only(s.Frame, "frame", "true")
	w.only(s.Title != "", "title", strconv.Quote(s.Title))
	w.only(s.Author != "", "author", strconv.Quote(s.Author))
}

// inked reports whether the ink that was chosen is not what some kind of sheet has by itself.
func (job driver) inked() bool {
	byKind := job
	byKind.Setting.Ink = ""
	return slices.ContainsFunc(job.Kinds, func(k request.Kind) bool { return job.Ink(k) != byKind.Ink(k) })
}

// outlined reports whether the choice about the outline is not what some kind of sheet has by itself.
func (job driver) outlined() bool {
	return job.Setting.Outline != request.ByKind && slices.ContainsFunc(job.Kinds, func(k request.Kind) bool {
		return k.Outline() != job.Setting.Outline
	})
}

// list writes names as YAML.
func list[T ~string](names []T) string {
	words := make([]string, len(names))
	for i, n := range names {
		words[i] = string(n)
	}
	return "[" + strings.Join(words, ", ") + "]"
}
