package pdf

import "fmt"

// bookmark is one entry at the top of the tree: a page, or a chapter with its pages below it.
type bookmark struct {
	title string
	page  int // object it leads to
	below []writtenPage
}

// bookmarks writes one bookmark a page, those of one chapter below the chapter's, and returns their root.
func (p *Writer) bookmarks() int {
	tree := bookmarkTree(p.pages)
	root := p.newObject()
	objects := make([]int, len(tree))
	for i, b := range tree {
		objects[i] = p.newObject()
		for range b.below {
			p.newObject()
		}
	}
	for i, b := range tree {
		links := siblings(root, objects, i)
		n := len(b.below)
		if n > 0 {
			links += fmt.Sprintf("/First %d 0 R/Last %d 0 R/Count %d", objects[i]+1, objects[i]+n, -n) // negative: closed
		}
		p.bookmark(objects[i], b.title, links, b.page)
		below := make([]int, n)
		for k := range below {
			below[k] = objects[i] + 1 + k
		}
		for k, page := range b.below {
			p.bookmark(below[k], page.title, siblings(objects[i], below, k), page.object)
		}
	}
	p.object(root, fmt.Sprintf("<</Type/Outlines/First %d 0 R/Last %d 0 R/Count %d>>", objects[0], objects[len(objects)-1], len(tree)))
	return root
}

func (p *Writer) bookmark(object int, title, links string, page int) {
	p.object(object, fmt.Sprintf("<</Title%s%s/Dest[%d 0 R/Fit]>>", pdfText(title), links, page))
}

// siblings links entry i of those below one parent to the parent and to its neighbours.
func siblings(parent int, objects []int, i int) string {
	links := fmt.Sprintf("/Parent %d 0 R", parent)
	if i > 0 {
		links += fmt.Sprintf("/Prev %d 0 R", objects[i-1])
	}
	if i+1 < len(objects) {
		links += fmt.Sprintf("/Next %d 0 R", objects[i+1])
	}
	return links
}

// bookmarkTree gathers the pages that follow one another in a chapter.
func bookmarkTree(pages []writtenPage) []bookmark {
	var tree []bookmark
	for i, page := range pages {
		switch {
		case page.chapter == "":
			tree = append(tree, bookmark{title: page.title, page: page.object})
		case i > 0 && pages[i-1].chapter == page.chapter:
			last := &tree[len(tree)-1]
			last.below = append(last.below, page)
		default:
			tree = append(tree, bookmark{title: page.chapter, page: page.object, below: []writtenPage{page}})
		}
	}
	return tree
}
