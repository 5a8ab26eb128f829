package cli

import (
	"runtime"
	"runtime/debug"
)

// commitLetters are enough of a commit to find it.
const commitLetters = 12

// builtFrom says which commit and which Go a program was built from, as far as it knows: " (commit 0123456789ab, go1.26.0)".
func builtFrom() string {
	out := runtime.Version()
	info, ok := debug.ReadBuildInfo()
	if !ok {
		return " (" + out + ")"
	}
	found := map[string]string{}
	for _, s := range info.Settings {
		found[s.Key] = s.Value
	}
	commit := found["vcs.revision"]
	if commit == "" { // built without git, or for a test
		return " (" + out + ")"
	}
	commit = commit[:min(commitLetters, len(commit))]
	if found["vcs.modified"] == "true" {
		commit += " with changes"
	}
	return " (commit " + commit + ", " + out + ")"
}
