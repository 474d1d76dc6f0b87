package wire

import (
	"flag"
	"os"
	"testing"
)

// TestMain gives the property tests a fixed seed, so that a run is the same everywhere. Pass
// -rapid.seed=N or raise -rapid.checks to look further.
func TestMain(m *testing.M) {
	flag.Parse()
	seeded := false
	flag.Visit(func(f *flag.Flag) { seeded = seeded || f.Name == "rapid.seed" })
	if !seeded {
		if err := flag.Set("rapid.seed", "20261125"); err != nil {
			panic(err)
		}
	}
	os.Exit(m.Run())
}
