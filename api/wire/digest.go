package wire

import (
	"crypto/sha256"
	"encoding/hex"
	"io"
	"time"

	"github.com/go-json-experiment/json/jsontext"

	"tractcheck/feasibility/permits"
)

// Digest names a question and everything its answer depends on: SHA-256 over the endpoint, the
// engine, the date of the rules and the request in the canonical form of RFC 8785. White space,
// the order of members and the way numbers are written do not change it. The same digest always
// carries the same answer, so a caller may keep answers by digest. It is empty where the body is
// not one strict JSON value.
func Digest(endpoint Endpoint, engine string, body []byte) string {
	canonical := jsontext.Value(body).Clone()
	if err := canonical.Canonicalize(); err != nil {
		return ""
	}
	return digestOf(endpoint, engine, canonical)
}

// digestOf is the digest of a request in canonical form.
func digestOf(endpoint Endpoint, engine string, canonical []byte) string {
	sum := sha256.New()
	for _, part := range []string{string(endpoint), engine, rulesDate} {
		_, _ = io.WriteString(sum, part) // a hash never fails
		_, _ = io.WriteString(sum, "\n") // no part holds a line feed, so no two lists of parts run together
	}
	sum.Write(canonical)
	const prefix = "sha256:"
	var text [len(prefix) + 2*sha256.Size]byte
	copy(text[:], prefix)
	var room [sha256.Size]byte
	hex.Encode(text[len(prefix):], sum.Sum(room[:0]))
	return string(text[:])
}

// rulesDate is the date of the rules table.
var rulesDate = permits.AsOf().Format(time.DateOnly)
