package wire

import (
	"runtime"
	"runtime/debug"
)

// version is set by the linker for a release: -ldflags "-X tractcheck/api/wire.version=1.2.3".
var version = ""

// commit is set by the linker beside it: the revision it was built from.
var commit = ""

// Version is the release of this build: the one the linker set, else that of the module or of the
// commit, else "devel".
func Version() string {
	info, ok := debug.ReadBuildInfo()
	if !ok {
		info = &debug.BuildInfo{}
	}
	return versionOf(version, commit, info)
}

func versionOf(linked, commit string, info *debug.BuildInfo) string {
	const short = 12
	if linked != "" {
		if commit == "" {
			return linked
		}
		// The commit stands where a version has its build metadata (Semantic Versioning 2.0.0, item 10).
		return linked + "+" + commit[:min(short, len(commit))]
	}
	if v := info.Main.Version; v != "" && v != "(devel)" {
		return v
	}
	settings := map[string]string{}
	for _, s := range info.Settings {
		settings[s.Key] = s.Value
	}
	revision := settings["vcs.revision"]
	if len(revision) < short {
		return "devel"
	}
	name := "devel-" + revision[:short]
	if settings["vcs.modified"] == "true" {
		name += "-modified"
	}
	return name
}

// Engine names the program and the kind of processor that computed an answer: figures are the same
// for one build on one kind of processor. version is a release, such as 1.2.0.
func Engine(version string) string { return "tractcheck " + version + " " + runtime.GOARCH }
