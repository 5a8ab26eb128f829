//go:build unix

package main

import (
	"fmt"
	"os"
	"os/exec"
	"slices"
	"strconv"
	"strings"
	"time"
)

// contestant is a command to be measured and the file it writes, or "".
type contestant struct {
	name    string
	command []string
	output  string
}

// result holds the medians of one contestant: milliseconds, kilobytes, bytes.
type result struct {
	name            string
	wall, cpu, peak float64
	bytes           int64
}

// race runs every contestant in turn, for so many rounds after one to warm up, and returns the medians.
func race(rounds int, contestants ...contestant) ([]result, error) {
	results := make([]result, len(contestants))
	walls, cpus, peaks := make([][]float64, len(contestants)), make([][]float64, len(contestants)), make([][]float64, len(contestants))
	for round := range rounds + 1 {
		for i, c := range contestants {
			one, err := c.run()
			if err != nil {
				return nil, err
			}
			results[i] = one
			if round > 0 {
				walls[i], cpus[i], peaks[i] = append(walls[i], one.wall), append(cpus[i], one.cpu), append(peaks[i], one.peak)
			}
		}
	}
	for i := range results {
		results[i].wall, results[i].cpu, results[i].peak = median(walls[i]), median(cpus[i]), median(peaks[i])
	}
	return results, nil
}

// run measures one run from before the start of the process to after its end.
func (c contestant) run() (result, error) {
	cmd := exec.Command(c.command[0], c.command[1:]...)
	start := time.Now()
	said, err := cmd.Output()
	wall := time.Since(start)
	if err != nil {
		return result{}, fmt.Errorf("%v: %w", c.command, err)
	}
	r := result{name: c.name, wall: milliseconds(wall), cpu: milliseconds(cmd.ProcessState.UserTime() + cmd.ProcessState.SystemTime())}
	if peak, ok := strings.CutPrefix(string(said), "VmHWM:"); ok {
		r.peak, _ = strconv.ParseFloat(strings.Fields(peak)[0], 64)
	}
	if c.output != "" {
		info, err := os.Stat(c.output)
		if err != nil {
			return result{}, err
		}
		r.bytes = info.Size()
	}
	return r, nil
}

// sayPeak prints the line in which Linux keeps this process's peak memory. A parent cannot ask for it:
// what it is told of a child's peak counts its own memory at the moment of the fork.
func sayPeak() {
	status, _ := os.ReadFile("/proc/self/status") // elsewhere than on Linux no peak is told
	for line := range strings.Lines(string(status)) {
		if strings.HasPrefix(line, "VmHWM:") {
			fmt.Print(line)
		}
	}
}

func milliseconds(d time.Duration) float64 { return d.Seconds() * 1000 }

func median(of []float64) float64 {
	slices.Sort(of)
	return (of[(len(of)-1)/2] + of[len(of)/2]) / 2
}

func fields(said []byte) []string { return strings.Fields(string(said)) }
