package desk_test

import (
	"bufio"
	"encoding/json"
	"errors"
	"fmt"
	"net"
	"net/http"
	"os"
	"strconv"
	"strings"
	"testing"
	"time"
)

const easyJob = `{"job": {"segment": "suv"}}`

// TestForeignCallers: whatever does not come from the desk's own page is refused before its body is looked at. Sources: RFC 9110, 15.5.4
// (403); RFC 6454, 7 (Origin); Fetch Metadata (Sec-Fetch-Site) (MEM).
func TestForeignCallers(t *testing.T) {
	t.Parallel()
	c := open(t, "", false)
	port := c.origin[strings.LastIndexByte(c.origin, ':')+1:]
	for _, host := range []string{"evil.example", "evil.example:" + port, "localhost.evil.example:" + port, "127.0.0.1", "127.0.0.1:1", "127.0.0.1.nip.example:" + port,
		"[::1]:" + port, "10.0.0.1:" + port, "0.0.0.0:" + port, "127.0.0.2:" + port, "2130706433:" + port, "127.1:" + port, "localhost:" + port} {
		for _, path := range []string{"/", "/job", "/nothing"} {
			if answer, _ := c.send("GET", path, "", "Host", host); answer.StatusCode != 403 {
				t.Errorf("Host %s, GET %s: %s", host, path, answer.Status)
			}
		}
		c.refused("/solve", easyJob, 403, "Host", host, "Origin", "http://"+host)
	}
	for _, origin := range []string{"", "null", "http://evil.example", "https" + strings.TrimPrefix(c.origin, "http"), "http://127.0.0.1", c.origin + ".evil.example",
		c.origin + "/", "http://localhost:" + port, "http://127.0.0.1:1"} {
		c.refused("/solve", easyJob, 403, "Origin", origin)
	}
	for _, site := range []string{"cross-site", "same-site", "none", "other"} {
		c.refused("/solve", easyJob, 403, "Sec-Fetch-Site", site)
	}
	if answer, _ := c.send("GET", "/job", "", "Sec-Fetch-Site", "cross-site", "Sec-Fetch-Mode", "no-cors"); answer.StatusCode != 403 {
		t.Errorf("a script of another site reads /job: %s", answer.Status)
	}
	if answer, _ := c.send("GET", "/", "", "Sec-Fetch-Site", "cross-site", "Sec-Fetch-Mode", "navigate"); answer.StatusCode != 200 {
		t.Errorf("a link to the page: %s", answer.Status)
	}
	if answer, _ := c.send("GET", "/job", "", "Origin", "http://evil.example"); answer.StatusCode != 403 {
		t.Errorf("GET with a foreign Origin: %s", answer.Status)
	}
	for _, kind := range []string{"", "text/plain", "application/x-www-form-urlencoded", "multipart/form-data; boundary=x", "application/jsonx", "application/json, text/plain"} {
		c.refused("/solve", easyJob, 415, "Content-Type", kind)
	}
	if answer, _ := c.send("OPTIONS", "/solve", "", "Origin", "http://evil.example"); answer.StatusCode == 200 || answer.Header.Get("Access-Control-Allow-Origin") != "" {
		t.Errorf("a preflight is answered: %s, %v", answer.Status, answer.Header)
	}
	c.refused("/solve", easyJob+"x", 400)
}

// TestHeaders: every answer says how little it may do.
func TestHeaders(t *testing.T) {
	t.Parallel()
	c := open(t, "", false)
	for _, path := range []string{"/", "/job", "/nothing", "/fonts/400.ttf", "/solve"} {
		answer, _ := c.send("GET", path, "")
		h := answer.Header
		if csp := h.Get("Content-Security-Policy"); !strings.Contains(csp, "default-src 'none'") || !strings.Contains(csp, "frame-ancestors 'none'") ||
			strings.Contains(csp, "unsafe") {
			t.Errorf("%s: policy %q", path, csp)
		}
		if h.Get("X-Content-Type-Options") != "nosniff" || h.Get("Referrer-Policy") != "no-referrer" || h.Get("Set-Cookie") != "" || h.Get("Cache-Control") == "" {
			t.Errorf("%s: %v", path, h)
		}
	}
	if answer, _ := c.send("GET", "/job", ""); answer.Header.Get("Cache-Control") != "no-store" {
		t.Errorf("/job may be kept: %v", answer.Header)
	}
}

// TestPaths: there is what the page has and nothing else, however a path is written.
func TestPaths(t *testing.T) {
	t.Parallel()
	c := open(t, "", false)
	for _, path := range []string{"/../../etc/passwd", "/%2e%2e/%2e%2e/etc/passwd", "/..%2fetc%2fpasswd", "//etc/passwd", "//job", "/job/", "/./job", "/job%00", "/%00",
		"/..\\..\\x", "/%5c..%5cx", "/fonts/", "/fonts/../job", "/fonts/400.ttf%00.html", "/page/dist/index.html", "/index.html/..", "/.git/config", "/%2fjob", "/j%6fb/.."} {
		status, head := raw(t, c, "GET "+path+" HTTP/1.1\r\nHost: "+strings.TrimPrefix(c.origin, "http://")+"\r\nConnection: close\r\n\r\n")
		if status != 404 && status != 400 {
			t.Errorf("%s: %d, %s", path, status, head)
		}
	}
}

// raw sends bytes and returns the status of what comes back.
func raw(t *testing.T, c *client, request string) (status int, head string) {
	t.Helper()
	conn, err := net.Dial("tcp", strings.TrimPrefix(c.origin, "http://"))
	if err != nil {
		t.Fatal(err)
	}
	defer conn.Close()
	conn.SetDeadline(time.Now().Add(20 * time.Second))
	fmt.Fprint(conn, request)
	head, _ = bufio.NewReader(conn).ReadString('\n')
	if fields := strings.Fields(head); len(fields) > 1 {
		status, _ = strconv.Atoi(fields[1])
	}
	return status, head
}

// TestBodies: a body that is too large or torn is refused without being held. Sources: RFC 9110, 15.5.14 (413), 15.5.1 (400) (MEM).
func TestBodies(t *testing.T) {
	t.Parallel()
	c := open(t, "", false)
	head := "POST /solve HTTP/1.1\r\nHost: " + strings.TrimPrefix(c.origin, "http://") + "\r\nOrigin: " + c.origin + "\r\nContent-Type: application/json\r\n"
	if status, _ := raw(t, c, head+"Content-Length: 104857600\r\n\r\n{"); status != 413 {
		t.Errorf("a body of 100 MB: %d", status)
	}
	if status, _ := raw(t, c, head+"Transfer-Encoding: chunked\r\n\r\n50000\r\n"+strings.Repeat("x", 0x50000)+"\r\n"); status != 413 {
		t.Errorf("a body of 320 kB in chunks: %d", status)
	}
	c.refused("/solve", `{"job": {"segment": "suv", "title": "`+strings.Repeat("x", 256<<10)+`"}}`, 413)
	if status, _ := raw(t, c, head+"X-Large: "+strings.Repeat("x", 40<<10)+"\r\nContent-Length: 0\r\n\r\n"); status != 431 {
		t.Errorf("a header of 40 kB: %d", status) // RFC 6585, 5 (MEM)
	}
	for _, body := range []string{"", "{", "null", "[]", `"x"`, easyJob + easyJob, `{"job": {"segment": "suv"}, "x": 1}`, `{"job": {"segment": "suv"}, "hold": 1}`,
		`{"job": {"segment": "suv", "segment": "van"}}`, `{"job": {"segment": suv}}`, strings.Repeat("[", 100_000), `{"job": ` + strings.Repeat(`{"a":`, 50) + "1" + strings.Repeat("}", 51)} {
		c.refused("/solve", body, 400)
	}
}

// TestMarkupIsData: markup in any text of a job comes out as text or is refused, and a refusal gives it back as JSON.
func TestMarkupIsData(t *testing.T) {
	t.Parallel()
	c := open(t, "", false)
	const evil = `"><script>alert(1)</script><g onload='x'>&amp;]]>`
	said, _ := json.Marshal(evil) // a text
	for _, job := range []string{
		`{"segment": "suv", "title": EVIL, "author": EVIL}`, `{"segment": "suv", "also": [{"segment": "van", "title": EVIL}], "sheets": ["spread"]}`,
		`{"segment": EVIL}`, `{"segment": "suv", "tweak": {EVIL: 1}}`, `{"segment": "suv", "pin": {EVIL: "1w"}}`, `{"segment": "suv", "pin": {"height": EVIL}}`,
		`{"segment": "suv", "keep": [EVIL], "tweak": {"sporty": 1}}`, `{"segment": "suv", "camera": EVIL, "view": "perspective"}`, `{"segment": "suv", "against": EVIL, "sheets": "overlay"}`,
		`{"segment": "suv", "paper": EVIL}`, `{"segment": "suv", "sheets": [EVIL]}`, `{EVIL: EVIL}`,
	} {
		job = strings.ReplaceAll(job, "EVIL", string(said))
		for _, call := range [][2]string{{"/keep", `, "format": "svg"}`}, {"/sheet", `, "screen": {"width": 900, "height": 500, "lettering-px": 13}}`}, {"/keep", `, "format": "yaml"}`}} {
			answer, data := c.send("POST", call[0], `{"job": `+job+call[1])
			kind := answer.Header.Get("Content-Type")
			if answer.StatusCode != 200 && answer.StatusCode != 422 || strings.Contains(kind, "html") {
				t.Errorf("%s: %s, %s", job, answer.Status, kind)
			}
			svg := string(data)
			if call[0] == "/sheet" && answer.StatusCode == 200 {
				var p page
				if err := json.Unmarshal(data, &p); err != nil {
					t.Errorf("%s: %v", job, err)
				}
				svg = p.SVG
			}
			if answer.StatusCode == 200 && kind != "application/yaml" && (!isXML(svg) || strings.Contains(svg, "<script") || strings.Contains(svg, "<g onload")) {
				t.Errorf("%s: markup in the SVG", job)
			}
		}
	}
}

// TestWord: without the word, and with wrong ones, nothing is answered; five wrong ones end the trying. Sources: RFC 9110, 15.5.2 (401), RFC
// 6585, 4 (429) (MEM).
func TestWord(t *testing.T) {
	t.Parallel()
	c := open(t, "", true)
	if len(strings.ReplaceAll(c.word, "-", "")) < 8 { // of 32 letters: 40 bits
		t.Errorf("the word is %s", c.word)
	}
	if answer, _ := c.send("GET", "/", ""); answer.StatusCode != 200 {
		t.Errorf("the page asks for the word itself: %s", answer.Status)
	}
	for _, bearer := range []string{"", "Bearer ", "Bearer " + c.word, "Bearer AAAA", "Basic AAAA", "Bearer " + strings.Repeat("A", 64)} {
		answer, _ := c.send("GET", "/job", "", "Authorization", bearer)
		if answer.StatusCode != 401 || answer.Header.Get("WWW-Authenticate") == "" {
			t.Errorf("bearer %q: %s", bearer, answer.Status)
		}
		c.refused("/solve", easyJob, 401, "Authorization", bearer)
	}
	var in struct{ Bearer string }
	c.ask("POST", "/enter", `{"word": "`+strings.ToUpper(strings.ReplaceAll(c.word, "-", " "))+`"}`, &in)
	c.headers["Authorization"] = "Bearer " + in.Bearer
	var f figures
	c.ask("POST", "/solve", easyJob, &f)
	for i, status := range []int{401, 401, 401, 401, 401, 429, 429} {
		answer, _ := c.send("POST", "/enter", `{"word": "abcde-fghjk"}`)
		if answer.StatusCode != status || status == 429 && answer.Header.Get("Retry-After") == "" {
			t.Errorf("wrong word %d: %s", i+1, answer.Status)
		}
	}
	c.refused("/enter", `{"word": "`+c.word+`"}`, 429)
	if c.ask("POST", "/solve", easyJob, &f); f.Segment != "suv" {
		t.Error("a bearer ends with the wrong words of another")
	}
	if answer, data := open(t, "", true).send("GET", "/job", "", "Authorization", "Bearer "+in.Bearer); answer.StatusCode != 401 {
		t.Errorf("the bearer of one desk opens another: %s", data)
	}
}

// TestManyConnections: an address has so many connections and no more, and idle ones are given up. HUBRULE_ATTACK names how many are tried;
// 400 are more than one address may have.
func TestManyConnections(t *testing.T) {
	t.Parallel()
	c := open(t, "", false)
	many, long := 400, false
	if n, err := strconv.Atoi(os.Getenv("HUBRULE_ATTACK")); err == nil {
		many, long = n, true
	}
	var idle []net.Conn
	closed := 0
	for i := range many {
		conn, err := net.DialTimeout("tcp", strings.TrimPrefix(c.origin, "http://"), 5*time.Second)
		if err != nil {
			t.Fatalf("connection %d: %v", i, err)
		}
		if len(idle) < 350 {
			idle = append(idle, conn)
			continue
		}
		conn.SetReadDeadline(time.Now().Add(5 * time.Second)) // beyond the limit the desk has closed it
		var late net.Error
		if _, err := conn.Read(make([]byte, 1)); err != nil && !(errors.As(err, &late) && late.Timeout()) {
			closed++
		}
		conn.Close()
	}
	if closed == 0 {
		t.Errorf("of %d connections none was closed", many)
	}
	for _, one := range idle[:len(idle)/2] {
		if long { // they say nothing until the desk gives them up
			one.SetReadDeadline(time.Now().Add(20 * time.Second))
			one.Read(make([]byte, 1))
		}
		one.Close()
	}
	answered := false
	for n := 0; n < 100 && !answered; n++ { // the desk may hear of the closing a little later
		answer, err := http.Get(c.origin + "/job")
		if answered = err == nil; answered {
			answer.Body.Close()
		} else {
			time.Sleep(20 * time.Millisecond)
		}
	}
	if !answered {
		t.Error("nobody gets in any more")
	}
	for _, one := range idle {
		one.Close()
	}
}
