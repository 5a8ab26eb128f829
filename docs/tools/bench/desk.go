//go:build unix

package main

import (
	"bufio"
	"fmt"
	"io"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"
	"syscall"
	"time"
)

// What the desk is asked: calls of one visitor, then visitors who each ask at an interval for a time, then calls for its memory.
const (
	deskCalls    = 300
	deskVisitors = 40
	deskEvery    = 100 * time.Millisecond
	deskTime     = 10 * time.Second
	deskMany     = 10_000
)

// served is a desk as a process of its own.
type served struct {
	process *os.Process
	origin  string
	client  http.Client
}

// serveDesk starts a desk at a free port.
func serveDesk(program string) (s *served, stop func() error, err error) {
	c := exec.Command(program, "desk", "suv", "--no-browser", "--listen", "127.0.0.1:0")
	out, err := c.StdoutPipe()
	if err == nil {
		err = c.Start()
	}
	if err != nil {
		return nil, nil, err
	}
	address, err := bufio.NewReader(out).ReadString('\n')
	s = &served{process: c.Process, origin: strings.TrimSuffix(strings.TrimSpace(address), "/")}
	s.client.Transport = &http.Transport{MaxIdleConnsPerHost: 2 * deskVisitors}
	return s, func() error { c.Process.Signal(syscall.SIGTERM); return c.Wait() }, err
}

// ask makes call number n with a job of its own, and returns how long the whole answer took, in ms.
func (s *served) ask(path, more string, n int) (float64, error) {
	body := fmt.Sprintf(`{"job": {"segment": "suv", "tweak": {"sporty": %.2f}, "pin": {"height": "%.3fw"}}%s}`,
		float64(n%100)/100, 2.2+float64(n%150)/1000, more)
	t, _, err := s.send(path, body)
	return t, err
}

// send makes a call, and returns how long the whole answer took, in ms, and the answer.
func (s *served) send(path, body string) (float64, []byte, error) {
	r, err := http.NewRequest(http.MethodPost, s.origin+path, strings.NewReader(body))
	if err != nil {
		return 0, nil, err
	}
	r.Header = http.Header{"Origin": {s.origin}, "Content-Type": {"application/json"}}
	start := time.Now()
	answer, err := s.client.Do(r)
	if err != nil {
		return 0, nil, err
	}
	defer answer.Body.Close()
	data, err := io.ReadAll(answer.Body)
	if err == nil && answer.StatusCode != http.StatusOK {
		err = fmt.Errorf("%s: %s: %.200s", path, answer.Status, data)
	}
	return milliseconds(time.Since(start)), data, err
}

// times asks so often, one call after the other.
func (s *served) times(calls int, path, more string) ([]float64, error) {
	var out []float64
	for n := range calls {
		t, err := s.ask(path, more, n)
		if err != nil {
			return nil, err
		}
		out = append(out, t)
	}
	return out, nil
}

// visitors has many ask at once, each at its interval.
func (s *served) visitors(path, more string) ([]float64, error) {
	all, failed := make([][]float64, deskVisitors), make([]error, deskVisitors)
	var group sync.WaitGroup
	for v := range deskVisitors {
		group.Go(func() {
			time.Sleep(deskEvery * time.Duration(v) / deskVisitors)
			tick := time.NewTicker(deskEvery)
			defer tick.Stop()
			for n := range int(deskTime / deskEvery) {
				<-tick.C
				t, err := s.ask(path, more, n*deskVisitors+v)
				if err != nil {
					failed[v] = err
					return
				}
				all[v] = append(all[v], t)
			}
		})
	}
	group.Wait()
	for _, err := range failed {
		if err != nil {
			return nil, err
		}
	}
	return slices.Concat(all...), nil
}

// memory returns what the process holds, in MB.
func (s *served) memory() float64 {
	about, _ := os.ReadFile(fmt.Sprintf("/proc/%d/status", s.process.Pid)) // of another system nothing is known
	m := regexp.MustCompile(`VmRSS:\s+(\d+) kB`).FindSubmatch(about)
	if m == nil {
		return 0
	}
	kB, _ := strconv.ParseFloat(string(m[1]), 64)
	return kB / 1000
}

// quantile returns the value below which a share of values lies.
func quantile(values []float64, share float64) float64 {
	slices.Sort(values)
	return values[min(len(values)-1, int(share*float64(len(values))))]
}

// benchDesk times the calls of a desk over loopback, and looks whether its memory grows.
func benchDesk(dir string) error {
	program := filepath.Join(dir, "hubrule")
	if err := build(root, program, "."); err != nil {
		return err
	}
	s, stop, err := serveDesk(program)
	if err != nil {
		return err
	}
	defer stop()
	const hold = `, "hold": "belt"`
	const screen = `, "screen": {"width": 1400, "height": 600, "lettering-px": 13}`
	const moving = `, "screen": {"width": 1400, "height": 600, "lettering-px": 13, "moving": true}`
	fmt.Printf("Calls of the desk over loopback, whole answers, each with a job of its own; %d visitors ask every %v for %v:\n\n",
		deskVisitors, deskEvery, deskTime)
	fmt.Println("| call | calls | median ms | 99th percentile ms |\n|---|---|---|---|")
	row := func(name string, times []float64, err error) error {
		if err == nil {
			fmt.Printf("| %s | %d | %.1f | %.1f |\n", name, len(times), quantile(times, .5), quantile(times, .99))
		}
		return err
	}
	for _, c := range []struct{ name, path, more string }{
		{"`/solve`", "/solve", ""}, {"`/solve` with the room of a figure", "/solve", hold}, {"`/sheet`, side", "/sheet", screen},
		{"`/sheet`, side, while a figure is moved", "/sheet", moving},
	} {
		if _, err := s.times(deskCalls/10, c.path, c.more); err != nil { // to warm up
			return err
		}
		times, err := s.times(deskCalls, c.path, c.more)
		if err := row(c.name, times, err); err != nil {
			return err
		}
	}
	times, err := s.visitors("/sheet", moving)
	if err := row(fmt.Sprintf("the same, %d visitors who drag", deskVisitors), times, err); err != nil {
		return err
	}
	if err := s.benchMarks(row); err != nil {
		return err
	}
	if err := s.benchClass(row, func() ([]float64, error) { return s.visitors("/sheet", moving) }); err != nil {
		return err
	}
	before := s.memory()
	if _, err := s.times(deskMany, "/sheet", screen); err != nil {
		return err
	}
	fmt.Printf("\nThe process holds %.0f MB before and %.0f MB after %d calls more.\n", before, s.memory(), deskMany)
	return stop()
}
