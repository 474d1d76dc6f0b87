//go:build race

package api

func init() { raceDetector = true }
