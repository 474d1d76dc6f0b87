package wire

import (
	"regexp"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestDigestIsOfTheMeaningOfARequest(t *testing.T) {
	t.Parallel()
	digest := Digest(Assessments, "engine 1", []byte(`{"b":1.0,"a":1e2,"c":[3.10,-0],"d":"é"}`))
	assert.Regexp(t, regexp.MustCompile(`^sha256:[0-9a-f]{64}$`), digest)

	same := []string{
		`{"a":100,"b":1,"c":[3.1,0],"d":"\u00e9"}`,
		"{\n \"d\": \"\\u00E9\", \"c\": [ 3.1 , 0.0 ], \"a\": 100.0, \"b\": 1 }",
	}
	for _, body := range same {
		assert.Equal(t, digest, Digest(Assessments, "engine 1", []byte(body)), body)
	}
	others := []string{
		`{"a":100,"b":1,"c":[0,3.1],"d":"é"}`, `{"a":100,"b":1,"c":[3.1,0],"d":"e"}`,
		`{"a":100,"b":1.0000001,"c":[3.1,0],"d":"é"}`, `{"a":100,"b":1,"c":[3.1,0]}`,
	}
	for _, body := range others {
		assert.NotEqual(t, digest, Digest(Assessments, "engine 1", []byte(body)), body)
	}
}

func TestDigestIsOfEverythingTheAnswerDependsOn(t *testing.T) {
	t.Parallel()
	body := []byte(`{"a":1}`)
	digest := Digest(Assessments, "engine 1", body)
	assert.NotEqual(t, digest, Digest(Assessments, "engine 2", body))
	assert.NotEqual(t, digest, Digest(DriftRisks, "engine 1", body))
	assert.Equal(t, `{"a":1}`, string(body), "the body itself must stay as it is")
}

func TestDigestOfWhatIsNoStrictJSON(t *testing.T) {
	t.Parallel()
	for _, body := range []string{``, `{`, `{"a":1,"a":2}`, `{}{}`, `{"a":"\ud800"}`} {
		assert.Empty(t, Digest(Assessments, "engine", []byte(body)), body)
	}
}

// The published example of RFC 8785, section 3.2.2, with its canonical form of section 3.2.3.
func TestDigestFollowsThePublishedCanonicalForm(t *testing.T) {
	t.Parallel()
	sent := `{
		"numbers": [333333333.33333329, 1E30, 4.50, 2e-3, 0.000000000000000000000000001],
		"string": "\u20ac$\u000F\u000aA'\u0042\u0022\u005c\\\"\/",
		"literals": [null, true, false]
	}`
	canonical := `{"literals":[null,true,false],"numbers":[333333333.3333333,1e+30,4.5,0.002,1e-27],"string":"€$\u000f\nA'B\"\\\\\"/"}`
	assert.Equal(t, Digest(Assessments, "e", []byte(canonical)), Digest(Assessments, "e", []byte(sent)))
}
