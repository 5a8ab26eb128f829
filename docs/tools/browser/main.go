// Browser draws the pictures of the page of hubrule desk for the docs; its tests use the page as people do, in Debian's Chromium.
package main

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"slices"

	"github.com/chromedp/chromedp"
)

// picture is a picture of the docs: a device, and what is done on it before.
type picture struct {
	name string
	on   device
	do   func(*tab) error
}

// pictures are those of docs/desk.md and its neighbours.
var pictures = []picture{
	{"desk", device{width: 1440, height: 900}, (*tab).lowerRoof},
	{"desk-dark", device{width: 1440, height: 900, dark: true}, (*tab).lowerRoof},
	{"desk-pictures", device{width: 1440, height: 900}, func(t *tab) error { return t.tap("[data-word=segment]") }},
	{"desk-clash", device{width: 1440, height: 900}, (*tab).pinTooMuch},
	{"desk-tablet", device{width: 1024, height: 768, touch: true}, (*tab).lowerRoof},
	{"desk-phone", device{width: 390, height: 844, touch: true}, (*tab).lowerRoof},
	{"desk-handout", device{width: 1440, height: 900}, (*tab).handOut},
	{"desk-handout-tablet", device{width: 1024, height: 1366, touch: true}, (*tab).handOut},
	{"desk-handout-phone", device{width: 390, height: 844, touch: true}, func(t *tab) error {
		if err := t.handOut(); err != nil {
			return err
		}
		return t.eval(`document.querySelector("#desk-sheet").scrollIntoView()`, nil)
	}},
	{"desk-phone-dark", device{width: 390, height: 844, touch: true, dark: true}, func(*tab) error { return nil }},
}

func main() {
	if err := drawAll("../../gallery"); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

// drawAll draws every picture into a folder.
func drawAll(into string) error {
	folder, err := os.MkdirTemp("", "desk")
	if err != nil {
		return err
	}
	defer os.RemoveAll(folder)
	program, err := build(folder)
	if err != nil {
		return err
	}
	d, err := start(program, "sedan")
	if err != nil {
		return err
	}
	defer d.stop()
	browser, end, err := chromium()
	defer end()
	if err != nil {
		return err
	}
	for _, p := range slices.Concat(pictures, photoPictures) {
		if err := p.draw(browser, d.url, filepath.Join(into, p.name+".png")); err != nil {
			return fmt.Errorf("%s: %w", p.name, err)
		}
	}
	return nil
}

func (p picture) draw(browser context.Context, at, path string) error {
	t, err := open(browser, at, p.on, "")
	if err != nil {
		return err
	}
	defer t.close()
	if err := t.until(`document.querySelector("#desk-grips [data-grip=height]")`); err != nil {
		return err
	}
	if err := p.do(t); err != nil {
		return err
	}
	var png []byte
	if err := chromedp.Run(t, chromedp.Sleep(settling), chromedp.CaptureScreenshot(&png)); err != nil {
		return err
	}
	return os.WriteFile(path, png, 0o644)
}

// lowerRoof drags the roof down.
func (t *tab) lowerRoof() error {
	b, err := t.box("#desk-grips [data-grip=height]")
	if err != nil {
		return err
	}
	x, y := b.middle()
	return t.drag(x, y, 0, 12, nil)
}

// pinTooMuch pins more than there is room for.
func (t *tab) pinTooMuch() error {
	for _, p := range [][2]string{{"wheels-between", "3.3"}, {"front-overhang", "0.9"}, {"rear-overhang", "1.2"}, {"length", "7"}} {
		if err := t.eval(fmt.Sprintf(`document.querySelector('#desk-figures [data-figure=%q][role=slider]').focus()`, p[0]), nil); err != nil {
			return err
		}
		if err := t.keys("Enter"); err != nil {
			return err
		}
		if err := t.until(`document.activeElement.tagName === "INPUT"`); err != nil {
			return err
		}
		if err := t.keys(p[1], "Enter"); err != nil {
			return err
		}
		if err := chromedp.Run(t, chromedp.Sleep(settling)); err != nil {
			return err
		}
	}
	return nil
}
