// Cross vets the program for every system that it is released for: go vet's own analyses over sources that are type-checked as that system
// compiles them. Go vet itself would compile all of the standard library for each, which takes minutes.
package main

import (
	"fmt"
	"os"
	"strings"

	"golang.org/x/tools/go/analysis"
	"golang.org/x/tools/go/analysis/checker"
	"golang.org/x/tools/go/analysis/passes/assign"
	"golang.org/x/tools/go/analysis/passes/atomic"
	"golang.org/x/tools/go/analysis/passes/bools"
	"golang.org/x/tools/go/analysis/passes/composite"
	"golang.org/x/tools/go/analysis/passes/copylock"
	"golang.org/x/tools/go/analysis/passes/errorsas"
	"golang.org/x/tools/go/analysis/passes/loopclosure"
	"golang.org/x/tools/go/analysis/passes/lostcancel"
	"golang.org/x/tools/go/analysis/passes/nilfunc"
	"golang.org/x/tools/go/analysis/passes/shift"
	"golang.org/x/tools/go/analysis/passes/stdmethods"
	"golang.org/x/tools/go/analysis/passes/stringintconv"
	"golang.org/x/tools/go/analysis/passes/structtag"
	"golang.org/x/tools/go/analysis/passes/unmarshal"
	"golang.org/x/tools/go/analysis/passes/unreachable"
	"golang.org/x/tools/go/analysis/passes/unsafeptr"
	"golang.org/x/tools/go/analysis/passes/unusedresult"
	"golang.org/x/tools/go/packages"
)

// analyses are those of go vet that hang on types and need nothing of other packages.
var analyses = []*analysis.Analyzer{assign.Analyzer, atomic.Analyzer, bools.Analyzer, composite.Analyzer, copylock.Analyzer, errorsas.Analyzer,
	loopclosure.Analyzer, lostcancel.Analyzer, nilfunc.Analyzer, shift.Analyzer, stdmethods.Analyzer, stringintconv.Analyzer, structtag.Analyzer,
	unmarshal.Analyzer, unreachable.Analyzer, unsafeptr.Analyzer, unusedresult.Analyzer}

func main() {
	if len(os.Args) < 3 {
		fmt.Fprintln(os.Stderr, "want a folder and targets, like . windows/amd64")
		os.Exit(2)
	}
	wrong := 0
	for _, target := range os.Args[2:] {
		n, err := vet(os.Args[1], target)
		if err != nil {
			fmt.Fprintf(os.Stderr, "%s: %v\n", target, err)
			n++
		}
		wrong += n
	}
	if wrong > 0 {
		os.Exit(1)
	}
}

// vet prints what is wrong with the program in a folder for a target, like windows/amd64, and returns how much that is.
func vet(folder, target string) (wrong int, err error) {
	system, processor, ok := strings.Cut(target, "/")
	if !ok {
		return 0, fmt.Errorf("want SYSTEM/PROCESSOR")
	}
	loaded, err := packages.Load(&packages.Config{Mode: packages.LoadAllSyntax, Dir: folder,
		Env: append(os.Environ(), "GOOS="+system, "GOARCH="+processor, "CGO_ENABLED=0")}, "./...")
	if err != nil {
		return 0, err
	}
	if n := packages.PrintErrors(loaded); n > 0 {
		return n, nil
	}
	graph, err := checker.Analyze(analyses, loaded, nil)
	if err != nil {
		return 0, err
	}
	for _, root := range graph.Roots {
		for _, d := range root.Diagnostics {
			fmt.Fprintf(os.Stderr, "%s: %s: %s\n", target, root.Package.Fset.Position(d.Pos), d.Message)
			wrong++
		}
	}
	return wrong, nil
}
