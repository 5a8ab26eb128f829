package main

import (
	"fmt"
	"strings"

	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/chromedp"
)

// classOf24 are invented names.
var classOf24 = strings.Fields("Ada Bo Chidi Dana Elif Fynn Grete Hana Ines Jaro Kim Lior Mika Nadia Oda Pia Quentin Rosa Sven Tala Uma Viktor Wanda Xenia")

// toHandout opens the place of handouts.
func (t *tab) toHandout() error {
	if err := t.tap("[data-place=handout]"); err != nil {
		return err
	}
	return t.until(`document.querySelector(".sheets img") && document.querySelector(".small img")`)
}

// pasteNames makes a pasted list the class's students.
func (t *tab) pasteNames(names ...string) error {
	if err := t.tap("[data-word=students]"); err != nil {
		return err
	}
	if err := t.until(`document.querySelector("#handout-list")`); err != nil {
		return err
	}
	if err := t.eval(`(() => { const l = document.querySelector("#handout-list"); l.focus(); l.select() })()`, nil); err != nil {
		return err
	}
	if err := chromedp.Run(t, input.InsertText(strings.Join(names, "\n"))); err != nil {
		return err
	}
	listed := fmt.Sprintf(`document.querySelectorAll(".name").length === %d && document.querySelector(".name span").textContent === %q`, len(names), names[0])
	if err := t.until(listed); err != nil {
		return err
	}
	if err := t.keys("Escape"); err != nil {
		return err
	}
	return t.until(`!document.querySelector("#handout-list")`)
}

// until a sheet of a student is looked at.
func (t *tab) untilDrawn(page int, name string) error {
	return t.until(fmt.Sprintf(`(h => h && h.startsWith(%q) && h.includes("page %d of"))(document.querySelector("#handout-sheet")?.textContent) &&
		document.querySelector(".print").complete`, name+":", page))
}

// handOut puts a class together: a title, names, three pages, one of them with the job of the underlay.
func (t *tab) handOut() error {
	steps := []func() error{
		t.toHandout,
		func() error { return t.tap("[data-word=title]") },
		func() error { return t.until(`document.activeElement.closest("#desk-tray")`) },
		func() error { return t.keys("Proportions, week 3", "Enter", "Escape") },
		func() error { return t.pasteNames(classOf24...) },
		func() error { return t.tap("[data-act=one-more]") },
		func() error { return t.tap("[data-act=this-underlay]") },
		func() error { return t.until(`document.querySelectorAll(".small img").length === 3`) },
		func() error { return t.eval(`document.querySelectorAll(".name input")[6].click()`, nil) },
		func() error { return t.untilDrawn(1, "Grete") },
		func() error { return t.eval("scrollTo(0, 0)", nil) },
	}
	for _, step := range steps {
		if err := step(); err != nil {
			return err
		}
	}
	return nil
}
