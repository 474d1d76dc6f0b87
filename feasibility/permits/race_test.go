//go:build race

package permits

func init() { raceDetector = true }
