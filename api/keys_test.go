package api

import (
	"encoding/base64"
	"log/slog"
	"net/http"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// newKeys makes a list of one key and reports the key.
func newKeys(t *testing.T, name string) (*Keys, string) {
	t.Helper()
	key, line, err := NewKey(name)
	require.NoError(t, err)
	assert.NotContains(t, line, key, "the list never holds the key itself")
	keys, err := ReadKeys(strings.NewReader("# keys of the office\n\n" + line + "\n"))
	require.NoError(t, err)
	return keys, key
}

func TestAKeyIsAskedForWhereThereAreKeys(t *testing.T) {
	t.Parallel()
	keys, key := newKeys(t, "north-coop")
	var log syncBuffer
	_, url := serve(t, Config{Keys: keys, Logger: slog.New(slog.NewJSONHandler(&log, nil))})
	basic := "Basic " + base64.StdEncoding.EncodeToString([]byte("anyone:"+key))
	tests := []struct {
		name   string
		header []string
		status int
	}{
		{"bearer", []string{"Authorization", "Bearer " + key}, 200},
		{"bearer in small letters", []string{"Authorization", "bearer " + key}, 200},
		{"field of its own", []string{"X-Api-Key", key}, 200},
		{"password of a browser", []string{"Authorization", basic}, 200},
		{"none", nil, 401},
		{"empty", []string{"Authorization", "Bearer "}, 401},
		{"another", []string{"Authorization", "Bearer " + key[1:]}, 401},
		{"longer", []string{"X-Api-Key", key + "A"}, 401},
		{"another scheme", []string{"Authorization", "Digest " + key}, 401},
		{"the name of its holder", []string{"X-Api-Key", "north-coop"}, 401},
	}
	for _, tc := range tests {
		t.Run(tc.name, func(t *testing.T) {
			got := call(t, request(t, "POST", url+"/v1/assessments", string(sample(t, levee)), tc.header...))
			assert.Equal(t, tc.status, got.StatusCode, "%s", got.body)
			if tc.status == http.StatusUnauthorized {
				assert.Equal(t, "urn:tractcheck:problem:unauthorized", got.problem.Type)
				assert.Contains(t, got.Header.Get("WWW-Authenticate"), "Bearer")
			}
		})
	}
	for _, open := range []string{"/healthz", "/readyz", "/metrics", "/openapi.json", "/v1/reference/units"} {
		assert.Equal(t, 200, call(t, request(t, "GET", url+open, "")).StatusCode, "%s needs no key", open)
	}
	assert.Contains(t, log.String(), `"caller":"north-coop"`)
	assert.NotContains(t, log.String(), key)
}

func TestABrowserIsAskedForItsKey(t *testing.T) {
	t.Parallel()
	keys, _ := newKeys(t, "office")
	_, url := serve(t, Config{Keys: keys})
	got := call(t, request(t, "POST", url+"/v1/assessments", "{}", "Accept", "text/html, */*"))
	assert.Equal(t, 401, got.StatusCode)
	assert.Contains(t, got.Header.Get("WWW-Authenticate"), "Basic")
}

func TestListsOfKeysThatCannotWorkAreRefusedWhole(t *testing.T) {
	t.Parallel()
	_, first, err := NewKey("first")
	require.NoError(t, err)
	digest := strings.Fields(first)[1]
	tests := []struct{ name, list, want string }{
		{"nothing", "# nobody\n", "there is no key"},
		{"a key instead of its digest", "co-op open-sesame-open-sesame", "line 1: the digest of co-op"},
		{"no name", "\n" + digest, "line 2: give a name"},
		{"three words", "a b " + digest, "line 1: give a name"},
		{"a name twice", first + "\n" + first, "line 2: the name or key of first"},
		{"a key twice", first + "\nsecond " + digest, "line 2: the name or key of second"},
		{"two faults", "x\ny z", "line 2: the digest of y"},
	}
	for _, tc := range tests {
		t.Run(tc.name, func(t *testing.T) {
			t.Parallel()
			keys, err := ReadKeys(strings.NewReader(tc.list))
			require.ErrorContains(t, err, tc.want)
			assert.Nil(t, keys)
			assert.NotContains(t, err.Error(), "sesame", "what may be a key is not repeated")
		})
	}
	_, _, err = NewKey("no spaces")
	assert.ErrorContains(t, err, "give a name")
}
