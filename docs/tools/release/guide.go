package main

import (
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strings"
)

// link finds where a link or a picture of a Markdown page leads, without the place on the page.
var link = regexp.MustCompile(`\]\(([^)#\s]+)`)

// contributors is the one page that the guide links to and an archive does not need.
const contributors = "DEVELOPERS.md"

// addGuide adds README.md and all that its links lead to, page by page: the guide, its pictures and the examples. Links then work in the
// archive as they do in the tree.
func addGuide(files map[string][]byte, tree string) error {
	seen := map[string]bool{}
	for queue := []string{"README.md"}; len(queue) > 0; queue = queue[1:] {
		page := queue[0]
		if seen[page] {
			continue
		}
		seen[page] = true
		data, err := os.ReadFile(filepath.Join(tree, page))
		if err != nil {
			return err
		}
		files[page] = data
		if filepath.Ext(page) != ".md" {
			continue
		}
		for _, found := range link.FindAllSubmatch(data, -1) {
			to := string(found[1])
			if strings.Contains(to, "://") || filepath.Base(to) == contributors {
				continue
			}
			names, err := filesAt(tree, filepath.Join(filepath.Dir(page), to))
			if err != nil {
				return err
			}
			queue = append(queue, names...)
		}
	}
	return nil
}

// filesAt lists what lies at a path of the tree: a file, or the files of a folder, but for Go's.
func filesAt(tree, path string) (names []string, err error) {
	err = filepath.WalkDir(filepath.Join(tree, path), func(at string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() || filepath.Ext(at) == ".go" {
			return err
		}
		name, err := filepath.Rel(tree, at)
		names = append(names, filepath.ToSlash(name))
		return err
	})
	return names, err
}
