package handout

import (
	"fmt"
	"sync"

	"hubrule/internal/draw"
	"hubrule/render"
	"hubrule/render/class"
	"hubrule/render/pdf"
)

// Unit is one student's sheets of one page, both counted from 0.
type Unit struct{ Student, Page int }

// Units is how many a set has.
func Units(set class.Set) int { return len(set.Students) * len(set.Pages) }

// UnitAt is number i of a set's order.
func UnitAt(set class.Set, i int) Unit {
	if set.ByPage {
		return Unit{i % len(set.Students), i / len(set.Students)}
	}
	return Unit{i / len(set.Pages), i % len(set.Pages)}
}

// Packed is a unit ready to be written.
type Packed struct {
	Unit
	Sheets, Answers []pdf.Packed
	Back            pdf.Packed // empty page of the last sheet's size
}

// Packer packs the units of a set; several goroutines may use it at a time.
type Packer struct {
	Set                    class.Set
	Sheets, Backs, Answers bool // what is packed
	packers                sync.Pool
}

// Pack packs what was composed of a unit.
func (p *Packer) Pack(u Unit, h class.Handout) (out Packed, err error) {
	k, ok := p.packers.Get().(*pdf.Packer)
	if !ok {
		k = new(pdf.Packer)
	}
	defer p.packers.Put(k)
	pack := func(wanted bool, pages []render.Page) (packed []pdf.Packed) {
		for _, page := range pages {
			if !wanted || err != nil {
				break
			}
			page.Chapter, page.Title = bookmark(p.Set, u, page.Title)
			var one pdf.Packed
			one, err = k.Pack(page)
			packed = append(packed, one)
		}
		return packed
	}
	out = Packed{Unit: u, Sheets: pack(p.Sheets, h.Sheets)}
	if err == nil && p.Backs {
		out.Back, err = k.Pack(class.Blank(h.Sheets[len(h.Sheets)-1]))
	}
	out.Answers = pack(p.Answers, h.Answers)
	return out, err
}

// bookmark names a page of the file and the chapter that it belongs to: the student's, or the class's page for all students.
func bookmark(set class.Set, u Unit, title string) (chapter, page string) {
	name := set.NameOf(u.Student)
	if set.ByPage {
		return fmt.Sprintf("%d  %s", u.Page+1, set.Pages[u.Page].Request.Plans[0].Profile.Title), name + ", " + title
	}
	return name, title
}

// About returns the metadata of a file: the class and its seed, and the page where the file holds one. Neither figures nor pins: no
// answer hides in a student's file.
func About(set class.Set, page int) render.About {
	job := ""
	if set.Title != "" {
		job = "class: " + set.Title + "\n"
	}
	job += fmt.Sprintf("seed: %d\n", set.Seed)
	if page > 0 {
		job += fmt.Sprintf("page: %d\n", page)
	}
	return render.About{Author: set.Pages[0].Request.Setting.Author, Program: draw.Program, Job: job}
}
