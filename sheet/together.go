package sheet

import (
	"fmt"
	jobs "hubrule/internal/job"
	"slices"

	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/render"
	"hubrule/render/draft"
	"hubrule/render/request"
)

// sheetNumber says which page this is of how many; "" on handouts, which say it elsewhere.
func (job driver) sheetNumber(n int) string {
	if job.Handout {
		return ""
	}
	return fmt.Sprintf("sheet %d of %d", n, job.sheetCount())
}

func (job driver) sheetCount() int {
	total := job.more + len(job.Plans)*len(job.Each())
	for _, k := range job.Kinds {
		switch {
		case k == request.Overlay:
			total += len(job.Comparisons())
		case k.Together():
			total++
		}
	}
	return total
}

// allSets draws the sheets of each plan and those of all together, at the largest wheel that fits both.
func (job driver) allSets() (sets []set, shared []render.Page, err error) {
	if err := jobs.Check(job.Request); err != nil {
		return nil, nil, err
	}
	for limit := job.most; ; {
		if sets, err = job.sets(limit); err != nil {
			return nil, nil, err
		}
		wheel := sets[0].wheel
		shared, err = job.sharedPages(wheel)
		fits := job.Setting.Scale.Fits() && slices.Contains(job.Kinds, request.Overlay)
		if err == nil || !fits && !slices.Contains(job.Kinds, request.Overlay) {
			return sets, shared, err
		}
		if !fits {
			return nil, nil, job.overlayMisfit(wheel)
		}
		if limit = wheel - 2; limit < leastWheel {
			return nil, nil, fmt.Errorf("the overlay does not fit on %s: %w; use larger paper", job.Setting.Paper.Name, err)
		}
	}
}

// overlayMisfit is the error when an overlay does not fit at the wheel asked for.
func (job driver) overlayMisfit(asked geom.MM) error {
	what := fmt.Sprintf("the overlay does not fit on %s with a wheel of %s", job.Setting.Paper.Name, draft.OnPaper(asked))
	job.Setting.Scale = request.Scale{}
	sets, _, err := job.allSets()
	if err != nil {
		return fmt.Errorf("%s, nor at any other scale; use larger paper", what)
	}
	return fmt.Errorf("%s; --scale wheel=%gmm fits%s", what, float64(sets[0].wheel), job.orTiles())
}

// sharedPages draws the pages that show all plans, after those of each plan, in the order of their kinds.
func (job driver) sharedPages(wheel geom.MM) ([]render.Page, error) {
	var out []render.Page
	number := func() string { return job.sheetNumber(len(job.Plans)*len(job.Each()) + len(out) + 1) }
	for _, kind := range job.Kinds {
		switch kind {
		case request.Overlay:
			for _, plans := range job.Comparisons() {
				page, err := job.overlay(plans, wheel, number())
				if err != nil {
					return nil, err
				}
				out = append(out, page)
			}
		case request.Spread:
			page, err := job.spread(number())
			if err != nil {
				return nil, err
			}
			out = append(out, page)
		case request.Thumbnails:
			page, err := job.thumbnails(number())
			if err != nil {
				return nil, err
			}
			out = append(out, page)
		}
	}
	return out, nil
}

// callings returns a short name for each plan, no two alike and none wider than room: what bends it where all are of one segment, else its segment and what bends it.
func callings(plans []layout.Plan, room geom.MM) []string {
	alike := !slices.ContainsFunc(plans, func(p layout.Plan) bool { return p.Profile.Title != plans[0].Profile.Title })
	var out []string
	for i, p := range plans {
		s := p.Brief.Summary()
		switch {
		case alike && s == "":
			s = "typical"
		case !alike && s == "":
			s = p.Profile.Title
		case !alike:
			s = p.Profile.Title + ", " + s
		}
		if s = draft.Shortened(draft.Name(s), room).Text; slices.Contains(out, s) {
			s = draft.Shortened(draft.Name(fmt.Sprintf("%d %s", i+1, s)), room).Text
		}
		out = append(out, s)
	}
	return out
}

// figureWords is a figure's name as sheets write it.
func figureWords(f string) string {
	out := []rune(f)
	for i, r := range out {
		if r == '-' {
			out[i] = ' '
		}
	}
	return string(out)
}
