package sheet

import (
	"fmt"
	"hubrule/render/request"
	"slices"
)

// The most that a page holds.
const (
	mostOverlaid = 4
	mostSpread   = 6
)

// Check reports which kind of sheet cannot show what is asked for, or returns nil.
func Check(r request.Request) error { return driver{r}.check() }

func (job driver) check() error {
	if err := job.checkTile(); err != nil {
		return err
	}
	overlays := slices.Contains(job.Kinds, request.Overlay)
	n := len(job.Comparisons()[0])
	switch {
	case overlays && n < 2:
		return fmt.Errorf("an overlay wants something to compare with: a second segment, or --against")
	case overlays && n > mostOverlaid:
		return fmt.Errorf("an overlay holds at most %d vehicles; found %d", mostOverlaid, n)
	case len(job.Against) > 0 && !overlays:
		return fmt.Errorf("--against goes with --sheet overlay")
	case job.checkViews() != nil:
		return job.checkViews()
	case slices.Contains(job.Kinds, request.Spread) && len(job.Plans) > mostSpread:
		return fmt.Errorf("a spread holds at most %d vehicles; found %d", mostSpread, len(job.Plans))
	case !slices.Contains(job.Kinds, request.Thumbnails):
		if job.Count != 0 {
			return fmt.Errorf("--count goes with --sheet thumbnails")
		}
	case job.Count != 0 && (job.Count < request.LeastThumbnails || job.Count > request.MostThumbnails):
		return fmt.Errorf("--count: %d; want %d to %d", job.Count, request.LeastThumbnails, request.MostThumbnails)
	case job.Thumbnails() < len(job.Plans):
		return fmt.Errorf("--count: %d; want at least one for each of the %d segments", job.Count, len(job.Plans))
	case len(job.Plans) > request.MostThumbnails:
		return fmt.Errorf("thumbnails hold at most %d segments; found %d", request.MostThumbnails, len(job.Plans))
	}
	return nil
}

// checkViews tells which kind of sheet makes no sense of which view, or returns nil.
func (job driver) checkViews() error {
	for _, v := range job.Setting.Seen() {
		for _, k := range job.Kinds {
			if !slices.Contains(v.Kinds(), k) {
				return fmt.Errorf("--view %s has no %s sheet: %s; want %s", v, k, v.WhyNot(k), request.Listed(v.Kinds(), " or "))
			}
		}
	}
	return nil
}

// checkTile tells why a job cannot be cut into tiles, or returns nil.
func (job driver) checkTile() error {
	if !job.Setting.Tile {
		return nil
	}
	for _, kind := range job.Kinds {
		if kind == request.Steps || kind == request.Spread || kind == request.Thumbnails {
			return fmt.Errorf("--tile: a sheet of the kind %s fills its own page; want full, trace, practice, answer or overlay", kind)
		}
	}
	switch {
	case !slices.Equal(job.Setting.Seen(), []request.View{request.SideView}):
		return fmt.Errorf("--tile cuts the side view; the other views are drawn on one page")
	case job.Setting.Scale.Fits():
		return fmt.Errorf("--tile wants a scale, or one page would do: --scale 1:4 or --scale wheel=200mm")
	case job.Setting.Frame:
		return fmt.Errorf("--tile: a frame stands round one page; tiles have cut and glue marks instead")
	}
	return nil
}
