//go:build unix

package main

import (
	"fmt"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/input"
)

// clash types a length that the pinned parts cannot have.
func (v view) clash() {
	v.t.Helper()
	v.typeAt("wheels-between", "3.2")
	for _, figure := range []string{"wheels-between", "front-overhang", "rear-overhang"} {
		if figure != "wheels-between" {
			v.must(v.eval(fmt.Sprintf(`document.querySelector('#desk-figures [data-figure=%q][role=slider]').focus()`, figure), nil))
			v.must(v.keys("p"))
		}
		v.wait(fmt.Sprintf(`%q in (JSON.parse(localStorage.getItem("hubrule-desk-1")).job.pin || {})`, figure))
		v.settle()
	}
	v.typeAt("length", "5.95")
	v.wait(`document.querySelector("#desk-clash button")`)
}

func (v view) typeAt(figure, text string) {
	v.t.Helper()
	v.must(v.eval(fmt.Sprintf(`document.querySelector('#desk-figures [data-figure=%q][role=slider]').focus()`, figure), nil))
	v.must(v.keys("Enter"))
	v.wait(`document.activeElement.tagName === "INPUT"`)
	v.must(v.keys(text, "Enter"))
}

// TestWaysOutOfAClash leaves a clash through each button that is offered, by mouse, by finger and by keys.
func TestWaysOutOfAClash(t *testing.T) {
	for name, d := range map[string]device{"mouse": desktop, "finger": tablet, "keys": {width: 1440, height: 1000}} {
		if name != "finger" && !everything { // it presses the same buttons as the others
			continue
		}
		t.Run(name, func(t *testing.T) {
			v := visit(t, d)
			v.clash()
			var ways int
			v.must(v.eval(`document.querySelectorAll("#desk-clash button").length`, &ways))
			if ways < 6 { // take back, four releases, three or four values
				t.Fatalf("%d ways out of a clash of four pins", ways)
			}
			if alert := v.says("desk-alert"); !strings.Contains(alert, "cannot all hold") {
				t.Errorf("the alert says %q", alert)
			}
			var saving bool
			v.must(v.eval(`[...document.querySelectorAll("[data-save]")].every(b => b.disabled || b.getAttribute("aria-disabled") === "true")`, &saving))
			if !saving {
				t.Error("a clash can be saved")
			}
			for i := range ways {
				v.must(v.eval(fmt.Sprintf(`document.querySelectorAll("#desk-clash button")[%d].setAttribute("data-try", "")`, i), nil))
				if name == "keys" {
					v.must(v.eval(`document.querySelector("[data-try]").focus()`, nil))
					v.must(v.keys("Enter"))
				} else {
					v.press("[data-try]")
				}
				v.wait(`!document.querySelector("#desk-clash button")`)
				v.settle()
				if i == 0 { // the change is taken back: it is made again
					v.typeAt("length", "5.95")
				} else {
					v.must(v.chord("z", input.ModifierCtrl))
				}
				v.wait(`document.querySelector("#desk-clash button")`)
			}
		})
	}
}
