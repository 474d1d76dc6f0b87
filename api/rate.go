package api

import (
	"context"
	"math"
	"net/http"
	"net/netip"
	"strconv"
	"sync"
	"time"

	"github.com/labstack/echo/v4"
	"golang.org/x/time/rate"
)

// mostCallers bounds the callers that are told apart; those beyond share one allowance, so that
// made-up callers cannot fill the memory. Own choice: some 2 MB.
const mostCallers = 10_000

// mostPerSecond is the largest limit worth setting. Own choice.
const mostPerSecond = 1e6

// allowances is what each caller may still ask: a token bucket of one second's worth of questions,
// filled at the limit. A caller is the holder of a key, else the network of the connection's address.
type allowances struct {
	perSecond float64
	burst     int
	now       func() time.Time

	mu     sync.Mutex
	of     map[string]*rate.Limiter
	swept  time.Time // when whole allowances were last forgotten
	others *rate.Limiter
}

// newAllowances makes the allowances of a limit; nil where it is 0, which is no limit.
func newAllowances(perSecond float64, now func() time.Time) *allowances {
	if perSecond <= 0 {
		return nil
	}
	a := &allowances{
		perSecond: perSecond, burst: int(max(1, math.Ceil(perSecond))), now: now,
		of: map[string]*rate.Limiter{},
	}
	a.others = a.full()
	return a
}

func (a *allowances) full() *rate.Limiter { return rate.NewLimiter(rate.Limit(a.perSecond), a.burst) }

// allowance is what take found.
type allowance struct {
	granted bool
	left    int           // questions left now
	wait    time.Duration // until one more question is free, where none was granted
	refill  time.Duration // until the allowance is whole again
}

// take takes a number of questions from a caller's allowance. One larger than a whole allowance is
// granted when the allowance is whole, and leaves none.
func (a *allowances) take(caller string, questions int) allowance {
	now := a.now()
	bucket := a.bucket(caller, now)
	questions = min(questions, a.burst)
	granted := bucket.AllowN(now, questions)
	tokens := bucket.TokensAt(now)
	left := allowance{granted: granted, left: max(0, int(tokens)), refill: a.time(float64(a.burst) - tokens)}
	if !granted {
		left.wait = a.time(float64(questions) - tokens)
	}
	return left
}

// time is how long some questions take to come back.
func (a *allowances) time(questions float64) time.Duration {
	const longest = 24 * time.Hour
	seconds := max(0, questions) / a.perSecond
	return time.Duration(min(seconds, longest.Seconds()) * float64(time.Second))
}

// bucket finds a caller's bucket. A bucket that is full again says nothing and is forgotten when
// room is needed.
func (a *allowances) bucket(caller string, now time.Time) *rate.Limiter {
	a.mu.Lock()
	defer a.mu.Unlock()
	if bucket, ok := a.of[caller]; ok {
		return bucket
	}
	// Once a second at most: looking at all of them for each new caller would be work to attack with.
	if len(a.of) >= mostCallers && now.Sub(a.swept) >= time.Second {
		a.swept = now
		for name, bucket := range a.of {
			if bucket.TokensAt(now) >= float64(a.burst) {
				delete(a.of, name)
			}
		}
	}
	if len(a.of) >= mostCallers {
		return a.others
	}
	bucket := a.full()
	a.of[caller] = bucket
	return bucket
}

// limit takes one question from the caller's allowance and says in the header what is left (IETF
// HTTPAPI draft-ietf-httpapi-ratelimit-headers-10, a draft).
func (s *Server) limit(c echo.Context) error {
	if s.allowances == nil {
		return nil
	}
	found := s.allowances.take(callerOf(c), 1)
	header := c.Response().Header()
	header.Set("RateLimit-Policy", `"default";q=`+strconv.Itoa(s.allowances.burst)+`;w=`+s.allowances.window())
	header.Set("RateLimit", `"default";r=`+strconv.Itoa(found.left)+`;t=`+seconds(found.refill))
	if found.granted {
		return nil
	}
	p := tooManyRequests.problem("This caller may ask " + strconv.FormatFloat(s.allowances.perSecond, 'g', 6, 64) +
		" questions a second. Wait as long as the Retry-After header says, then send the request again.")
	p.header = map[string]string{"Retry-After": seconds(found.wait)}
	return p
}

// callerOf names the caller whose allowance it is.
func callerOf(c echo.Context) string {
	if holder := notesOf(c).caller; holder != "" {
		return holder
	}
	return "address " + network(c.RealIP())
}

// network is the part of an address that its holder cannot choose. An IPv6 address counts by its first 64
// bits (RFC 4291, section 2.5.1: the other 64 name the interface, and the host picks them), so that
// nobody gets a new allowance, or fills the table of callers, by changing the rest. One that holds an IPv4
// address counts as that. Text that is no address stands for itself.
func network(address string) string {
	ip, err := netip.ParseAddr(address)
	if err != nil {
		return address
	}
	ip = ip.Unmap().WithZone("")
	if ip.Is4() {
		return ip.String()
	}
	return netip.PrefixFrom(ip, interfaceBits).Masked().String()
}

// interfaceBits is where the part of an IPv6 address begins that names the interface.
const interfaceBits = 64

// paced makes what is called before each line of a screening is read: a line is a question, so each after
// the first, which the request itself took, waits for the caller's allowance. Nothing is refused midway;
// the lines come as fast as the limit lets them.
func (s *Server) paced(ctx context.Context, c echo.Context, read func()) func() {
	if s.allowances == nil {
		return read
	}
	caller, first := callerOf(c), true
	return func() {
		if !first {
			_ = s.allowances.bucket(caller, s.allowances.now()).Wait(ctx) // an ended ctx ends the screening itself
		}
		first = false
		read()
	}
}

// window is the time in which a whole allowance comes back, in whole seconds.
func (a *allowances) window() string { return seconds(a.time(float64(a.burst))) }

// seconds is a time in whole seconds, rounded up, at least 1.
func seconds(d time.Duration) string {
	return strconv.Itoa(max(1, int(math.Ceil(d.Seconds()))))
}

// gate is what a request must pass before it may ask a question.
func (s *Server) gate(next echo.HandlerFunc) echo.HandlerFunc {
	return func(c echo.Context) error {
		if c.Request().Method != http.MethodPost {
			return next(c)
		}
		stranger := s.admit(c)
		if err := s.limit(c); err != nil {
			return err // a caller that guesses keys is limited, too
		}
		if stranger != nil {
			return stranger
		}
		defer notesOf(c).release()
		return next(c)
	}
}
