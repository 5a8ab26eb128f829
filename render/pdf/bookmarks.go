package pdf

import "fmt"

// bookmark is one entry of the tree of bookmarks. What lies below it follows it at once.
type bookmark struct {
	title       string
	page        int // object it leads to
	parent      int // index, -1 at the top
	first, last int // indices of what lies below, 0 without any: nothing lies below the first entry's parent
	prev, next  int // indices of its neighbours under one parent, -1 without
	count       int
}

// bookmarks writes one bookmark a page, those of one chapter below the chapter's, and returns their root.
func (p *Writer) bookmarks() int {
	tree := bookmarkTree(p.pages)
	root := p.newObject()
	for range tree {
		p.newObject()
	}
	object := func(i int) int { return root + 1 + i }
	last := 0
	for i, b := range tree {
		links := fmt.Sprintf("/Parent %d 0 R", object(b.parent)) // the root stands before the first entry
		if b.prev >= 0 {
			links += fmt.Sprintf("/Prev %d 0 R", object(b.prev))
		}
		if b.next >= 0 {
			links += fmt.Sprintf("/Next %d 0 R", object(b.next))
		}
		if b.count > 0 {
			links += fmt.Sprintf("/First %d 0 R/Last %d 0 R/Count %d", object(b.first), object(b.last), -b.count) // negative: shut
		}
		if b.parent < 0 {
			last = i
		}
		p.object(object(i), fmt.Sprintf("<</Title%s%s/Dest[%d 0 R/Fit]>>", pdfText(b.title), links, b.page))
	}
	top := 0
	for _, b := range tree {
		if b.parent < 0 {
			top++
		}
	}
	p.object(root, fmt.Sprintf("<</Type/Outlines/First %d 0 R/Last %d 0 R/Count %d>>", object(0), object(last), top))
	return root
}

// bookmarkTree lists the bookmarks of pages in the order of a tree's lines.
func bookmarkTree(pages []writtenPage) []bookmark {
	var tree []bookmark
	open, lastTop := -1, -1 // indices of the chapter that pages go below, and of the last entry at the top
	top := func(b bookmark) {
		b.parent, b.prev, b.next = -1, lastTop, -1
		if lastTop >= 0 {
			tree[lastTop].next = len(tree)
		}
		lastTop = len(tree)
		tree = append(tree, b)
	}
	for i, page := range pages {
		if page.chapter == "" {
			top(bookmark{title: page.title, page: page.object})
			open = -1
			continue
		}
		if open < 0 || pages[i-1].chapter != page.chapter {
			top(bookmark{title: page.chapter, page: page.object})
			open = lastTop
		}
		c := &tree[open]
		b := bookmark{title: page.title, page: page.object, parent: open, prev: -1, next: -1}
		if n := len(tree); c.count > 0 {
			b.prev, tree[c.last].next = c.last, n
		} else {
			c.first = n
		}
		c.last = len(tree)
		c.count++
		tree = append(tree, b)
	}
	return tree
}
