package api

import (
	"errors"
	"fmt"
	"log/slog"
	"time"

	"github.com/prometheus/client_golang/prometheus"

	"tractcheck/api/wire"
)

// Defaults of Config.
const (
	DefaultMaxBody = 1 << 20
	// LargestMaxBody is the most that MaxBody may be. A body takes up to twice its size while it is read,
	// which must leave room beside it in the memory for all bodies: a larger one would be sent away
	// even when nothing else is in hand.
	LargestMaxBody = 8 << 20
	DefaultTimeout = 10 * time.Second
	// DefaultStall and DefaultScreenings are own choices: a minute is long for one line even over a
	// poor connection, and what eight screenings hold fits a small container.
	DefaultStall      = time.Minute
	DefaultScreenings = 8
)

// Config is how a service is set up. The zero value serves with the defaults named at each field.
type Config struct {
	// Version is the release, such as 1.2.0; that of the build where empty.
	Version string
	// Logger takes the request log; nothing is logged where nil.
	Logger *slog.Logger
	// Registry takes the metrics; one of the service's own where nil.
	Registry *prometheus.Registry
	// MaxBody is the most bytes of a request body, and of one line of a screening, LargestMaxBody
	// at most; DefaultMaxBody where 0.
	MaxBody int64
	// Timeout is the most time one request may take; DefaultTimeout where 0.
	Timeout time.Duration
	// RateLimit is the questions a second that one caller may ask: the holder of a key, or an
	// address where there are no keys (of IPv6 the first 64 bits). 0 is no limit.
	RateLimit float64
	// Keys are the keys of which every question must show one; none is asked for where nil.
	Keys *Keys
	// Computations is how many answers are computed at once; one for each processor
	// where 0.
	Computations int
	// Stall is the longest that a screening waits for its caller to send one line or to take what
	// was answered; DefaultStall where 0.
	Stall time.Duration
	// Screenings is how many screenings run at a time; DefaultScreenings where 0.
	Screenings int
	// TLSInFront says that callers reach the service over TLS only, so answers may tell them to
	// stay with it (HSTS).
	TLSInFront bool
}

// Validate reports every setting that cannot work, joined into one error.
func (c Config) Validate() error {
	var errs []error
	if c.MaxBody < 0 || c.MaxBody > LargestMaxBody {
		errs = append(errs, fmt.Errorf("the largest body is %d bytes; give a positive number, at most %d, or 0 for %d", c.MaxBody, LargestMaxBody, DefaultMaxBody))
	}
	if c.Timeout < 0 {
		errs = append(errs, fmt.Errorf("the timeout is %v; give a positive time, or 0 for %v", c.Timeout, DefaultTimeout))
	}
	if sound := c.RateLimit >= 0 && c.RateLimit <= mostPerSecond; !sound {
		errs = append(errs, fmt.Errorf("the rate limit is %v; give 0 for none, or at most %v questions a second", c.RateLimit, mostPerSecond))
	}
	if c.Computations < 0 {
		errs = append(errs, fmt.Errorf("%d answers are to be computed at once; give a positive number, or 0 for one for each processor", c.Computations))
	}
	if c.Stall < 0 {
		errs = append(errs, fmt.Errorf("the longest wait of a screening is %v; give a positive time, or 0 for %v", c.Stall, DefaultStall))
	}
	if c.Screenings < 0 {
		errs = append(errs, fmt.Errorf("the most screenings at a time are %d; give a positive number, or 0 for %d", c.Screenings, DefaultScreenings))
	}
	return errors.Join(errs...)
}

// withDefaults fills in what is not set.
func (c Config) withDefaults() Config {
	if c.Version == "" {
		c.Version = wire.Version()
	}
	if c.Logger == nil {
		c.Logger = slog.New(slog.DiscardHandler)
	}
	if c.Registry == nil {
		c.Registry = prometheus.NewRegistry()
	}
	if c.MaxBody == 0 {
		c.MaxBody = DefaultMaxBody
	}
	if c.Timeout == 0 {
		c.Timeout = DefaultTimeout
	}
	if c.Stall == 0 {
		c.Stall = DefaultStall
	}
	if c.Screenings == 0 {
		c.Screenings = DefaultScreenings
	}
	return c
}
