// Attack feeds the program what it should survive: torn and mutated files, numbers beyond all bounds, cameras and fonts of noise, signals at
// any moment, disks without room, two writers of one file. It runs at the project's root, by make attack, in a temporary folder, and prints
// how many attacks it made and which of them got through. The same seed makes the same attacks.
package main

import (
	"context"
	"flag"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"sync"
	"time"
)

func main() {
	seed := flag.Uint64("seed", 1, "number that all attacks are drawn from")
	span := flag.Duration("time", 8*time.Minute, "how long to go on; kinds of attack share it")
	only := flag.String("only", "", "one kind of attack")
	flag.Parse()
	failed, err := run(*seed, *span, *only)
	if err != nil {
		fmt.Fprintln(os.Stderr, "attack:", err)
	}
	if err != nil || failed {
		os.Exit(1)
	}
}

func run(seed uint64, span time.Duration, only string) (failed bool, err error) {
	if _, err := os.Stat("go.mod"); err != nil {
		return false, fmt.Errorf("run this at the project's root: %w", err)
	}
	root, err := os.MkdirTemp("", "attack-")
	if err != nil {
		return false, err
	}
	defer os.RemoveAll(root)
	target := &target{program: filepath.Join(root, "hubrule"), root: root}
	build := exec.Command("go", "build", "-trimpath", "-o", target.program, ".")
	build.Stderr = os.Stderr
	if err := build.Run(); err != nil {
		return false, fmt.Errorf("go build: %w", err)
	}
	if err := target.readSeeds(); err != nil {
		return false, err
	}
	chosen := kinds
	if only != "" {
		chosen = nil
		for _, k := range kinds {
			if k.name == only {
				chosen = append(chosen, k)
			}
		}
	}
	if chosen == nil {
		return false, fmt.Errorf("no kind of attack is called %q", only)
	}
	fmt.Println("| attack | tried | runs that succeeded | runs refused or stopped | got through |\n|---|---:|---:|---:|---:|")
	for i, k := range chosen {
		left := span / time.Duration(len(chosen)-i)
		start := time.Now()
		tried, faults := target.attack(k, seed, left)
		span -= time.Since(start)
		fmt.Printf("| %s | %d | %d | %d | %d |\n", k.name, tried, target.succeeded.Swap(0), target.refused.Swap(0), len(faults))
		for _, f := range faults[:min(5, len(faults))] {
			fmt.Fprintln(os.Stderr, f)
		}
		failed = failed || len(faults) > 0 || tried == 0
	}
	return failed, nil
}

// kind is one kind of attack. Each returns what got through, or "".
type kind struct {
	name string
	most int // attacks; 0: as many as there is time for
	one  func(t *target, at *rand.Rand, n int, folder string) string
}

// attack makes attacks of one kind, on all processors, until time or number is used up.
func (t *target) attack(k kind, seed uint64, span time.Duration) (tried int, faults []string) {
	ctx, cancel := context.WithTimeout(context.Background(), span)
	defer cancel()
	var mu sync.Mutex
	var all sync.WaitGroup
	next := func() (int, bool) {
		mu.Lock()
		defer mu.Unlock()
		if ctx.Err() != nil || k.most > 0 && tried >= k.most {
			return 0, false
		}
		tried++
		return tried - 1, true
	}
	for range runtime.GOMAXPROCS(0) {
		all.Go(func() {
			for {
				n, more := next()
				if !more {
					return
				}
				folder, err := os.MkdirTemp(t.root, "one-")
				if err != nil {
					panic(err)
				}
				fault := k.one(t, rand.New(rand.NewPCG(seed, uint64(n))), n, folder)
				os.RemoveAll(folder)
				if fault != "" {
					mu.Lock()
					faults = append(faults, fmt.Sprintf("%s %d: %s", k.name, n, fault))
					mu.Unlock()
				}
			}
		})
	}
	all.Wait()
	return tried, faults
}
