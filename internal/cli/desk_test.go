//go:build unix

package cli

import (
	"bufio"
	"bytes"
	"io"
	"net/http"
	"strings"
	"syscall"
	"testing"
)

// TestDesk: the desk prints its address, answers there, and an interrupt ends it as it should.
func TestDesk(t *testing.T) {
	t.Parallel()
	for _, tt := range []struct {
		listen, said string
		signal       syscall.Signal
		status       int
	}{
		{"127.0.0.1:0", "", syscall.SIGINT, 200},
		{"0.0.0.0:0", "hubrule: warning: others on this network can read what passes between a browser and the desk: it is plain http\n", syscall.SIGTERM, 401},
	} {
		c := hubrule(t, "desk", "suv", "--no-browser", "--listen", tt.listen)
		var errs bytes.Buffer
		c.Stderr = &errs
		out, err := c.StdoutPipe()
		if err == nil {
			err = c.Start()
		}
		if err != nil {
			t.Fatal(err)
		}
		lines := bufio.NewReader(out)
		address, _ := lines.ReadString('\n')
		answer, err := http.Get(strings.TrimSpace(address) + "job")
		if err != nil {
			c.Process.Kill()
			t.Fatalf("%s: %v", address, err)
		}
		answer.Body.Close()
		if answer.StatusCode != tt.status {
			t.Errorf("%s: %s, want %d", tt.listen, answer.Status, tt.status)
		}
		c.Process.Signal(tt.signal)
		rest, _ := io.ReadAll(lines)
		if err := c.Wait(); err != nil || errs.String() != tt.said || strings.Contains(string(rest), "word: ") != (tt.status == 401) {
			t.Errorf("%s: %v, said %q and %q", tt.listen, err, rest, &errs)
		}
	}
}
