// Package api is the HTTP service: routes, one file per resource, problem details, middleware and
// metrics. It reads a request through api/wire, asks feasibility, and writes the answer.
//
// The types of the web framework stay inside this package: New makes an http.Handler. Handlers are
// thin; Desk does the work for HTTP and for the command line alike, so both give the same bytes.
//
// Every failure, whichever layer it comes from, is one problem document (RFC 9457). Bodies are
// never logged. Nothing is kept between requests.
package api
