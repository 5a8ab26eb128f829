package cli

import (
	"fmt"
	"path/filepath"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"hubrule/internal/files"
	"hubrule/internal/picture"
	"hubrule/segments/reading"
)

// newMarks writes a marks file beside each picture.
func (f *readFlags) newMarks(c *cobra.Command, set *files.Set, pictures []string) error {
	if err := f.findLike(); err != nil {
		return err
	}
	var written []output
	for _, path := range pictures {
		header, err := picture.Open(path)
		if err != nil {
			return fmt.Errorf("%s: %w", path, err)
		}
		file := output{path: strings.TrimSuffix(path, filepath.Ext(path)) + ".yaml", data: []byte(f.marksTemplate(path, header))}
		if !f.force {
			if err := refuseExisting("rename it", file); err != nil {
				return err
			}
		}
		if err := set.Add(file.path, file.data); err != nil {
			return err
		}
		written = append(written, file)
	}
	if err := set.Commit(); err != nil {
		return err
	}
	for _, file := range written {
		tellWritten(c.ErrOrStderr(), file.path, file.facts)
	}
	return nil
}

// marksTemplate is a marks file to fill in.
func (f *readFlags) marksTemplate(path string, h picture.Header) string {
	var b strings.Builder
	name := filepath.Base(path)
	own := strings.TrimSuffix(name, filepath.Ext(name)) + ".yaml"
	fmt.Fprintf(&b, `# Marks on %s, in pixels from the top left corner of the upright picture. Zoom in and mark each point
# [x, y]; take away the # before each name that you mark, and leave the others. Then: hubrule read %s
kind: marks
picture: %s
size: [%d, %d]
`, name, own, strconv.Quote(name), h.Width, h.Height)
	line := func(key, means string) { fmt.Fprintf(&b, "%-22s # %s\n", key, means) }
	line("facing: left", "where the nose points: left or right")
	line("# tyre: 235/60R18", "the front tyre, or its diameter like 739mm: without it a photograph gives no millimetres")
	like := "# like: suv"
	if f.like != "" {
		like = "like: " + f.like
	}
	line(like, "the segment that gives width and all that cannot be seen")
	if h.Focal > 0 {
		line("focal: "+strconv.FormatFloat(h.Focal, 'f', -1, 64), "of the lens, for 35 mm film, as the picture says")
	} else {
		line("# focal: 85", "of the lens, for 35 mm film; with neither it nor far tyres overhangs cannot be read")
	}
	line("# cropped: true", "the picture was cut")
	line("# student: Ada Marlow", "whose sketch it is")
	b.WriteString("# on-sheet: {paper: A3, left: [x, y], top: [x, y], right: [x, y], bottom: [x, y]}   # a sketch: its sheet's centring marks\n" +
		"\nmarks:\n")
	for _, n := range reading.Names() {
		info := n.Info()
		point := "[x, y]"
		switch {
		case info.Most > 8:
			point = "[[x, y], [x, y], [x, y]]"
		case info.Most > 1:
			point = "[[x, y], [x, y]]"
		}
		fmt.Fprintf(&b, "  # %s\n  # %s: %s\n", info.Where, n, point)
	}
	return b.String()
}
