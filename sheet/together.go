package sheet

import (
	"fmt"
	"slices"

	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/render"
	"hubrule/render/draft"
	"hubrule/render/request"
)

// The most that a page holds.
const (
	mostOverlaid = 4
	mostSpread   = 6
)

// Check reports which kind of sheet cannot show what is asked for, or returns nil.
func Check(r request.Request) error { return driver{Request: r}.check() }

func (job driver) check() error {
	if err := job.checkTile(); err != nil {
		return err
	}
	overlays := slices.Contains(job.Kinds, request.Overlay)
	n := len(job.Comparisons()[0])
	switch {
	case overlays && n < 2:
		return fmt.Errorf("an overlay wants something to compare with: a second segment, or --against")
	case overlays && n > mostOverlaid:
		return fmt.Errorf("an overlay holds at most %d vehicles; found %d", mostOverlaid, n)
	case len(job.Against) > 0 && !overlays:
		return fmt.Errorf("--against goes with --sheet overlay")
	case job.checkViews() != nil:
		return job.checkViews()
	case slices.Contains(job.Kinds, request.Spread) && len(job.Plans) > mostSpread:
		return fmt.Errorf("a spread holds at most %d vehicles; found %d", mostSpread, len(job.Plans))
	case !slices.Contains(job.Kinds, request.Thumbnails):
		if job.Count != 0 {
			return fmt.Errorf("--count goes with --sheet thumbnails")
		}
	case job.Count != 0 && (job.Count < request.LeastThumbnails || job.Count > request.MostThumbnails):
		return fmt.Errorf("--count: %d; want %d to %d", job.Count, request.LeastThumbnails, request.MostThumbnails)
	case job.Thumbnails() < len(job.Plans):
		return fmt.Errorf("--count: %d; want at least one for each of the %d segments", job.Count, len(job.Plans))
	case len(job.Plans) > request.MostThumbnails:
		return fmt.Errorf("thumbnails hold at most %d segments; found %d", request.MostThumbnails, len(job.Plans))
	}
	return nil
}

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
	if err := job.check(); err != nil {
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
