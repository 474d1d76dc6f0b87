package api

import (
	"bufio"
	"crypto/rand"
	"crypto/sha256"
	"crypto/subtle"
	"encoding/base64"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"net/http"
	"strings"

	"github.com/labstack/echo/v4"
)

// Keys are the API keys that callers may show. Only their SHA-256 digests are kept: a key is 256
// random bits, so a digest cannot be turned back, and a fast one is enough.
type Keys struct {
	entries []keyEntry
}

// keyEntry is one key: the name of its holder, for limits and the log, and its digest.
type keyEntry struct {
	name   string
	digest [sha256.Size]byte
}

// Count is how many keys there are; 0 where nil, which asks for none.
func (k *Keys) Count() int {
	if k == nil {
		return 0
	}
	return len(k.entries)
}

// ReadKeys reads a list of keys: one a line, the holder's name, white space, and the SHA-256 digest
// of the key in hexadecimal digits, as `tractcheck key NAME` prints it. Empty lines and lines that
// begin with # are skipped. The error names every line that cannot be read, and never repeats its
// digest: a key written there by mistake must not reach a log.
func ReadKeys(r io.Reader) (*Keys, error) {
	keys := &Keys{}
	var errs []error
	lines := bufio.NewScanner(r)
	for number := 1; lines.Scan(); number++ {
		text := strings.TrimSpace(lines.Text())
		if text == "" || strings.HasPrefix(text, "#") {
			continue
		}
		if err := keys.add(text); err != nil {
			errs = append(errs, fmt.Errorf("line %d: %w", number, err))
		}
	}
	errs = append(errs, lines.Err())
	if len(keys.entries) == 0 {
		errs = append(errs, errors.New("there is no key; make one with tractcheck key NAME"))
	}
	if err := errors.Join(errs...); err != nil {
		return nil, err
	}
	return keys, nil
}

// add takes one entry.
func (k *Keys) add(text string) error {
	fields := strings.Fields(text)
	if len(fields) != 2 || !isName(fields[0]) {
		return errors.New("give a name of letters, digits, dots, dashes and underlines, a space, and the key's digest")
	}
	digest, err := hex.DecodeString(fields[1])
	if err != nil || len(digest) != sha256.Size {
		return errors.New("the digest of " + fields[0] + " is not 64 hexadecimal digits; tractcheck key NAME prints one, and the key itself never stands here")
	}
	entry := keyEntry{name: fields[0], digest: [sha256.Size]byte(digest)}
	for _, e := range k.entries {
		if e.name == entry.name || e.digest == entry.digest {
			return errors.New("the name or key of " + fields[0] + " stands in the list twice")
		}
	}
	k.entries = append(k.entries, entry)
	return nil
}

// NewKey makes a key and the line of its digest for the list of keys. The key is shown once and
// kept nowhere.
func NewKey(name string) (key, line string, err error) {
	if !isName(name) {
		return "", "", errors.New("give a name of up to 64 letters, digits, dots, dashes and underlines")
	}
	secret := make([]byte, sha256.Size)
	_, _ = rand.Read(secret) // never fails
	key = base64.RawURLEncoding.EncodeToString(secret)
	digest := sha256.Sum256([]byte(key))
	return key, name + " " + hex.EncodeToString(digest[:]), nil
}

// holder finds whose key it is. Every entry is compared, each in constant time.
func (k *Keys) holder(key string) (string, bool) {
	digest := sha256.Sum256([]byte(key))
	found := -1
	for i := range k.entries {
		if subtle.ConstantTimeCompare(digest[:], k.entries[i].digest[:]) == 1 {
			found = i
		}
	}
	if found < 0 {
		return "", false
	}
	return k.entries[found].name, true
}

// Header fields of a key.
const (
	apiKeyField     = "X-Api-Key"
	challengesField = "WWW-Authenticate"
)

// shownKey reads the key that a request shows: as a bearer token (RFC 6750), in X-Api-Key, or, so
// that a browser can ask for it, as the password of Basic (RFC 7617), whatever the user's name.
func shownKey(r *http.Request) string {
	if key := r.Header.Get(apiKeyField); key != "" {
		return key
	}
	if _, password, ok := r.BasicAuth(); ok {
		return password
	}
	scheme, token, _ := strings.Cut(r.Header.Get(echo.HeaderAuthorization), " ")
	if strings.EqualFold(scheme, "Bearer") {
		return strings.TrimSpace(token)
	}
	return ""
}

// admit lets a request in that shows a key of the list, where there is a list.
func (s *Server) admit(c echo.Context) error {
	if s.config.Keys == nil {
		return nil
	}
	name, known := s.config.Keys.holder(shownKey(c.Request()))
	if known {
		notesOf(c).caller = name
		return nil
	}
	p := unauthorized.problem("Send a key that this service knows: Authorization: Bearer KEY, or X-Api-Key: KEY. Its office hands them out.")
	p.header = map[string]string{challengesField: `Bearer realm="tractcheck"`}
	if strings.Contains(c.Request().Header.Get(echo.HeaderAccept), "text/html") {
		p.header[challengesField] = `Basic realm="tractcheck", charset="UTF-8"`
	}
	return p
}
