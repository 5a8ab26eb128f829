package pdf

import (
	"fmt"
	"slices"
)

// bookmark is an entry of the tree: a page, or a chapter with its pages below it.
type bookmark struct {
	title        string
	object, page int // its own object, and the one that it leads to
	below        []bookmark
}

// bookmarks writes one bookmark a page, those that follow one another in a chapter below the chapter's, and returns their root.
func (p *Writer) bookmarks() int {
	root := p.newObject()
	var tree []bookmark
	for i, page := range p.pages {
		if page.chapter != "" && (i == 0 || p.pages[i-1].chapter != page.chapter) {
			tree = append(tree, bookmark{page.chapter, p.newObject(), page.object, nil})
		}
		b := bookmark{page.title, p.newObject(), page.object, nil}
		if page.chapter == "" {
			tree = append(tree, b)
		} else {
			last := &tree[len(tree)-1]
			last.below = append(last.below, b)
		}
	}
	p.siblings(root, tree)
	p.object(root, fmt.Sprintf("<</Type/Outlines/First %d 0 R/Last %d 0 R/Count %d>>", tree[0].object, tree[len(tree)-1].object, len(tree)))
	return root
}

// siblings writes the bookmarks below one parent, linked to it and to their neighbours.
func (p *Writer) siblings(parent int, all []bookmark) {
	for i, b := range all {
		links := fmt.Sprintf("/Parent %d 0 R", parent)
		if i > 0 {
			links += fmt.Sprintf("/Prev %d 0 R", all[i-1].object)
		}
		if i+1 < len(all) {
			links += fmt.Sprintf("/Next %d 0 R", all[i+1].object)
		}
		if n := len(b.below); n > 0 {
			links += fmt.Sprintf("/First %d 0 R/Last %d 0 R/Count %d", b.below[0].object, b.below[n-1].object, -n) // negative: closed
		}
		p.object(b.object, fmt.Sprintf("<</Title%s%s/Dest[%d 0 R/Fit]>>", pdfText(b.title), links, b.page))
		p.siblings(b.object, b.below)
	}
}

// pageLabels returns the catalog's entry about what pages are called, or nothing if none has a name of its own.
func (p *Writer) pageLabels() string {
	if !slices.ContainsFunc(p.pages, func(page writtenPage) bool { return page.label != "" }) {
		return ""
	}
	var b []byte
	for i, page := range p.pages {
		if page.label == "" {
			b = fmt.Appendf(b, "%d<</S/D/St %d>>", i, i+1) // its number
		} else {
			b = fmt.Appendf(b, "%d<</P%s>>", i, pdfText(page.label))
		}
	}
	return "/PageLabels<</Nums[" + string(b) + "]>>"
}
