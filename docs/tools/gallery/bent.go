package main

import (
	"fmt"

	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/render"
	"hubrule/segments"
)

// entry is one cell of a sheet of bent plans: the plan, over the typical one in fine red.
type entry struct {
	brief      segments.Brief
	name, more string
}

// tweakSheet draws every tweak at strength 1 on five segments of different forms.
func tweakSheet() (render.Page, error) {
	var entries []entry
	on := []string{"city", "sedan", "suv", "pickup", "mid-engine"}
	for _, name := range segments.TweakNames() {
		tweak, err := segments.FindTweak(name)
		if err != nil {
			return render.Page{}, err
		}
		for _, segment := range on {
			p, err := segments.Find(segment)
			if err != nil {
				return render.Page{}, err
			}
			b := segments.Brief{Profile: p, Tweaks: []segments.AppliedTweak{{Tweak: tweak, Strength: 1}}}
			e := entry{b, segment + ", " + name, ""}
			switch {
			case tweak.Refusal(p) != "":
				e.brief.Tweaks, e.more = nil, "  refused"
			case tweak.NoEffect(p) != "":
				e.more = "  no change"
			}
			entries = append(entries, e)
		}
	}
	return bentSheet("Eight tweaks at strength 1", len(on), entries)
}

// solveSheet draws what single pins do: what they hold, what follows, what stays.
func solveSheet() (render.Page, error) {
	var entries []entry
	for _, c := range []struct{ segment, figure, value, more string }{
		{"suv", "height", "2.1w", "the sill stays, glass and body side give in proportion"},
		{"suv", "belt", "1.85w", "cowl and bonnet ride along, the sill stays"},
		{"sedan", "pillar-rake", "40", "the line turns about its foot"},
		{"sedan", "pillar-foot", "1.5w", "the line shifts, the rake stays"},
		{"hatchback", "length", "4100mm", "wheelbase and overhangs share it"},
		{"pickup", "wheelbase", "3600mm", "the bed takes it, the cab stays"},
	} {
		p, err := segments.Find(c.segment)
		if err != nil {
			return render.Page{}, err
		}
		f, ok := segments.Lookup(c.figure)
		if !ok {
			return render.Page{}, fmt.Errorf("no figure %s", c.figure)
		}
		pin, err := segments.ParsePin(f, c.value)
		if err != nil {
			return render.Page{}, err
		}
		entries = append(entries, entry{segments.Brief{Profile: p, Pins: []segments.Pin{pin}}, c.segment + ", " + c.figure + " " + c.value, "  " + c.more})
	}
	return bentSheet("What a pin does", 2, entries)
}

// bentSheet solves the entries and draws them in so many columns.
func bentSheet(title string, across int, entries []entry) (render.Page, error) {
	rows := (len(entries) + across - 1) / across
	page := render.Page{
		Width: 2*border + geom.MM(across)*cellWidth, Height: 2*border + geom.MM(rows)*cellHeight, Title: title,
		Guides: []render.Guide{{Name: "outline", Title: "Outlines"}, {Name: "labels", Title: "Names"}},
	}
	for i, e := range entries {
		plan, err := layout.Solve(e.brief)
		if err != nil {
			return page, fmt.Errorf("%s: %w", e.name, err)
		}
		corner := render.Point{X: border + cellWidth*geom.MM(i%across), Y: border + cellHeight*geom.MM(i/across)}
		page.Marks = append(page.Marks, cell(plan, corner)...)
		page.Marks = append(page.Marks, ghost(layout.Typical(e.brief.Profile), plan, corner)...)
		page.Marks = append(page.Marks, caption(corner, e.name, e.more))
	}
	return page, nil
}
