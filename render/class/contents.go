package class

import (
	"cmp"
	"fmt"
	"strings"

	"hubrule/internal/geom"
	"hubrule/render"
	"hubrule/render/draft"
	"hubrule/render/request"
)

// contents is how the key's contents are laid out: rows in columns, on the cover and on pages of their own.
type contents struct {
	rows, onCover, down, across int     // down and onCover are rows of one column
	wide                        geom.MM // of a column
}

// The distances in the contents, in mm.
const (
	contentsHead  geom.MM = 9 // of their heading
	contentsPitch geom.MM = 5.5
	contentsWide  geom.MM = 72
)

// pagesAfterCover returns how many pages hold what the cover does not.
func (t contents) pagesAfterCover() int {
	return (max(0, t.rows-t.onCover*t.across) + t.down*t.across - 1) / (t.down * t.across)
}

func (s Set) contents() contents {
	c := draft.NewCanvas(s.Pages[0].Request.Setting)
	t := contents{rows: len(s.Students), across: max(1, int(c.Space.Width()/contentsWide))}
	if s.Vary == 0 {
		t.rows = len(s.key)
	}
	room := c.OverTitleBlock().Height() - contentsHead
	t.down = int(room / contentsPitch)
	head, text := s.coverText(c.Space.Width())
	t.onCover = max(0, int((room-coverTop-head.Height-2*coverGap-text.Height)/contentsPitch))
	if all := (t.rows + t.across - 1) / t.across; t.onCover > all {
		t.onCover = all
	}
	t.wide = c.Space.Width() / geom.MM(t.across)
	return t
}

// row returns line i of the contents: who or what, and on which pages of the key.
func (s Set) row(i int) (text, pages string) {
	front := s.keyFront() + 1
	if s.Vary == 0 {
		a := s.key[i]
		r := s.Pages[a.page].Request
		return fmt.Sprintf("%d  %s, %s, facing %s", a.page+1, r.Plans[0].Profile.Title, r.Setting.Sheets()[a.view], a.facing),
			fmt.Sprint(front + i)
	}
	var numbers []string
	for n, a := range s.key {
		if a.student == i {
			numbers = append(numbers, fmt.Sprint(front+n))
		}
	}
	return s.NameOf(i), strings.Join(numbers, ", ")
}

// writeContents writes rows of the contents, in columns from the top, under their heading.
func (s Set) writeContents(b *draft.Surface, from, to int, top geom.MM) {
	t := s.contents()
	if to = min(to, t.rows); from >= to {
		return
	}
	b.Write("strip", draft.OneLine(draft.Heading("Answers", draft.Medium)).TopAt(b.Space.Min.X, top, render.Start))
	down := (to - from + t.across - 1) / t.across
	for i := from; i < to; i++ {
		column, row := (i-from)/down, (i-from)%down
		x, y := b.Space.Min.X+geom.MM(column)*t.wide, top+contentsHead+geom.MM(row)*contentsPitch
		text, pages := s.row(i)
		number := draft.OneLine(draft.Value(pages))
		b.Write("strip", number.TopAt(x+t.wide-6, y, render.End))
		b.Write("strip", draft.OneLine(draft.Truncated(draft.Name(text), t.wide-9-number.Width)).TopAt(x, y, render.Start))
	}
}

// contentsPages draws the contents that the cover has no room for.
func (s Set) contentsPages() []render.Page {
	t := s.contents()
	var out []render.Page
	for n := range t.pagesAfterCover() {
		c, b := s.keyPage()
		from := t.onCover*t.across + n*t.down*t.across
		s.writeContents(b, from, from+t.down*t.across, c.Space.Min.Y)
		title := draft.Caption{Heading: cmp.Or(s.name(), "Class set"), Sub: "contents of the key"}
		c.TitleBlock(b, title, [][]draft.Fact{s.sizeFacts()}, s.keyPageNumber(n+2))
		out = append(out, c.Finish("Contents", &draft.Surface{}, b, request.Left))
	}
	return out
}
