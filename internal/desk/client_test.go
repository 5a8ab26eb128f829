package desk_test

import (
	"bytes"
	"context"
	"encoding/json"
	"io"
	"net"
	"net/http"
	"strings"
	"testing"
	"time"

	"hubrule/internal/desk"
)

// client is a program that knows the calls from docs/calls.md only.
type client struct {
	t       testing.TB
	origin  string
	word    string
	headers map[string]string // on every call
}

// open starts a desk and returns a client of it; asking makes it ask for a word.
func open(t testing.TB, file string, asking bool) *client {
	t.Helper()
	d, err := desk.Open(file, nil)
	if err != nil {
		t.Fatal(err)
	}
	c := &client{t: t, headers: map[string]string{}}
	if asking {
		c.word = d.AskForWord()
	}
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	c.origin = "http://" + l.Addr().String()
	ctx, stop := context.WithCancel(context.Background())
	ended := make(chan error, 1)
	go func() { ended <- d.Serve(ctx, l, "127.0.0.1") }()
	t.Cleanup(func() {
		http.DefaultTransport.(*http.Transport).CloseIdleConnections()
		stop()
		select {
		case err := <-ended:
			if err != nil {
				t.Errorf("the desk ended with %v", err)
			}
		case <-time.After(10 * time.Second):
			t.Error("the desk does not end")
		}
	})
	return c
}

// send makes one request as the page does; header lists names and values that replace those.
func (c *client) send(method, path, body string, header ...string) (*http.Response, []byte) {
	c.t.Helper()
	var from io.Reader
	if body != "" {
		from = strings.NewReader(body)
	}
	r, err := http.NewRequest(method, c.origin+path, from)
	if err != nil {
		c.t.Fatal(err)
	}
	if method == http.MethodPost {
		r.Header.Set("Origin", c.origin)
		r.Header.Set("Content-Type", "application/json")
	}
	for name, value := range c.headers {
		r.Header.Set(name, value)
	}
	for i := 0; i < len(header); i += 2 {
		switch {
		case header[i] == "Host":
			r.Host = header[i+1]
		case header[i+1] == "":
			r.Header.Del(header[i])
		default:
			r.Header.Set(header[i], header[i+1])
		}
	}
	answer, err := http.DefaultClient.Do(r)
	if err != nil {
		c.t.Fatalf("%s %s: %v", method, path, err)
	}
	defer answer.Body.Close()
	data, err := io.ReadAll(answer.Body)
	if err != nil {
		c.t.Fatalf("%s %s: %v", method, path, err)
	}
	return answer, data
}

// ask reads an answer that has the keys of into and no others.
func (c *client) ask(method, path, body string, into any) {
	c.t.Helper()
	answer, data := c.send(method, path, body)
	if answer.StatusCode != http.StatusOK {
		c.t.Fatalf("%s %s %s: %s: %s", method, path, body, answer.Status, data)
	}
	d := json.NewDecoder(bytes.NewReader(data))
	d.DisallowUnknownFields()
	if err := d.Decode(into); err != nil {
		c.t.Fatalf("%s %s: %v in %.2000s", method, path, err, data)
	}
}

type trouble struct {
	Problems []struct{ Where, Text, Nearest string }
}

// refused makes a call that has to be refused, and returns why.
func (c *client) refused(path, body string, status int, header ...string) trouble {
	c.t.Helper()
	answer, data := c.send(http.MethodPost, path, body, header...)
	var out trouble
	if err := json.Unmarshal(data, &out); err != nil || answer.StatusCode != status || len(out.Problems) == 0 {
		c.t.Fatalf("POST %s %.200s: %s, %v: %.500s; want %d", path, body, answer.Status, err, data, status)
	}
	return out
}
