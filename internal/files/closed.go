package files

import (
	"os"
	"strings"
)

// isClosed reports whether the process was started with w closed, as by >&-: its runtime then opens the null device in its place, for
// reading too, and everything written would vanish. A null device that the caller opened for both looks the same. Only Linux tells.
func isClosed(w any) bool {
	f, ok := w.(*os.File)
	if !ok || f.Fd() != 1 {
		return false
	}
	info, err := f.Stat()
	null, err2 := os.Stat(os.DevNull)
	if err != nil || err2 != nil || !os.SameFile(info, null) {
		return false
	}
	const readAndWrite = "2" // the last octal digit of open's flags
	about, _ := os.ReadFile("/proc/self/fdinfo/1")
	for line := range strings.Lines(string(about)) {
		if flags, found := strings.CutPrefix(line, "flags:"); found {
			return strings.HasSuffix(strings.TrimSpace(flags), readAndWrite)
		}
	}
	return false
}
