package api

import (
	"context"
	"errors"
	"fmt"
	"net/http"
	"slices"
	"strconv"

	"github.com/labstack/echo/v4"

	"tractcheck/api/wire"
)

// Problem is a failure as the caller sees it (RFC 9457). Faults are the single things wrong with a
// request body; their pointers are plain RFC 6901 pointers, without a leading #.
type Problem struct {
	Type     string       `json:"type"`
	Title    string       `json:"title"`
	Status   int          `json:"status"`
	Detail   string       `json:"detail"`
	Instance string       `json:"instance,omitempty"`
	Faults   []wire.Fault `json:"faults,omitempty"`

	header map[string]string // what the failure adds to the answer's header
	cause  error             // for the log only
}

// Error reports the problem as one line.
func (p *Problem) Error() string { return fmt.Sprintf("%d %s: %s", p.Status, p.Title, p.Detail) }

// Unwrap reports what caused the problem; callers of the service never see it.
func (p *Problem) Unwrap() error { return p.cause }

// kind is a type of problem: its stable name and its status and title, which never change.
type kind struct {
	slug, title string
	status      int
}

// The types of problems. Slugs are a fixed list, appended to only.
var (
	malformedBody      = kind{"bad-request", "The body is not strict JSON", http.StatusBadRequest}
	unacceptableBody   = kind{"unprocessable-content", "The request breaks the contract", http.StatusUnprocessableEntity}
	unknownParameter   = kind{"unknown-query-parameter", "Unknown query parameter", http.StatusBadRequest}
	unreadableBody     = kind{"unreadable-body", "The body did not arrive whole", http.StatusBadRequest}
	bodyTimeout        = kind{"request-timeout", "The body took too long to arrive", http.StatusRequestTimeout}
	refused            = kind{"refused-request", "The request cannot be understood", http.StatusBadRequest}
	notFound           = kind{"not-found", "Not found", http.StatusNotFound}
	unauthorized       = kind{"unauthorized", "A key is needed", http.StatusUnauthorized}
	methodNotAllowed   = kind{"method-not-allowed", "Method not allowed", http.StatusMethodNotAllowed}
	notAcceptable      = kind{"not-acceptable", "Not acceptable", http.StatusNotAcceptable}
	bodyTooLarge       = kind{"payload-too-large", "Body too large", http.StatusRequestEntityTooLarge}
	wrongMediaType     = kind{"unsupported-media-type", "Unsupported media type", http.StatusUnsupportedMediaType}
	wrongContentCoding = kind{"unsupported-content-coding", "Unsupported content coding", http.StatusUnsupportedMediaType}
	tooManyRequests    = kind{"too-many-requests", "Too many requests", http.StatusTooManyRequests}
	internalError      = kind{"internal-server-error", "Internal error", http.StatusInternalServerError}
	unavailable        = kind{"service-unavailable", "Service unavailable", http.StatusServiceUnavailable}
)

// byStatus are the kinds a bare status of the framework stands for.
var byStatus = []struct {
	kind
	detail string
}{
	{refused, "Compare the request with the contract at /openapi.json."},
	{notFound, "Check the path. The contract at /openapi.json lists every address."},
	{methodNotAllowed, "Use one of the methods in the Allow header of this answer."},
	{bodyTooLarge, "Send a smaller body."},
	{wrongMediaType, "Send Content-Type: application/json."},
	{tooManyRequests, "Wait as long as the Retry-After header says, then send the request again."},
	{unavailable, "Wait as long as the Retry-After header says, then send the request again."},
}

// problem makes a problem of a kind. detail says what is wrong and what to do.
func (k kind) problem(detail string) *Problem {
	p := &Problem{
		Type: "urn:tractcheck:problem:" + k.slug, Title: k.title, Status: k.status, Detail: detail,
	}
	if k.status == http.StatusTooManyRequests || k.status == http.StatusServiceUnavailable {
		p.header = map[string]string{"Retry-After": "1"}
	}
	return p
}

// faulty makes the problem of a body with faults: one of text makes the whole malformed.
func faulty(faults []wire.Fault) *Problem {
	k, count := unacceptableBody, strconv.Itoa(len(faults))+" things are wrong with the body."
	switch len(faults) {
	case 1:
		count = "One thing is wrong with the body."
	case wire.MaxFaults:
		count = "At least " + strconv.Itoa(wire.MaxFaults-1) + " things are wrong with the body."
	}
	if slices.ContainsFunc(faults, wire.Fault.Text) {
		k = malformedBody
	}
	p := k.problem(count + " Mend what faults lists, each at its pointer, and send the request again.")
	p.Faults = faults
	return p
}

// tooLarge makes the problem of a body over the limit.
func tooLarge(limit int64) *Problem {
	allowed := fmt.Sprintf("at most %d bytes", limit)
	p := bodyTooLarge.problem("Send a body of " + allowed + ". Geometry is mostly what is large: simplify it.")
	p.Faults = []wire.Fault{{
		Code: wire.FaultLength, Allowed: allowed, Message: "The body is too large. Send " + allowed + ".",
	}}
	return p
}

// problemOf makes a problem of any error. What it does not know is a failure of the service, and
// the caller is told nothing of its inside.
func problemOf(err error) *Problem {
	var p *Problem
	var tooMany *http.MaxBytesError
	var framework *echo.HTTPError
	switch {
	case errors.As(err, &p):
		copied := *p
		return &copied
	case errors.As(err, &tooMany):
		return tooLarge(tooMany.Limit)
	case errors.Is(err, context.DeadlineExceeded), errors.Is(err, context.Canceled):
		p = unavailable.problem("The request took too long. Wait a little and send it again; if it stays so, simplify its geometry.")
	case errors.As(err, &framework):
		p = frameworkProblem(framework.Code)
	default:
		p = internalProblem()
	}
	p.cause = err
	return p
}

func frameworkProblem(status int) *Problem {
	for _, k := range byStatus {
		if k.status == status {
			return k.problem(k.detail)
		}
	}
	if status >= 400 && status < 500 {
		return refused.problem("Compare the request with the contract at /openapi.json.")
	}
	return internalProblem()
}

func internalProblem() *Problem {
	return internalError.problem("This is a mistake of the service, not of the request. Report it with the request id in instance.")
}
