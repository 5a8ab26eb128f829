package sheet

import (
	"fmt"
	"math"
	"slices"

	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/render"
	"hubrule/render/compare"
	"hubrule/render/counting"
	"hubrule/render/draft"
	"hubrule/render/request"
	"hubrule/render/tile"
)

// titled is a Drawing whose sheets have title blocks.
type titled interface {
	// TitleOf returns the words of the title block of a kind of sheet: the first fact is the wheel on paper, in mm.
	TitleOf(c draft.Canvas, kind request.Kind, wheel geom.MM) (draft.Caption, [][]draft.Fact)
}

// composeTiles is Compose for sheets that are cut into tiles.
func (d composer) composeTiles() (render.Document, request.Messages, error) {
	doc := render.Document{Title: d.Title()}
	var messages request.Messages
	sheets := 0
	for _, p := range d.parts() {
		wheel := d.Setting.Scale.WheelOf(p.plans[0])
		if wheel < counting.LeastWheel {
			return doc, messages, p.tooSmall(wheel)
		}
		grid, pages, ok := d.place(p, wheel)
		if err := d.ended(); err != nil {
			return doc, messages, err
		}
		if !ok {
			return doc, messages, d.tooManyTiles(p, wheel)
		}
		p.markWheel(pages, wheel)
		for i, page := range pages {
			sheets++
			if grid.Columns == 0 {
				doc.Pages = append(doc.Pages, page)
				messages.Notes = append(messages.Notes, fmt.Sprintf("%s: one page of %s holds it; nothing to glue", page.Title,
					d.Setting.Paper.Name))
				continue
			}
			c := tile.Cutting{Grid: grid, Sheet: page, Wheel: wheel, Scale: compare.Scale(p.plans, wheel, d.Setting.Scale),
				Inks: draft.InksOf(d.Ink(request.Full))}
			whole := d.Setting
			whole.Paper = grid.Whole()
			c.Title, c.Facts = p.Drawing.(titled).TitleOf(draft.NewCanvas(whole), p.kinds[i], wheel)
			c.Title.Heading += ", " + string(p.kinds[i])
			if p.total > 1 {
				c.Prefix, c.Number = fmt.Sprintf("%d-", sheets), fmt.Sprintf("sheet %d of %d, ", sheets, p.total)
			}
			tiles, blank := c.Pages()
			doc.Pages = append(doc.Pages, tiles...)
			messages.Notes = append(messages.Notes, c.Notes(blank)...)
		}
	}
	d.Setting.Tile = len(doc.Pages) > sheets // what fits on a page is that page
	doc.About = d.about()
	return doc, messages, nil
}

// place draws a part on one page, or on the least grid of tiles that holds it; false if none does.
func (d composer) place(p part, wheel geom.MM) (tile.Grid, []render.Page, bool) {
	draw := func(s request.Setting, seams draft.Seams) ([]render.Page, bool) {
		if !p.mayFit(s, wheel) || d.ended() != nil {
			return nil, false
		}
		pages, err := p.Draw(draft.NewCanvas(s).WithSeams(seams), wheel, d.number(p))
		return pages, err == nil
	}
	s := d.Setting
	s.Tile = false
	if pages, ok := draw(s, draft.Seams{}); ok {
		return tile.Grid{}, pages, true
	}
	s.Tile = true
	for n := 2; n <= tile.MostTiles; n++ {
		for columns := 1; columns <= n; columns++ {
			g := tile.Grid{Paper: d.Setting.Paper, Columns: columns, Rows: n / columns}
			if n%columns != 0 {
				continue
			}
			s.Paper = g.Whole()
			pages, ok := draw(s, draft.Seams{})
			if !ok {
				continue
			}
			g, by := g.Fitted(pages)
			if again, ok := draw(s, g.Seams(by)); ok { // with its words off the seams
				if moved, ok := g.Moved(again, by); ok {
					return g, moved, true
				}
			}
			moved, _ := g.Moved(pages, by)
			return g, moved, true
		}
	}
	return tile.Grid{}, nil, false
}

// mayFit reports whether the vehicles alone fit on the paper; it saves drawing sheets that cannot.
func (p part) mayFit(s request.Setting, wheel geom.MM) bool {
	return !slices.ContainsFunc(p.plans, func(q layout.Plan) bool {
		w := s.Scale.WheelBeside(p.plans[0], wheel, q)
		return geom.MM(q.Tail()-q.Nose())*w > s.Paper.Width || geom.MM(q.Height())*w > s.Paper.Height
	})
}

// tooManyTiles is the error when a part takes more than MostTiles; it names a scale that does not.
func (d composer) tooManyTiles(p part, wheel geom.MM) error {
	what := fmt.Sprintf("%s takes more than %d tiles of %s with a wheel of %s",
		p.name, tile.MostTiles, d.Setting.Paper.Name, draft.FormatMM(wheel))
	for {
		s, written := nextSmaller(d.Setting.Scale)
		d.Setting.Scale = s
		if s.WheelOf(d.parts()[0].plans[0]) < counting.LeastWheel {
			return fmt.Errorf("%s; %s", what, d.Setting.Paper.Cure())
		}
		if !slices.ContainsFunc(d.parts(), func(q part) bool {
			_, _, ok := d.place(q, s.WheelOf(q.plans[0]))
			return !ok
		}) {
			return fmt.Errorf("%s; --scale %s takes fewer", what, written)
		}
	}
}

// nextSmaller returns the next smaller scale to try, and how to write it.
func nextSmaller(s request.Scale) (request.Scale, string) {
	if s.Wheel > 0 {
		wheel := math.Floor(float64(s.Wheel) * .97)
		return request.Scale{Wheel: geom.MM(wheel)}, fmt.Sprintf("wheel=%gmm", wheel)
	}
	n := math.Ceil(max(s.Reduction*1.03, s.Reduction+.01)*10) / 10
	return request.Scale{Reduction: n}, fmt.Sprintf("1:%g", n)
}
