package reading

import (
	"os"
	"strconv"
	"testing"
)

// trials is how many random cases a test tries: usually as many as it says, under make prove the number in HUBRULE_PROVE.
func trials(t testing.TB, usually int) int {
	t.Helper()
	text, proving := os.LookupEnv("HUBRULE_PROVE")
	if !proving {
		return usually
	}
	n, err := strconv.Atoi(text)
	if err != nil {
		t.Fatalf("HUBRULE_PROVE: %v", err)
	}
	return n
}
