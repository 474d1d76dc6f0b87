//go:build race

package feasibility_test

func init() { raceDetector = true }
