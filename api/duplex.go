package api

import (
	"errors"
	"io"
	"net/http"
	"sync"
	"time"

	"github.com/labstack/echo/v4"
)

// duplex is a connection that is read and written at once. Every line must arrive, and every piece
// of the answer be taken, within a time: a caller who stalls is cut off.
type duplex struct {
	body    io.Reader
	writer  http.ResponseWriter
	control *http.ResponseController
	stall   time.Duration

	mu     sync.Mutex
	closed bool // no more is read, because the input has ended or nobody wants more
}

// newDuplex takes what the connection needs of a request: the request itself is used again by the
// framework when it is over.
func newDuplex(c echo.Context, stall time.Duration) *duplex {
	return &duplex{
		body: c.Request().Body, writer: c.Response(), control: http.NewResponseController(c.Response()), stall: stall,
	}
}

// open lets the connection be read while it is written to. Without that, HTTP/1.1 drops the rest of
// a request silently as soon as its answer begins.
func (d *duplex) open() error { return d.control.EnableFullDuplex() }

// expect gives the next line its time to arrive.
func (d *duplex) expect() {
	d.mu.Lock()
	defer d.mu.Unlock()
	if !d.closed {
		_ = d.control.SetReadDeadline(time.Now().Add(d.stall))
	}
}

// interrupt ends a read that waits.
func (d *duplex) interrupt() {
	d.mu.Lock()
	defer d.mu.Unlock()
	d.closed = true
	_ = d.control.SetReadDeadline(time.Unix(1, 0)) // long ago
}

// Read reads the body. At its end the server listens for the caller to hang up, which has no
// deadline.
func (d *duplex) Read(p []byte) (int, error) {
	n, err := d.body.Read(p)
	if errors.Is(err, io.EOF) {
		d.mu.Lock()
		defer d.mu.Unlock()
		d.closed = true
		_ = d.control.SetReadDeadline(time.Time{})
	}
	return n, err
}

func (d *duplex) Write(p []byte) (int, error) {
	_ = d.control.SetWriteDeadline(time.Now().Add(d.stall))
	return d.writer.Write(p)
}

// Flush sends what was written.
func (d *duplex) Flush() error {
	_ = d.control.SetWriteDeadline(time.Now().Add(d.stall))
	return d.control.Flush()
}
