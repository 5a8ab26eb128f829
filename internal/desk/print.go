package desk

import (
	"bufio"
	"bytes"
	"encoding/json"
	"io"
	"net/http"
	"slices"
	"sync"
	"time"

	"hubrule/internal/draw"
	"hubrule/internal/fault"
	"hubrule/internal/handout"
	"hubrule/internal/parallel"
	"hubrule/internal/slice"
	"hubrule/render/class"
	"hubrule/segments"
	"hubrule/segments/strict"
)

// The bounds of printing. All are judged by eye.
const (
	printWait    = 20 * time.Minute // for one file, to its last byte: the most pages that are printed, beside a class that drags
	mostPrints   = 16               // at once
	printsOfOne  = 4                // from one address
	printsRecall = time.Minute      // how long the end of one is known
)

// stream is an answer that is written while it is made. Write fails with what ended it; nothing may follow then.
type stream struct {
	name, mime string
	write      func(io.Writer) error
}

// printing is how far a file is printed. Its fields are read and written under its mutex.
type printing struct {
	caller   string
	mutex    sync.Mutex
	progress progress
	ended    time.Time
}

type progress struct {
	Done     int       `json:"done"` // pages
	Of       int       `json:"of"`
	Student  string    `json:"student"` // whose pages were written last
	Ended    bool      `json:"ended"`
	Notes    []string  `json:"notes"`
	Problems []problem `json:"problems"` // what ended it
}

// prints are those that are under way, and the last that ended.
type prints struct {
	mutex sync.Mutex
	byID  map[string]*printing
}

// plainID is a random word of at least 96 bits in the base 64 of RFC 4648, 5 (MEM): whoever does not know it learns nothing.
var plainID = strict.Pattern(`^[A-Za-z0-9_-]{16,64}$`)

// begin notes that a file is printed.
func (p *prints) begin(id, caller string, now time.Time) (*printing, error) {
	p.mutex.Lock()
	defer p.mutex.Unlock()
	running, own := 0, 0
	for id, one := range p.byID {
		one.mutex.Lock()
		switch {
		case one.ended.IsZero():
			if running++; one.caller == caller {
				own++
			}
		case now.Sub(one.ended) > printsRecall || len(p.byID) > 4*mostPrints:
			delete(p.byID, id)
		}
		one.mutex.Unlock()
	}
	switch {
	case !plainID().MatchString(id):
		return nil, misplaced{"id", "want 16 to 64 random letters and digits"}
	case p.byID[id] != nil:
		return nil, misplaced{"id", "it is in use; want another"}
	case running >= mostPrints || own >= printsOfOne:
		return nil, errFull
	}
	if p.byID == nil {
		p.byID = map[string]*printing{}
	}
	p.byID[id] = &printing{caller: caller, progress: progress{Notes: []string{}, Problems: []problem{}}}
	return p.byID[id], nil
}

// update changes what is known of a print.
func (p *printing) update(change func(*progress)) {
	p.mutex.Lock()
	defer p.mutex.Unlock()
	change(&p.progress)
}

// end notes that a print has ended, with err or well.
func (p *printing) end(err error, now time.Time) {
	p.update(func(s *progress) { s.Ended, s.Problems, p.ended = true, append(s.Problems, problemsOf(err)...), now })
}

// classProgress answers how far a file is printed. It waits for nobody's turn.
func (d *Desk) classProgress(w http.ResponseWriter, r *http.Request) {
	body, status, err := d.readBody(w, r)
	if err != nil {
		refuse(w, status, err.Error())
		return
	}
	var in struct {
		ID string `json:"id"`
	}
	if err := decode(body, &in); err != nil {
		status, out := refusal(err)
		answer(w, status, out)
		return
	}
	d.prints.mutex.Lock()
	one := d.prints.byID[in.ID]
	d.prints.mutex.Unlock()
	if one == nil {
		status, out := refusal(misplaced{"id", "nothing is printed under it"})
		answer(w, status, out)
		return
	}
	var out progress
	one.update(func(s *progress) {
		out = *s
		out.Notes, out.Problems = slices.Clone(s.Notes), slices.Clone(s.Problems)
	})
	answer(w, http.StatusOK, out)
}

// printed is one file of a class while it is printed.
type printed struct {
	turns  *turns
	state  *printing
	set    class.Set
	key    bool
	duplex bool
	packer handout.Packer
}

// classPrint answers with one of the two files of a class, page by page.
func (d *Desk) classPrint(t *turns, body []byte) (any, error) {
	var in struct {
		Class  json.RawMessage `json:"class"`
		Key    bool            `json:"key"`
		ID     string          `json:"id"`
		Duplex bool            `json:"duplex"`
	}
	if err := decode(body, &in); err != nil {
		return nil, err
	}
	state, err := d.prints.begin(in.ID, t.caller, time.Now())
	if err != nil {
		return nil, err
	}
	t.patience = printPatience
	p := &printed{turns: t, state: state, key: in.Key, duplex: in.Duplex && !in.Key}
	if err := d.prepare(p, in.Class); err != nil {
		state.end(err, time.Now())
		return nil, err
	}
	name := sheetsFile
	if in.Key {
		name = keyFile
	}
	return stream{name, mimes["pdf"], p.write}, nil
}

// prepare settles the class of a print.
func (d *Desk) prepare(p *printed, data json.RawMessage) (err error) {
	defer fault.Catch(func(e error) { err = e })
	var file *segments.ClassFile
	var j handout.Job
	err = p.turns.try(func() error {
		var err error
		if file, j, err = d.classOf(data); err != nil {
			return err
		}
		if err := j.Choose(nil); err != nil {
			return misplaced{"students", "all are absent: nobody has sheets"}
		}
		if p.key && !j.HasPractice() {
			return misplaced{"key", "no page has a practice sheet, so there are no answers"}
		}
		return draw.CheckPages(j.Count(), draw.MostPages)
	})
	if err != nil {
		return err
	}
	var remarks []class.Remark
	if p.set, remarks, err = d.settle(p.turns, file, j.Class); err != nil {
		return err
	}
	p.packer = handout.Packer{Set: p.set, Sheets: !p.key, Backs: p.duplex, Answers: p.key}
	p.state.update(func(s *progress) {
		s.Of = p.set.Count()
		if p.key {
			s.Of = p.set.KeyPages()
		}
		s.Notes = append(s.Notes, slice.Map(remarks, class.Remark.String)...)
	})
	return nil
}

// write writes the file, and says how it ended.
func (p *printed) write(to io.Writer) (err error) {
	defer func() { p.state.end(err, time.Now()) }()
	defer fault.Catch(func(e error) { err = e })
	w := bufio.NewWriterSize(to, 1<<16)
	if p.key {
		err = p.writeKey(w)
	} else {
		err = p.writeSheets(w)
	}
	if err != nil {
		return err
	}
	return w.Flush()
}

func (p *printed) writeSheets(w io.Writer) error {
	sheets := handout.NewSheets(w, p.set, p.duplex)
	if err := p.units(func(u made) error { return sheets.Add(u.Packed) }); err != nil {
		return err
	}
	return sheets.Close()
}

func (p *printed) writeKey(w io.Writer) error {
	// What stands before the answers is made in a turn and sent out of it: a client that does not read holds no worker.
	var front bytes.Buffer
	out := &redirected{&front}
	var key handout.Key
	err := p.turns.try(func() error {
		begun, pages, err := handout.NewKey(out, p.set)
		p.state.update(func(s *progress) { s.Done = len(pages) })
		key = begun
		return err
	})
	if err == nil {
		_, err = front.WriteTo(w)
	}
	out.to = w
	if err == nil {
		err = p.units(func(u made) error { return key.Add(u.Packed) })
	}
	if err != nil {
		return err
	}
	return key.Close()
}

// redirected writes to whatever to is.
type redirected struct{ to io.Writer }

func (r *redirected) Write(data []byte) (int, error) { return r.to.Write(data) }

// made is a unit with what is said of it.
type made struct {
	handout.Packed
	note string
}

// units makes the units in their order.
func (p *printed) units(add func(made) error) error {
	return parallel.InOrder(p.turns.ctx, handout.Units(p.set), p.make, func(u made) error {
		if err := add(u); err != nil {
			return err
		}
		p.state.update(func(s *progress) {
			s.Done += len(u.Sheets) + len(u.Answers)
			s.Student = p.set.NameOf(u.Student)
			if u.note != "" && len(s.Notes) < mostWarnings {
				s.Notes = append(s.Notes, u.note)
			}
		})
		return nil
	})
}

// make composes and packs a unit in its turn.
func (p *printed) make(n int) (out made, err error) {
	u := handout.UnitAt(p.set, n)
	if p.key && (p.set.Vary == 0 || !p.set.Pages[u.Page].HasPractice()) {
		return made{Packed: handout.Packed{Unit: u}}, nil
	}
	err = p.turns.try(func() error {
		h, err := p.set.Handout(u.Student, u.Page)
		if err != nil {
			return err
		}
		out.note = h.Note
		out.Packed, err = p.packer.Pack(u, h)
		return err
	})
	return out, err
}
