package main

import (
	"bufio"
	"context"
	"encoding/base64"
	"errors"
	"fmt"
	"net/url"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"time"

	"github.com/chromedp/cdproto/browser"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/cdproto/storage"
	"github.com/chromedp/chromedp"
)

// build builds the program into a folder and returns its path.
func build(folder string) (string, error) {
	path := filepath.Join(folder, "hubrule")
	out, err := exec.Command("go", "build", "-C", "../../..", "-o", path, ".").CombinedOutput()
	if err != nil {
		return "", fmt.Errorf("go build: %w\n%s", err, out)
	}
	return path, nil
}

// desk is a running `hubrule desk`.
type desk struct {
	url string
	cmd *exec.Cmd
}

// start runs the desk on a free port of this machine.
func start(program string, args ...string) (*desk, error) {
	d := &desk{cmd: exec.Command(program, append([]string{"desk", "--no-browser"}, args...)...)}
	out, err := d.cmd.StdoutPipe()
	if err != nil {
		return nil, err
	}
	if err := d.cmd.Start(); err != nil {
		return nil, err
	}
	for lines := bufio.NewScanner(out); lines.Scan(); {
		if _, at, ok := strings.Cut(lines.Text(), "http://"); ok {
			d.url = "http://" + strings.Fields(at)[0]
			return d, nil
		}
	}
	return nil, errors.Join(errors.New("desk printed no address"), d.cmd.Wait())
}

// stop ends the desk like Ctrl-C does and returns how it ended.
func (d *desk) stop() error {
	if err := interrupt(d.cmd.Process); err != nil {
		return err
	}
	return d.cmd.Wait()
}

// shell is Chromium without its windows: the same pages, a sixth less work. Program and Debian package have one name.
const shell = "chromium-headless-shell"

// chromium starts the browser; cancel ends it.
func chromium() (context.Context, context.CancelFunc, error) {
	options := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.ExecPath(shell), chromedp.NoSandbox, chromedp.DisableGPU,
		chromedp.Flag("disable-background-networking", true), chromedp.Flag("disable-component-update", true),
		chromedp.Flag("force-color-profile", "srgb"), chromedp.Flag("font-render-hinting", "none"), chromedp.Flag("hide-scrollbars", false))
	allocator, end := chromedp.NewExecAllocator(context.Background(), options...)
	ctx, _ := chromedp.NewContext(allocator)
	// Debian's program is a script that starts the browser: to kill it would leave the browser behind, so the browser is asked to end.
	return ctx, func() { _ = chromedp.Cancel(ctx); end() }, chromedp.Run(ctx) // a first run starts it
}

// device is what a tab runs on.
type device struct {
	width, height int64
	touch         bool
	dark, forced  bool
	still         bool // reduced motion
}

// tab is a page in the browser. One is open at a time: what a page keeps is cleared when it opens.
type tab struct {
	context.Context
	device
	close     context.CancelFunc
	mu        sync.Mutex
	requests  []string // method and address of all
	bodies    []string // of those that were sent
	errors    []string // what the console and scripts reported
	downloads string   // folder
}

// open opens an address on a device.
func open(parent context.Context, at string, d device, downloads string) (*tab, error) {
	ctx, cancel := chromedp.NewContext(parent)
	ctx, end := context.WithTimeout(ctx, 10*patience)
	t := &tab{Context: ctx, device: d, close: func() { end(); cancel() }, downloads: downloads}
	chromedp.ListenTarget(ctx, t.listen)
	media := []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: "light"}}
	if d.dark {
		media[0].Value = "dark"
	}
	if d.forced {
		media = append(media, &emulation.MediaFeature{Name: "forced-colors", Value: "active"})
	}
	if d.still {
		media = append(media, &emulation.MediaFeature{Name: "prefers-reduced-motion", Value: "reduce"})
	}
	return t, chromedp.Run(ctx, network.Enable(), runtime.Enable(),
		emulation.SetDeviceMetricsOverride(d.width, d.height, 1, d.touch && d.width < 700),
		emulation.SetTouchEmulationEnabled(d.touch), emulation.SetEmulatedMedia().WithFeatures(media),
		chromedp.ActionFunc(func(ctx context.Context) error {
			if downloads == "" {
				return nil
			}
			return browser.SetDownloadBehavior(browser.SetDownloadBehaviorBehaviorAllow).WithDownloadPath(downloads).Do(ctx)
		}),
		storage.ClearDataForOrigin(at, "local_storage,indexeddb"), chromedp.Navigate(at))
}

// listen keeps what is asked of the network, and every error.
func (t *tab) listen(event any) {
	t.mu.Lock()
	defer t.mu.Unlock()
	switch e := event.(type) {
	case *network.EventRequestWillBeSent:
		t.requests = append(t.requests, e.Request.Method+" "+e.Request.URL)
		for _, part := range e.Request.PostDataEntries {
			body, _ := base64.StdEncoding.DecodeString(part.Bytes)
			t.bodies = append(t.bodies, string(body))
		}
	case *runtime.EventExceptionThrown:
		t.errors = append(t.errors, e.ExceptionDetails.Error())
	case *runtime.EventConsoleAPICalled:
		if e.Type == runtime.APITypeError || e.Type == runtime.APITypeWarning || e.Type == runtime.APITypeAssert {
			for _, a := range e.Args {
				t.errors = append(t.errors, string(a.Value)+a.Description)
			}
		}
	}
}

// elsewhere lists the requests that left the desk.
func (t *tab) elsewhere(desk string) []string {
	t.mu.Lock()
	defer t.mu.Unlock()
	var out []string
	home, _ := url.Parse(desk)
	for _, r := range t.requests {
		_, at, _ := strings.Cut(r, " ")
		u, err := url.Parse(at)
		if err != nil || u.Scheme != "blob" && u.Scheme != "data" && u.Host != home.Host {
			out = append(out, r)
		}
	}
	return out
}

// eval evaluates an expression, which may be a promise, into a value.
func (t *tab) eval(expression string, into any) error {
	wait := func(p *runtime.EvaluateParams) *runtime.EvaluateParams { return p.WithAwaitPromise(true) }
	if into == nil {
		var none any
		into = &none
	}
	return chromedp.Run(t, chromedp.Evaluate(expression, into, wait))
}

// place is a box on the page.
type place struct{ X, Y, Width, Height float64 }

func (p place) middle() (x, y float64) { return p.X + p.Width/2, p.Y + p.Height/2 }

// box returns the box of the first element that a selector finds, after scrolling it into view.
func (t *tab) box(selector string) (place, error) {
	var out *place
	err := t.eval(fmt.Sprintf(`(() => { const e = document.querySelector(%q); if (!e) return null; e.scrollIntoView({block: "nearest"});
		const r = e.getBoundingClientRect(); return {X: r.x, Y: r.y, Width: r.width, Height: r.height}; })()`, selector), &out)
	if err == nil && out == nil {
		err = fmt.Errorf("no element %s", selector)
	}
	if err != nil {
		return place{}, err
	}
	return *out, nil
}

// patience is how long a page on a busy machine may take for anything.
const patience = 30 * time.Second

// settling is longer than a drawing and its announcement take.
const settling = 400 * time.Millisecond

// steps is in how many moves a drag is made.
const steps = 6

// drag presses at a place, moves by so many pixels and lets go: with a finger where the device has touch, else with the mouse. Before
// letting go it calls held, if there is one.
func (t *tab) drag(x, y, dx, dy float64, held func()) error {
	at := func(share float64) (float64, float64) { return x + dx*share, y + dy*share }
	move := func(kind input.TouchType, mouse input.MouseType, share float64) chromedp.Action {
		px, py := at(share)
		if !t.touch {
			buttons := int64(1)
			if mouse == input.MouseReleased {
				buttons = 0
			}
			return input.DispatchMouseEvent(mouse, px, py).WithButton(input.Left).WithButtons(buttons).WithClickCount(1)
		}
		points := []*input.TouchPoint{{X: px, Y: py, ID: 1}}
		if kind == input.TouchEnd {
			points = []*input.TouchPoint{}
		}
		return input.DispatchTouchEvent(kind, points)
	}
	if !t.touch {
		if err := chromedp.Run(t, input.DispatchMouseEvent(input.MouseMoved, x, y)); err != nil {
			return err
		}
	}
	if err := chromedp.Run(t, move(input.TouchStart, input.MousePressed, 0)); err != nil {
		return err
	}
	for i := 1; i <= steps; i++ {
		if err := chromedp.Run(t, chromedp.Sleep(12*time.Millisecond), move(input.TouchMove, input.MouseMoved, float64(i)/steps)); err != nil {
			return err
		}
	}
	if held != nil {
		time.Sleep(80 * time.Millisecond)
		held()
	}
	return chromedp.Run(t, move(input.TouchEnd, input.MouseReleased, 1))
}

// tap presses the first element that a selector finds.
func (t *tab) tap(selector string) error {
	b, err := t.box(selector)
	if err != nil {
		return err
	}
	x, y := b.middle()
	if !t.touch {
		return chromedp.Run(t, chromedp.MouseClickXY(x, y))
	}
	return chromedp.Run(t, input.DispatchTouchEvent(input.TouchStart, []*input.TouchPoint{{X: x, Y: y, ID: 1}}),
		input.DispatchTouchEvent(input.TouchEnd, []*input.TouchPoint{}))
}

// named are the keys that have a name and, some, a letter of their own.
var named = map[string]struct {
	text string
	code int64
}{"Enter": {"\r", 13}, "Tab": {"", 9}, "Escape": {"", 27}, "Delete": {"", 46}, "Backspace": {"", 8}, "ArrowUp": {"", 38}, "ArrowDown": {"", 40}, "ArrowLeft": {"", 37}, "ArrowRight": {"", 39}}

// keys presses named keys, and types all other words letter by letter. A key and its letter are one event, as from a keyboard, so that a page
// that takes the key never sees the letter.
func (t *tab) keys(words ...string) error {
	for _, word := range words {
		if k, ok := named[word]; ok {
			if err := t.key(word, k.text, k.code, 0); err != nil {
				return err
			}
			continue
		}
		for _, letter := range word {
			if err := t.key(string(letter), string(letter), 0, 0); err != nil {
				return err
			}
		}
	}
	return nil
}

// chord presses a key with modifiers.
func (t *tab) chord(key string, modifiers ...input.Modifier) error {
	var all input.Modifier
	for _, m := range modifiers {
		all |= m
	}
	return t.key(key, "", named[key].code, all)
}

func (t *tab) key(name, text string, code int64, modifiers input.Modifier) error {
	kind := input.KeyDown
	if text == "" {
		kind = input.KeyRawDown
	}
	down := input.DispatchKeyEvent(kind).WithKey(name).WithCode(name).WithText(text).WithWindowsVirtualKeyCode(code).WithModifiers(modifiers)
	up := input.DispatchKeyEvent(input.KeyUp).WithKey(name).WithCode(name).WithWindowsVirtualKeyCode(code).WithModifiers(modifiers)
	return chromedp.Run(t, down, up)
}

// until waits until an expression is true.
func (t *tab) until(expression string) error {
	ctx, cancel := context.WithTimeout(t, patience)
	defer cancel()
	if err := chromedp.Run(ctx, chromedp.Poll("!!("+expression+")", nil, chromedp.WithPollingInterval(20*time.Millisecond))); err != nil {
		return fmt.Errorf("%s never became true: %w", expression, err)
	}
	return nil
}
