package wire

import (
	"runtime"
	"runtime/debug"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestEngineNamesTheProcessor(t *testing.T) {
	t.Parallel()
	assert.Equal(t, "tractcheck 1.2.3 "+runtime.GOARCH, Engine("1.2.3"))
}

func TestVersionNames(t *testing.T) {
	t.Parallel()
	commit := []debug.BuildSetting{{Key: "vcs.revision", Value: "0123456789abcdef0123"}}
	changed := append([]debug.BuildSetting{{Key: "vcs.modified", Value: "true"}}, commit...)
	for _, tc := range []struct {
		linked string
		info   debug.BuildInfo
		want   string
	}{
		{"1.2.3", debug.BuildInfo{Main: debug.Module{Version: "v9"}}, "1.2.3"},
		{"", debug.BuildInfo{Main: debug.Module{Version: "v1.0.0"}}, "v1.0.0"},
		{"", debug.BuildInfo{Main: debug.Module{Version: "(devel)"}}, "devel"},
		{"", debug.BuildInfo{Settings: commit}, "devel-0123456789ab"},
		{"", debug.BuildInfo{Settings: changed}, "devel-0123456789ab-modified"},
		{"", debug.BuildInfo{}, "devel"},
	} {
		assert.Equal(t, tc.want, versionOf(tc.linked, "", &tc.info))
	}
	assert.Equal(t, "1.2.3+0123456789ab", versionOf("1.2.3", "0123456789abcdef0123", &debug.BuildInfo{}))
	assert.Equal(t, "1.2.3+0123", versionOf("1.2.3", "0123", &debug.BuildInfo{}))
}
