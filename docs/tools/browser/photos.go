package main

import (
	"errors"
	"fmt"
	"path/filepath"
	"time"

	"github.com/chromedp/chromedp"
)

// photoPictures are those of docs/desk-photo.md.
var photoPictures = []picture{
	{"desk-photo", device{width: 1440, height: 900}, func(t *tab) error { return t.openSchoolPhoto("averle") }},
	{"desk-photo-over", device{width: 1440, height: 900, dark: true}, func(t *tab) error {
		return errors.Join(t.openSchoolPhoto("hestrin"), t.layOver("hatchback"))
	}},
	{"desk-photo-sketch", device{width: 1440, height: 900}, func(t *tab) error {
		return errors.Join(t.toPhotos(), t.give(school+"../sketch.jpg", school+"../sketch.yaml"),
			t.until(`document.querySelector("#photo-table tr[data-figure=belt]")`), t.layOver("suv"))
	}},
	{"desk-photo-tablet", device{width: 1024, height: 768, touch: true}, func(t *tab) error {
		return errors.Join(t.openSchoolPhoto("averle"), t.openSchoolPhoto("bontry"), t.openSchoolPhoto("cassim"))
	}},
	{"desk-photo-phone", device{width: 390, height: 844, touch: true}, func(t *tab) error { return t.openSchoolPhoto("averle") }},
}

// school holds the photographs of the docs, with their marks.
const school = "../../examples/school/photos/"

// toPhotos goes to the place of photographs.
func (t *tab) toPhotos() error {
	return errors.Join(t.tap("[data-place=photo]"), t.until(`document.querySelector("#photo-open, #photo-asked")`))
}

// give opens files, as the button "open…" does.
func (t *tab) give(paths ...string) error {
	for i, path := range paths {
		full, err := filepath.Abs(path)
		if err != nil {
			return err
		}
		paths[i] = full
	}
	return chromedp.Run(t, chromedp.SetUploadFiles(`#desk-top input[type=file]`, paths, chromedp.ByQuery))
}

// openSchoolPhoto opens one, with its marks, and waits for its figures.
func (t *tab) openSchoolPhoto(name string) error {
	return errors.Join(t.toPhotos(), t.give(school+name+".jpg", school+name+".yaml"),
		t.until(fmt.Sprintf(`document.querySelector(".places small")?.textContent.startsWith(%q) && document.querySelector("#photo-table tr[data-figure=belt]")`, name)),
		chromedp.Run(t, chromedp.Sleep(2*time.Second))) // what more marks would gain is said after a while
}

// layOver lays a segment over the picture.
func (t *tab) layOver(segment string) error {
	return errors.Join(t.tap("[data-word=laid]"), t.until(`document.querySelector("#desk-tray input")`),
		t.eval(fmt.Sprintf(`document.querySelector('#desk-tray input[value=%q]').click()`, segment), nil), t.keys("Escape"),
		t.until(`document.querySelector("#photo-moves")`))
}
