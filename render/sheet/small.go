package sheet

import (
	"fmt"
	"strings"

	"hubrule/internal/geom"
	"hubrule/render/draft"
	"hubrule/render/request"
)

// When a wheel is small enough to speak of, and how much larger another way of printing has to make it, are judged by eye.
const (
	smallWheel = geom.MM(35) // by hand, less is hard to trace
	noticeably = 1.15
)

// largestHome is the longest side of the paper of ordinary printers. Who has larger paper knows of larger paper.
const largestHome geom.MM = 300

// smallWheelNote says what would make the wheel of a home printer's sheets larger, and how large, where it is small and something would.
// Only the fit is computed, of the side view.
func (d composer) smallWheelNote(wheel geom.MM) []string {
	paper := d.Setting.Paper
	traced, alone := d.Has(request.Trace), d.shareWheel() < 2
	if !d.Setting.SideOnly() || !d.Setting.Scale.Fits() || paper.DPI > 0 || max(paper.Width, paper.Height) > largestHome ||
		wheel == 0 || wheel >= smallWheel {
		return nil
	}
	upright := paper.Height > paper.Width
	if alone && !traced && !upright {
		return nil
	}
	var cures []string
	try := func(cure string, change func(*composer)) {
		other := d
		change(&other)
		if larger := other.best(d.Plans); larger >= wheel*noticeably {
			cures = append(cures, fmt.Sprintf("%s gives %s", cure, draft.FormatMM(larger)))
		}
	}
	if traced && !alone {
		try("--sheet trace alone", func(o *composer) { o.Kinds = []request.Kind{request.Trace} })
	}
	if upright {
		try("--landscape", func(o *composer) { o.Setting.Paper = paper.Landscape() })
	}
	if next, ok := nextLarger(paper); ok {
		try("--paper "+next.Name, func(o *composer) { o.Setting.Paper = next })
	}
	if cures == nil {
		return nil
	}
	return []string{fmt.Sprintf("the wheel is %s%s; %s", draft.FormatMM(wheel), d.whySmall(), strings.Join(cures, ", "))}
}

// shareWheel counts the kinds of sheet of the request that are drawn at one wheel.
func (d composer) shareWheel() (n int) {
	for _, k := range d.Kinds {
		if k == request.Full || k == request.Trace || k == request.Overlay || k.HasBlanks() {
			n++
		}
	}
	return n
}

// whySmall says what takes the room.
func (d composer) whySmall() string {
	switch {
	case d.Has(request.Overlay):
		return " because the overlay needs room"
	case d.HasBlanks():
		return " because the blanks need room"
	case d.Has(request.Full) && d.Setting.Labels == request.FullLabels:
		return " because the full sheet's notes need room"
	case d.Has(request.Full):
		return " because the full sheet's guides need room"
	}
	return " on the trace sheet"
}

// nextLarger returns the paper of twice the size of a home printer's, lying as it does; false for sizes of one's own.
func nextLarger(p request.Paper) (larger request.Paper, ok bool) {
	name, upright := p.Named()
	larger, ok = request.FindPaper(map[string]string{"A5": "A4", "A4": "A3", "letter": "tabloid"}[name])
	if upright {
		larger = larger.Portrait()
	}
	return larger, ok
}
