package class

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"hubrule/internal/geom"
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
		if !p.hasPractice() {
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
	var out []render.Page
	for n, a := range s.key {
		h := heading{class: s.name(), name: "all students", page: s.keyNumber(n)}
		if len(s.facings(a.page)) > 1 {
			h.name = "students facing " + string(a.facing)
		}
		out = append(out, s.withHeading(s.shared[a.page][a.facing][sheetID{a.view, request.Answer}], false, h))
	}
	return out
}

// keyNumber returns the page of the key with answer i.
func (s Set) keyNumber(i int) string {
	return s.keyPageNumber(s.keyFront() + i + 1)
}

// keyFront is how many pages stand before the answers.
func (s Set) keyFront() int { return 1 + s.contents().pages() }

// KeyFront draws what stands before the answers in the instructor's key: a cover, and the contents.
func (s Set) KeyFront() []render.Page { return append([]render.Page{s.cover()}, s.contentsPages()...) }

// keyPage starts a page of the key without a vehicle, on the paper of the class's first page. It faces left, as words do.
func (s Set) keyPage() (draft.Canvas, *draft.Surface) {
	setting := s.Pages[0].Request.Setting
	c := draft.NewCanvas(setting)
	b := &draft.Surface{Space: c.Space, Inks: draft.InksOf(request.Dark)}
	c.Centring(b)
	return c, b
}

// cover draws the first page of the key: what was handed out, and how the key is used.
func (s Set) cover() render.Page {
	c, b := s.keyPage()
	room := c.Space.Width()
	title := cmp.Or(s.Title, "Class set")
	head := [][]draft.Word{
		{draft.Truncated(draft.Heading(title, draft.Large), room)},
		{{Text: "Key to the practice sheets", Height: draft.Medium, Weight: render.Medium, Role: draft.Words}},
	}
	if s.Date != "" {
		head = append(head, []draft.Word{draft.Note(s.Date)})
	}
	l := draft.NewLabel(head...)
	y := c.Space.Min.Y + 12
	b.Write("strip", l.TopAt(c.Space.Min.X, y, render.Start))
	y += l.Height + 8
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
		{draft.Name("The brackets hold what is right: " + counting.ReadingTolerance + " for what the sheet gives, within the range for the rest. " +
			"Keep this file from the students: theirs holds no answers.")},
	}...)
	for _, words := range lines {
		for k, w := range words {
			words[k] = draft.Truncated(w, room)
		}
	}
	b.Write("strip", draft.NewLabel(lines...).TopAt(c.Space.Min.X, y, render.Start))
	order := "student by student"
	if s.ByPage {
		order = "page by page"
	}
	facts := [][]draft.Fact{s.sizeFacts(), {{Name: "answers", Value: fmt.Sprint(len(s.key))}, {Name: "order", Value: order}}}
	c.TitleBlock(b, draft.Caption{Heading: title, Sub: "cover of the key"}, facts, s.keyPageNumber(1))
	return c.Finish("Cover", &draft.Surface{}, b, request.Left)
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
	if p.hasPractice() {
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
	return fmt.Sprintf("key, page %d of %d", n, s.keyFront()+len(s.key))
}

// contents is how the key's contents are laid out: rows in columns.
type contents struct {
	rows, down, across int
	wide               geom.MM // of a column
}

// Where the contents stand: below their heading, and over the title block.
const (
	contentsTop   geom.MM = 16
	contentsPitch geom.MM = 5.5
	contentsWide  geom.MM = 72
)

func (t contents) pages() int { return (t.rows + t.down*t.across - 1) / (t.down * t.across) }

func (s Set) contents() contents {
	c := draft.NewCanvas(s.Pages[0].Request.Setting)
	t := contents{rows: len(s.Students), across: max(1, int(c.Space.Width()/contentsWide))}
	if s.Vary == 0 {
		t.rows = len(s.key)
	}
	t.down = int((c.Space.Height() - contentsTop - draft.TitleBlockHeight - 4) / contentsPitch)
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

// contentsPages draws the key's contents.
func (s Set) contentsPages() []render.Page {
	t := s.contents()
	var out []render.Page
	for n := range t.pages() {
		c, b := s.keyPage()
		b.Write("strip", draft.OneLine(draft.Heading("Answers", draft.Large)).TopAt(c.Space.Min.X, c.Space.Min.Y, render.Start))
		for i := n * t.down * t.across; i < min(t.rows, (n+1)*t.down*t.across); i++ {
			at := i - n*t.down*t.across
			x, y := c.Space.Min.X+geom.MM(at/t.down)*t.wide, c.Space.Min.Y+contentsTop+geom.MM(at%t.down)*contentsPitch
			text, pages := s.row(i)
			number := draft.OneLine(draft.Value(pages))
			b.Write("strip", number.TopAt(x+t.wide-6, y, render.End))
			b.Write("strip", draft.OneLine(draft.Truncated(draft.Name(text), t.wide-9-number.Width)).TopAt(x, y, render.Start))
		}
		title := draft.Caption{Heading: cmp.Or(s.name(), "Class set"), Sub: "contents of the key"}
		c.TitleBlock(b, title, [][]draft.Fact{s.sizeFacts()}, s.keyPageNumber(n+2))
		out = append(out, c.Finish("Contents", &draft.Surface{}, b, request.Left))
	}
	return out
}
