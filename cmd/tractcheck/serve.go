package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"log/slog"
	"net"
	"net/http"
	"os/signal"
	"runtime/debug"
	"strings"
	"syscall"
	"time"

	"golang.org/x/net/netutil"

	"tractcheck/api"
	"tractcheck/api/wire"
)

// Timeouts of a connection. Own choices: a header is short. The body of a question must arrive within
// the deadline of its request; readTimeout bounds what nobody asked for, such as a body sent with a GET.
const (
	headerTimeout  = 5 * time.Second
	readTimeout    = 30 * time.Second
	idleTimeout    = 2 * time.Minute
	takeTimeout    = 15 * time.Second // for an answer to be taken
	maxHeaderBytes = 8 << 10          // beside which the library grants 4 KiB
)

// startGrowth is by how many percent the memory may grow between two collections of garbage while the tables
// are made, most of which stay: looking for garbage then is a part of the time until it is ready. Own choice.
const startGrowth = 400

// serve answers over HTTP until a stop signal comes or ctx ends, then stops gracefully: it says
// that it is not ready, goes on for the drain time, ends the requests in hand, and reports 0.
func serve(ctx context.Context, args, environ []string, stdout, stderr io.Writer) int {
	var said strings.Builder
	s, err := readSettings("serve", serveSettings, nil, args, environ, &said)
	if errors.Is(err, flag.ErrHelp) {
		say(stdout, said.String())
		return exitOK
	}
	say(stderr, said.String())
	if err != nil {
		complain(stderr, "these settings cannot work:\n"+err.Error())
		return exitUsage
	}
	ctx, stop := signal.NotifyContext(ctx, syscall.SIGTERM, syscall.SIGINT)
	defer stop()
	context.AfterFunc(ctx, stop) // a second signal ends the process at once
	if lookup(environ, "GOMEMLIMIT") == "" {
		debug.SetMemoryLimit(api.MemoryLimit)
	}
	if lookup(environ, "GOGC") == "" {
		debug.SetGCPercent(api.MemoryGrowth)
	}
	logger := slog.New(slog.NewJSONHandler(stdout, &slog.HandlerOptions{Level: s.logLevel}))
	warnOfStrays(environ, logger)
	if err := listenAndServe(ctx, s, logger); err != nil {
		logger.Error("stopped", "error", err.Error())
		return exitFailed
	}
	logger.Info("stopped")
	return exitOK
}

// listenAndServe opens the listener first, so that a taken port is an error at once, and returns
// when the last request has ended.
func listenAndServe(ctx context.Context, s settings, logger *slog.Logger) error {
	collect := debug.SetGCPercent(startGrowth)
	handler, err := api.New(api.Config{
		Logger: logger, MaxBody: s.maxBody, Timeout: s.timeout, TLSInFront: s.tls,
		RateLimit: s.rateLimit, Keys: s.keys, Computations: s.computations, Screenings: s.screens,
	})
	debug.SetGCPercent(collect)
	if err != nil {
		return err
	}
	listener, err := (&net.ListenConfig{}).Listen(ctx, "tcp", s.listen)
	if err != nil {
		return err
	}
	server := &http.Server{
		Handler:           handler,
		ReadHeaderTimeout: headerTimeout,
		ReadTimeout:       readTimeout,
		WriteTimeout:      s.timeout + takeTimeout, // a screening sets its own, line by line
		IdleTimeout:       idleTimeout,
		MaxHeaderBytes:    maxHeaderBytes,
		ErrorLog:          slog.NewLogLogger(logger.Handler(), slog.LevelWarn),
	}
	logger.With(s.forLog()...).Info("serving", "address", listener.Addr().String(), "version", wire.Version())
	failed := make(chan error, 1)
	go func() { failed <- server.Serve(netutil.LimitListener(listener, s.connections)) }()
	select {
	case err := <-failed:
		return err
	case <-ctx.Done():
	}
	return shutDown(server, handler, s, logger)
}

// shutDown stops a server that is serving.
func shutDown(server *http.Server, handler *api.Server, s settings, logger *slog.Logger) error {
	logger.Info("stopping", "drain", s.drain.String(), "grace", s.grace.String())
	handler.Drain()
	time.Sleep(s.drain)
	grace, cancel := context.WithTimeout(context.Background(), s.grace)
	defer cancel()
	defer time.AfterFunc(s.grace*3/4, handler.Halt).Stop() // the last quarter is for their last lines
	if err := server.Shutdown(grace); err != nil {
		return errors.Join(fmt.Errorf("requests were cut off after %v: %w", s.grace, err), server.Close())
	}
	return nil
}
