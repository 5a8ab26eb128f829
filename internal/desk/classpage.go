package desk

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"

	"hubrule/internal/draw"
	"hubrule/internal/handout"
	"hubrule/internal/slice"
	"hubrule/render"
	"hubrule/render/class"
	"hubrule/render/format"
	"hubrule/render/request"
	"hubrule/segments"
)

type classSheet struct {
	Student string       `json:"student"` // "" of one who is known by a number
	Number  int          `json:"number"`  // in the list
	Page    int          `json:"page"`    // of the student's sheets
	Pages   int          `json:"pages"`
	Of      int          `json:"of"` // page of the class, from 1
	Kind    request.Kind `json:"kind"`
	View    string       `json:"view"`
	Paper   paper        `json:"paper"`
	SVG     string       `json:"svg"`
	Answer  string       `json:"answer,omitempty"`
	Notes   []string     `json:"notes"`
}

// classPage answers with one student's sheet as it is printed, and the answer to it.
func (d *Desk) classPage(t *turns, body []byte) (any, error) {
	var in struct {
		Class   json.RawMessage `json:"class"`
		Student json.RawMessage `json:"student"`
		Page    *int            `json:"page"`
		Answer  bool            `json:"answer"`
	}
	var file *segments.ClassFile
	var j handout.Job
	at := 0
	err := t.try(func() (err error) {
		if err := decode(body, &in); err != nil {
			return err
		}
		if file, j, err = d.classOf(in.Class); err == nil {
			at, err = student(&j, in.Student)
		}
		return err
	})
	if err != nil {
		return nil, err
	}
	who := j.Enrolled[at]
	chosen := []bool(nil)
	if who.Absent { // who is absent has no place among the others
		chosen = make([]bool, len(j.Enrolled))
		chosen[at] = true
	}
	if err := j.Choose(chosen); err != nil {
		return nil, err
	}
	page, err := pageOf(in.Page, j.Count()/len(j.Students))
	if err != nil {
		return nil, err
	}
	page++
	at = j.PageOf(page)
	number := slices.IndexFunc(j.Students, func(s class.Student) bool { return s.Number == who.Number })
	set, err := d.settleFor(t, file, j.Class, number, at)
	if err != nil {
		return nil, err
	}
	out := classSheet{Student: who.Name, Number: who.Number, Page: page, Pages: set.SheetsEach(), Of: at + 1, Notes: []string{}}
	return out, t.try(func() error { return out.draw(set, number, in.Answer) })
}

// settleFor settles a class for one student and page, with the wheel that is remembered.
func (d *Desk) settleFor(t *turns, file *segments.ClassFile, group class.Class, student, page int) (class.Set, error) {
	key := wheelKey(file)
	group.Wheel, group.Spread = d.wheels.of(key), t.spread
	set, err := group.SettleFor(student, page)
	if err == nil {
		d.wheels.keep(key, set.SettledWheel())
	}
	return set, err
}

// draw fills in the sheet.
func (s *classSheet) draw(set class.Set, student int, withAnswer bool) error {
	one, err := set.Sheet(student, s.Page)
	if err != nil {
		return err
	}
	s.Kind, s.View = one.Kind, one.Views.String()
	s.Paper = paper{Width: n(one.Sheet.Width), Height: n(one.Sheet.Height), Wheel: n(one.Sheet.Wheel)}
	if one.Note != "" {
		s.Notes = append(s.Notes, one.Note)
	}
	if s.SVG, err = svgOf(set, one.Sheet, s.Page); err == nil && withAnswer && one.Answer != nil {
		s.Answer, err = svgOf(set, *one.Answer, 0)
	}
	return err
}

// svgOf writes a page as handout does.
func svgOf(set class.Set, page render.Page, number int) (string, error) {
	svg, _ := format.Find("svg")
	files, err := svg.Files(render.Document{About: handout.About(set, number), Pages: []render.Page{page}}, format.Options{})
	if err != nil {
		return "", err
	}
	return string(files[0]), nil
}

type classFacts struct {
	Students   int         `json:"students"` // who are not absent
	Absent     []string    `json:"absent"`
	PerStudent int         `json:"per-student"`
	Sheets     int         `json:"sheets"`
	KeyPages   int         `json:"key-pages"` // 0: nothing to answer
	Wheel      json.Number `json:"wheel-mm"`
	Pages      []pageFacts `json:"pages"`
	Warnings   []warning   `json:"warnings"`
}

type pageFacts struct {
	Title    string       `json:"title"`
	First    int          `json:"first"` // of a student's sheets
	Copies   int          `json:"copies"`
	Practice bool         `json:"practice"`
	Sheets   []sheetFacts `json:"sheets"`
}

type sheetFacts struct {
	Kind request.Kind `json:"kind"`
	View string       `json:"view"`
}

type warning struct {
	Where string `json:"where"` // students[3], pages[1] or empty
	Text  string `json:"text"`
	Set   string `json:"set,omitempty"` // of that student, which cures it
}

// mostWarnings is how many warnings are given: judged by eye.
const mostWarnings = 40

// classCheck answers with what there is to print, and what the teacher should know before.
func (d *Desk) classCheck(t *turns, body []byte) (any, error) {
	var in struct {
		Class json.RawMessage `json:"class"`
	}
	var file *segments.ClassFile
	var j handout.Job
	err := t.try(func() (err error) {
		if err = decode(body, &in); err == nil {
			file, j, err = d.classOf(in.Class)
		}
		return err
	})
	if err != nil {
		return nil, err
	}
	out := classFacts{Absent: []string{}, Warnings: []warning{}}
	if err := j.Choose(nil); err != nil { // they may come back: what is wrong with their pages shows all the same
		out.Absent, j.Absent, j.Students = j.Absent, nil, []class.Student{handout.Student(j.Enrolled[0])}
	} else {
		out.Absent, out.Students = append(out.Absent, j.Absent...), len(j.Students)
	}
	set, remarks, err := d.settle(t, file, j.Class)
	if err != nil {
		return nil, err
	}
	return out, t.try(func() error { out.fill(set, remarks, j); return nil })
}

// settle settles a class with the wheel that is remembered.
func (d *Desk) settle(t *turns, file *segments.ClassFile, group class.Class) (class.Set, []class.Remark, error) {
	key := wheelKey(file)
	group.Wheel, group.Spread = d.wheels.of(key), t.spread
	set, remarks, err := group.Settle(t.ctx)
	if err == nil {
		d.wheels.keep(key, set.SettledWheel())
	}
	return set, remarks, err
}

// fill fills in what there is to know of a settled class.
func (f *classFacts) fill(set class.Set, remarks []class.Remark, j handout.Job) {
	f.PerStudent, f.Wheel = set.SheetsEach(), n(set.SettledWheel())
	f.Sheets = f.PerStudent * f.Students
	if set.HasPractice() {
		f.KeyPages = set.KeyPages()
	}
	for i, p := range set.Pages {
		sheets := slice.Map(p.Listed(), func(l class.Listed) sheetFacts { return sheetFacts{l.Kind, l.Views.String()} })
		f.Pages = append(f.Pages, pageFacts{p.Request.Plans[0].Profile.Title, set.FirstPage(i), p.Copies, p.HasPractice(), sheets})
		f.letters(fmt.Sprintf("pages[%d]", i+1), p.Request.Setting.Title+p.Request.Plans[0].Profile.Title)
	}
	f.letters("title", set.Title)
	for i, s := range j.Enrolled {
		f.letters(fmt.Sprintf("students[%d]", i+1), s.Name)
	}
	for _, r := range remarks {
		w := warning{Text: r.Text, Set: r.Set}
		if r.Page > 0 {
			w.Where = fmt.Sprintf("pages[%d]", r.Page)
		} else if r.Student > 0 {
			w.Where = fmt.Sprintf("students[%d]", set.Students[r.Student-1].Number)
		}
		w.Text = strings.TrimPrefix(w.Text, w.Where+": ")
		f.warn(w)
	}
	for _, note := range j.Notes {
		f.warn(warning{Text: note})
	}
}

// letters warns of letters that no face has.
func (f *classFacts) letters(where, text string) {
	if missing := draw.MissingLetters(text); missing != "" {
		f.warn(warning{Where: where, Text: missing})
	}
}

func (f *classFacts) warn(w warning) {
	switch n := len(f.Warnings); {
	case n < mostWarnings:
		f.Warnings = append(f.Warnings, w)
	case n == mostWarnings:
		f.Warnings = append(f.Warnings, warning{Text: "there is more to say than these"})
	}
}
