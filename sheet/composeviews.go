package sheet

import (
	"fmt"
	jobs "hubrule/internal/job"
	"slices"

	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/render"
	"hubrule/render/draft"
	"hubrule/render/request"
)

// composeViews is Compose for jobs that show more than the side: the side's sheets first, then every plan's other views as named, each
// on every kind. Flat views are drawn at one wheel size with the side's; perspectives are as large as fits.
func (job driver) composeViews() (render.Document, request.Messages, error) {
	doc := render.Document{Title: job.Title(), About: job.about()}
	var told request.Messages
	if err := jobs.Check(job.Request); err != nil {
		return doc, told, err
	}
	others := slices.DeleteFunc(job.Setting.Sheets(), func(v request.ViewSet) bool { return v.Has(request.SideView) })
	flats := job.otherFlats()
	count := len(others) * len(job.Kinds) * len(job.Plans)
	wheels, err := job.flatWheels(flats)
	if err != nil {
		return doc, told, err
	}
	side := job
	side.Setting.Views, side.more = nil, count
	if slices.Contains(job.Setting.Views, request.SideView) {
		sets, shared, err := side.setsWithin(wheels)
		if err != nil {
			return doc, told, err
		}
		for i, s := range sets {
			doc.Pages = append(doc.Pages, s.pages...)
			told.Warnings = append(told.Warnings, job.tooFine(job.Plans[i].Profile.Name, s.wheel)...)
			wheels[i] = s.wheel
		}
		doc.Pages = append(doc.Pages, shared...)
	} else {
		side.Kinds = nil
	}
	for i, p := range job.Plans {
		if job.Setting.Shows(request.PerspectiveView) {
			told.Notes = append(told.Notes, job.raised(p)...)
		}
		for _, v := range others {
			taken := &roll{}
			for _, kind := range job.Kinds {
				o := onePage{Canvas: draft.NewCanvas(job.Setting), plan: p, kind: kind, wheel: wheels[i], number: side.sheetNumber(len(doc.Pages) + 1), roll: taken}
				page, err := job.viewPage(v, o)
				if err != nil {
					return doc, told, err
				}
				doc.Pages = append(doc.Pages, page)
			}
		}
	}
	return doc, told, nil
}

// viewPage draws one sheet of another view than the side.
func (job driver) viewPage(v request.ViewSet, o onePage) (render.Page, error) {
	o.fixed = &draft.Board{Space: o.Space, Inks: draft.InksOf(job.Ink(o.kind))}
	o.Centring(o.fixed)
	if v.IsPicture() {
		return job.picture(v, o)
	}
	return job.flat(v, o)
}

// setsWithin is allSets with every wheel at most what the other views have room for.
func (job driver) setsWithin(wheels []geom.MM) ([]set, []render.Page, error) {
	limited := job
	if job.Setting.Scale.Fits() {
		limited.most = slices.Min(wheels)
	}
	return limited.allSets()
}

// flatWheels returns the wheel on paper of each plan for the flat views: the largest even one that fits all of them, or the one asked for. Where
// there are none it is 0: nothing limits the side's.
func (job driver) flatWheels(flats []request.ViewSet) ([]geom.MM, error) {
	c, out := draft.NewCanvas(job.Setting), make([]geom.MM, len(job.Plans))
	if len(flats) == 0 {
		return out, nil
	}
	fitting := geom.MM(0)
	for i, p := range job.Plans {
		room, tightest := job.roomOfFlats(flats, c, p)
		if !job.Setting.Scale.Fits() {
			if out[i] = job.Setting.Scale.WheelOf(p); out[i] > room {
				return nil, fmt.Errorf("%s of %s does not fit on %s with a wheel of %s; --scale wheel=%gmm fits",
					tightest, p.Profile.Name, job.Setting.Paper.Name, draft.OnPaper(out[i]), float64(c.EvenBelow(c.Real(room))))
			}
			continue
		}
		if even := c.EvenBelow(c.Real(room)); fitting == 0 || even < fitting {
			fitting = even
		}
		if fitting < leastWheel {
			return nil, fmt.Errorf("%s of %s does not fit on %s: not even with a wheel of %s; use larger paper",
				tightest, p.Profile.Name, job.Setting.Paper.Name, draft.OnPaper(leastWheel))
		}
	}
	if fitting > 0 {
		for i := range out {
			out[i] = fitting
		}
	}
	return out, nil
}

// roomOfFlats is the largest wheel that all flat views of a plan have room for, and the view that has room for no larger one.
func (job driver) roomOfFlats(flats []request.ViewSet, c draft.Canvas, p layout.Plan) (room geom.MM, tightest string) {
	for i, v := range flats {
		if own := job.largestOf(v, c, p); i == 0 || own < room {
			room, tightest = own, "the "+string(v[0])
			if !v.Has(request.ArrangementView) {
				tightest += " view"
			}
		}
	}
	return room, tightest
}

// fitViews returns the largest even wheel, at most limit if that is not 0, at which all flat views of the job's first plan fit: 0 where
// none does. Perspectives fit by themselves.
func (job driver) fitViews(limit geom.MM) geom.MM {
	c := draft.NewCanvas(job.Setting)
	if flats := job.otherFlats(); len(flats) > 0 {
		room, _ := job.roomOfFlats(flats, c, job.Plans[0])
		room = c.EvenBelow(c.Real(room))
		if room < leastWheel {
			return 0
		}
		if limit == 0 || room < limit {
			limit = room
		}
	}
	if job.Setting.Shows(request.SideView) {
		return job.fit(0, limit).wheel
	}
	if limit == 0 {
		return usualPicture
	}
	return limit
}

// usualPicture stands for the wheel of a class that has none: perspectives only.
const usualPicture geom.MM = 40

// otherFlats lists the flat views of the job besides the side.
func (job driver) otherFlats() []request.ViewSet {
	return slices.DeleteFunc(job.Setting.Sheets(), func(v request.ViewSet) bool { return v.Has(request.SideView) || v.IsPicture() })
}

// raised tells of an eye that was lifted off the roof's level, where a roof would be one line.
func (job driver) raised(p layout.Plan) []string {
	c, err := job.Setting.Camera.Spec.Camera(p)
	if err != nil || !c.Raised {
		return nil
	}
	return []string{fmt.Sprintf("%s: the eye would lie in the level of the roof, where a roof is one line; raised to %.0f mm", p.Profile.Name, float64(p.OnVehicle(c.Eye.Y)))}
}
