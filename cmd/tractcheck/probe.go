package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"net"
	"net/http"
	"strings"
	"time"
)

// probeTimeout is the most time a probe takes. Own choice: a service that needs longer to say that
// it is ready is not.
const probeTimeout = 2 * time.Second

// probe asks a running service whether it is ready: the health check of a container that has no
// shell. The status is 0 where it is, else 1.
func probe(ctx context.Context, args, environ []string, stdout, stderr io.Writer) int {
	var url string
	var said strings.Builder
	s, err := readSettings("probe", serveSettings[:1], func(flags *flag.FlagSet) {
		flags.StringVar(&url, "url", "", "address to ask instead, such as http://127.0.0.1:8080/healthz")
	}, args, environ, &said)
	if errors.Is(err, flag.ErrHelp) {
		say(stdout, said.String())
		return exitOK
	}
	say(stderr, said.String())
	if err != nil {
		complain(stderr, err)
		return exitUsage
	}
	if url == "" {
		url = "http://" + reachable(s.listen) + "/readyz"
	}
	if err := ask(ctx, url); err != nil {
		complain(stderr, "not ready:", err)
		return exitFailed
	}
	say(stdout, "ready\n")
	return exitOK
}

// reachable is an address that a listening address can be reached at: one that listens on every
// interface is asked on the loopback.
func reachable(listen string) string {
	host, port, err := net.SplitHostPort(listen)
	if err != nil {
		return listen
	}
	if ip := net.ParseIP(host); host == "" || (ip != nil && ip.IsUnspecified()) {
		host = "127.0.0.1"
		if ip != nil && ip.To4() == nil {
			host = "::1"
		}
	}
	return net.JoinHostPort(host, port)
}

func ask(ctx context.Context, url string) error {
	ctx, cancel := context.WithTimeout(ctx, probeTimeout)
	defer cancel()
	request, err := http.NewRequestWithContext(ctx, http.MethodGet, url, nil)
	if err != nil {
		return err
	}
	// No proxy of the environment: a probe asks its own service and nothing else.
	client := &http.Client{Transport: &http.Transport{DisableKeepAlives: true}}
	response, err := client.Do(request)
	if err != nil {
		return err
	}
	defer func() { _ = response.Body.Close() }()
	if response.StatusCode != http.StatusOK {
		return fmt.Errorf("%s answers %s", url, response.Status)
	}
	return nil
}
