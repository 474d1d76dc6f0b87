package api

import (
	"encoding/json"
	"net/http"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestReferenceTablesAreServedAndRevalidated(t *testing.T) {
	t.Parallel()
	_, url := serve(t, Config{})
	tags := map[string]bool{}
	for name, rows := range map[string]int{"authorizations": 87, "drift-grades": 4, "droplet-classes": 8, "nozzle-sizes": 15, "sources": 60, "units": 20} {
		path := url + "/v1/reference/" + name
		got := call(t, request(t, "GET", path, ""))
		require.Equal(t, http.StatusOK, got.StatusCode, name)
		assert.Equal(t, mediaJSON, got.Header.Get("Content-Type"))
		assert.Equal(t, "public, max-age=3600, must-revalidate", got.Header.Get("Cache-Control"))
		etag := got.Header.Get("ETag")
		assert.Regexp(t, `^"[0-9a-f]{32}"$`, etag)
		assert.False(t, tags[etag], "each table has a tag of its own")
		tags[etag] = true
		var table struct {
			Rows []json.RawMessage `json:"rows"`
		}
		require.NoError(t, json.Unmarshal(got.body, &table))
		assert.GreaterOrEqual(t, len(table.Rows), rows, name)

		again := call(t, request(t, "GET", path, "", "If-None-Match", `"x", W/`+etag))
		assert.Equal(t, http.StatusNotModified, again.StatusCode)
		assert.Empty(t, again.body)
		assert.Equal(t, etag, again.Header.Get("ETag"))
		head := call(t, request(t, "HEAD", path, ""))
		assert.Equal(t, http.StatusOK, head.StatusCode)
		assert.Equal(t, etag, head.Header.Get("ETag"))
		assert.Empty(t, head.body)
		post := call(t, request(t, "POST", path, "{}"))
		assert.Equal(t, http.StatusMethodNotAllowed, post.StatusCode)
		assert.Contains(t, post.Header.Get("Allow"), "GET")
	}
	missing := call(t, request(t, "GET", url+"/v1/reference/spells", ""))
	assert.Equal(t, http.StatusNotFound, missing.StatusCode)
}
