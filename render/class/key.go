package class

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"hubrule/internal/geom"
	"hubrule/internal/slice"
	"hubrule/render"
	"hubrule/render/counting"
	"hubrule/render/draft"
	"hubrule/render/request"
)

// answer is one answer sheet of the key: a student's, or where nothing varies that of all students whose vehicle faces one way.
type answer struct {
	student, page int
	view          int            // index into Setting.Sheets
	facing        request.Facing // where nothing varies
}

// answers lists the answer sheets in the order of the key.
func (s Set) answers() []answer {
	var out []answer
	for i, p := range s.Pages {
		if !p.HasPractice() {
			continue
		}
		views := len(p.Request.Setting.Sheets())
		if s.Vary == 0 {
			for _, facing := range s.facings(i) {
				for v := range views {
					out = append(out, answer{0, i, v, facing})
				}
			}
			continue
		}
		for student := range s.Students {
			for v := range views {
				out = append(out, answer{student, i, v, ""})
			}
		}
	}
	if !s.ByPage {
		slices.SortStableFunc(out, func(a, b answer) int { return cmp.Compare(a.student, b.student) })
	}
	return out
}

// SharedAnswers are the answer sheets of a class in which nothing varies: one for each page with a practice sheet and each way that
// its vehicle faces. Else there are none: each handout has its own.
func (s Set) SharedAnswers() []render.Page {
	if s.Vary > 0 {
		return nil
	}
	return slice.Map(s.key, func(a answer) render.Page { return s.sharedAnswer(slices.Index(s.key, a)) })
}

// sharedAnswer draws answer i of the key for all who share it.
func (s Set) sharedAnswer(i int) render.Page {
	a := s.key[i]
	h := heading{class: s.name(), name: "all students", page: s.keyNumber(i)}
	if len(s.facings(a.page)) > 1 {
		h.name = "students facing " + string(a.facing)
	}
	return s.withHeading(s.shared[a.page][a.facing][sheetID{a.view, request.Answer}], false, h)
}

// keyNumber returns the page of the key with answer i.
func (s Set) keyNumber(i int) string {
	return s.keyPageNumber(s.keyFront() + i + 1)
}

// keyFront is how many pages stand before the answers.
func (s Set) keyFront() int { return 1 + s.contents().pagesAfterCover() }

// KeyFront draws what stands before the answers in the instructor's key: a cover with the contents, and more pages where they are long.
func (s Set) KeyFront() []render.Page { return append([]render.Page{s.cover()}, s.contentsPages()...) }

// keyPage starts a page of the key without a vehicle, on the paper of the class's first page. It faces left, as words do.
func (s Set) keyPage() (draft.Canvas, *draft.Surface) {
	setting := s.Pages[0].Request.Setting
	c := draft.NewCanvas(setting)
	b := &draft.Surface{Space: c.Space, Inks: draft.InksOf(request.Dark)}
	c.Centring(b)
	return c, b
}

// cover draws the first page of the key: what was handed out, how the key is used, and the contents as far as they have room.
func (s Set) cover() render.Page {
	c, b := s.keyPage()
	head, text := s.coverText(c.Space.Width())
	y := c.Space.Min.Y + coverTop
	b.Write("strip", head.TopAt(c.Space.Min.X, y, render.Start))
	b.Write("strip", text.TopAt(c.Space.Min.X, y+head.Height+coverGap, render.Start))
	t := s.contents()
	s.writeContents(b, 0, t.onCover*t.across, y+head.Height+2*coverGap+text.Height)
	order := "student by student"
	if s.ByPage {
		order = "page by page"
	}
	facts := [][]draft.Fact{s.sizeFacts(), {{Name: "answers", Value: fmt.Sprint(len(s.key))}, {Name: "order", Value: order}}}
	c.TitleBlock(b, draft.Caption{Heading: cmp.Or(s.Title, "Class set"), Sub: "cover and contents of the key"}, facts, s.keyPageNumber(1))
	return c.Finish("Cover", &draft.Surface{}, b, request.Left)
}

// Where the cover's words stand: their top below the page's, and the gaps between them.
const (
	coverTop geom.MM = 4
	coverGap geom.MM = 8
)

// coverText returns the cover's heading and what stands under it.
func (s Set) coverText(room geom.MM) (head, text draft.Label) {
	top := [][]draft.Word{
		{draft.Truncated(draft.Heading(cmp.Or(s.Title, "Class set"), draft.Large), room)},
		{{Text: "Key to the practice sheets", Height: draft.Medium, Weight: render.Medium, Role: draft.Words}},
	}
	if s.Date != "" {
		top = append(top, []draft.Word{draft.Note(s.Date)})
	}
	lines := [][]draft.Word{{draft.Value("Every student gets")}}
	for i := range s.Pages {
		lines = append(lines, []draft.Word{draft.Value(fmt.Sprintf("%d  ", i+1)), draft.Truncated(draft.Name(s.pageText(i)), room-8)})
	}
	if s.Absent != nil {
		lines = append(lines, []draft.Word{draft.Note(" ")}, []draft.Word{draft.Value("Absent, so without sheets")},
			[]draft.Word{draft.Name(strings.Join(s.Absent, ", "))})
	}
	lines = append(lines, [][]draft.Word{
		{draft.Note(" ")}, {draft.Value("Figures")}, {draft.Name(s.variationText())},
		{draft.Note(" ")}, {draft.Value("Use")},
		{draft.Name("Lay an answer under a student's sheet, centring mark on centring mark, against the light: what is off shows at " +
			"once.")},
		{draft.Name("The brackets hold what is right: " + counting.ReadingTolerance +
			" for what the sheet gives, within the range for the rest. " +
			"Keep this file from the students: theirs holds no answers.")},
	}...)
	for _, words := range lines {
		for k, w := range words {
			words[k] = draft.Truncated(w, room)
		}
	}
	return draft.NewLabel(top...), draft.NewLabel(lines...)
}

// sizeFacts are the numbers of students and of sheets for each.
func (s Set) sizeFacts() []draft.Fact {
	students := fmt.Sprint(len(s.Students))
	if s.Absent != nil {
		students += fmt.Sprintf(", %d absent", len(s.Absent))
	}
	return []draft.Fact{{Name: "students", Value: students}, {Name: "sheets each", Value: fmt.Sprint(s.SheetsEach())}}
}

// pageText describes page i of the class.
func (s Set) pageText(i int) string {
	p := s.Pages[i]
	plan := p.Request.Plans[0]
	out := plan.Profile.Title
	if w := plan.Summary(); w != "" {
		out += ", " + w
	}
	out += ": " + strings.Join(request.Names(p.Request.Kinds), ", ")
	if !slices.Equal(p.Request.Setting.Seen(), []request.View{request.SideView}) {
		out += " from " + request.ViewSet(p.Request.Setting.Views).String()
	}
	if p.HasPractice() {
		out += fmt.Sprintf(" (level %d of %d)", p.Request.Setting.GivenLevel(), request.GivenMost)
	}
	if p.Copies > 1 {
		out += fmt.Sprintf(", %d copies", p.Copies)
	}
	return out
}

func (s Set) variationText() string {
	if s.Vary == 0 {
		return "The same for all students."
	}
	return fmt.Sprintf("Each student's own: up to %g of the way from the segment's figures to the ends of their ranges; seed %d.",
		s.Vary, s.Seed)
}

func (s Set) keyPageNumber(n int) string {
	return fmt.Sprintf("key, page %d of %d", n, s.KeyPages())
}

// KeyPages is how many pages the key has.
func (s Set) KeyPages() int { return s.keyFront() + len(s.key) }
