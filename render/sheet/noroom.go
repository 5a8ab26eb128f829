package sheet

import (
	"fmt"
	"slices"

	"hubrule/internal/geom"
	"hubrule/internal/job"
	"hubrule/layout"
	"hubrule/render/compare"
	"hubrule/render/counting"
	"hubrule/render/draft"
	"hubrule/render/request"
	"hubrule/render/side"
)

// noRoom is the error when a part does not fit at any wheel, for a reason if there is one to give.
func (d composer) noRoom(p part, reason error) error {
	if _, overlay := p.Drawing.(compare.Overlay); overlay && reason != nil {
		return fmt.Errorf("%s does not fit on %s: %w; use larger paper", p.name, d.Setting.Paper.Name, reason)
	}
	others, words := "", ""
	if len(d.Plans) > 1 {
		others = " beside the others of this command"
	}
	if _, isSide := p.Drawing.(side.Sheets); isSide {
		words = OrFewerWords(d.Request)
	}
	return fmt.Errorf("%s does not fit on %s%s: not even with a wheel of %s; use larger paper%s",
		p.name, d.Setting.Paper.Name, others, draft.FormatMM(counting.LeastWheel), words)
}

// OrFewerWords is the part of a message that names another way out, where there is one.
func OrFewerWords(r request.Request) string {
	if r.Setting.Labels == request.NoLabels || !r.Has(request.Full) {
		return ""
	}
	return " or --labels none"
}

// noRoomAt is the error when a part does not fit at the wheel asked for; it says which scale would.
func (d composer) noRoomAt(p part, asked geom.MM) error {
	what := fmt.Sprintf("%s does not fit on %s with a wheel of %s", p.name, d.Setting.Paper.Name, draft.FormatMM(asked))
	fitting := d
	fitting.Setting.Scale = request.Scale{}
	best := fitting.best(d.Plans)
	switch {
	case best == 0:
		return fmt.Errorf("%s, nor at any other scale; use larger paper", what)
	case best > asked:
		return fmt.Errorf("%s: its words need more room; --scale wheel=%gmm fits, or --labels none", what, float64(best))
	}
	n := 0. // each plan has its own wheel at a reduction: the one that needs most decides
	for _, q := range d.Plans {
		n = max(n, float64(q.OnVehicle(1)/fitting.best([]layout.Plan{q})))
	}
	return fmt.Errorf("%s; --scale wheel=%gmm (1:%s) fits%s", what, float64(best), draft.Trimmed(n+.05, 1), d.orTiles())
}

// best returns the largest wheel at which all parts of some plans that share one fit, or 0.
func (d composer) best(plans []layout.Plan) geom.MM {
	d.Plans = plans
	return d.largest(slices.DeleteFunc(d.parts(), func(p part) bool { return !p.sharesWheel() }), 0)
}

// orTiles is the part of a message that names tiles as another way out, where they are one.
func (d composer) orTiles() string {
	if d.Handout { // a class prints pages, not tiles
		return ""
	}
	d.Setting.Tile, d.Setting.Scale = true, request.Scale{Reduction: 1}
	if job.Check(d.Request) != nil {
		return ""
	}
	return ", or --tile"
}
