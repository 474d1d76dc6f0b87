// Package browser_test reads the pages of the service as people do: in a browser without a window.
//
// The tests are skipped where no browser is found. With TRACTCHECK_BROWSER=required a missing browser
// is a failure; any other value is the path of one. TRACTCHECK_AXE is the path of axe.min.js of the
// npm package axe-core, for the tests of accessibility; they are skipped without it, unless a browser
// is required.
package browser_test

import (
	"context"
	"fmt"
	"net/http/httptest"
	"os"
	"os/exec"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tractcheck/api"
)

const required = "required"

// browser is the one browser of all tests, or why there is none.
var browser struct {
	context context.Context //nolint:containedctx // it lives as long as the tests
	missing string
	service string // address of the service under test
}

func TestMain(m *testing.M) {
	os.Exit(run(m))
}

func run(m *testing.M) int {
	service, err := api.New(api.Config{})
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		return 1
	}
	server := httptest.NewServer(service)
	defer server.Close()
	browser.service = server.URL
	program := os.Getenv("TRACTCHECK_BROWSER")
	if program == "" || program == required {
		program, err = exec.LookPath("chromium")
		if err != nil {
			browser.missing = "no browser: install chromium, or set TRACTCHECK_BROWSER to the path of one"
			return m.Run()
		}
	}
	options := append(chromedp.DefaultExecAllocatorOptions[:],
		chromedp.ExecPath(program), chromedp.NoSandbox, chromedp.DisableGPU, chromedp.NoFirstRun,
		chromedp.Flag("disable-quic", true), chromedp.Flag("disable-background-networking", true),
		chromedp.Flag("disable-component-update", true), chromedp.Flag("disable-sync", true),
	)
	allocator, stop := chromedp.NewExecAllocator(context.Background(), options...)
	defer stop()
	first, closed := chromedp.NewContext(allocator)
	defer closed()
	browser.context = first
	return m.Run()
}

// started starts the browser once.
var started = sync.OnceValue(func() error { return chromedp.Do(browser.context) })

// tab is one tab of the browser, and what it was seen to do.
type tab struct {
	context.Context //nolint:containedctx // a tab is its context

	t        *testing.T
	mu       sync.Mutex
	errors   []string
	requests []string
}

// longest is how long one test may use its tab; some seconds are enough on an idle machine.
const longest = 3 * time.Minute

// height is that of the window, in pixels.
const height = 900

// open opens a tab of a width and holds what it does to the rules of every page: nothing is asked of
// any other host, and nothing goes wrong in the console.
func open(t *testing.T, width int64) *tab {
	t.Helper()
	if testing.Short() {
		t.Skip("a browser is used without -short alone")
	}
	if browser.missing != "" {
		if os.Getenv("TRACTCHECK_BROWSER") == required {
			t.Fatal(browser.missing)
		}
		t.Skip(browser.missing)
	}
	require.NoError(t, started(), "the browser must start")
	view := &tab{t: t}
	opened, closed := chromedp.NewContext(browser.context, chromedp.WithListener(view.see))
	t.Cleanup(closed)
	require.NoError(t, chromedp.Do(opened))
	limited, ended := context.WithTimeout(opened, longest)
	t.Cleanup(ended)
	view.Context = limited
	view.do(
		command(network.Enable, network.EnableParams{}), command(log.Enable, cdp.Empty{}), command(runtime.Enable, cdp.Empty{}),
		chromedp.EmulateViewport(width, height),
	)
	t.Cleanup(view.judge)
	return view
}

// command is an action of one bare command of the protocol.
func command[P, R any](c cdp.Command[P, R], params P) chromedp.Action[chromedp.Void] {
	return chromedp.Func(func(ctx context.Context, target *chromedp.Target) error {
		_, err := cdp.Call(ctx, target, c, params)
		return err
	})
}

// see notes what matters of what a tab does.
func (b *tab) see(event any) {
	b.mu.Lock()
	defer b.mu.Unlock()
	switch e := event.(type) {
	case *network.EventRequestWillBeSent:
		b.requests = append(b.requests, e.Request.URL)
	case *runtime.EventExceptionThrown:
		b.errors = append(b.errors, fmt.Sprintf("%+v", e.ExceptionDetails))
	case *runtime.EventConsoleAPICalled:
		if e.Type == runtime.ConsoleAPICalledTypeError || e.Type == runtime.ConsoleAPICalledTypeWarning {
			b.errors = append(b.errors, fmt.Sprint(e.Type, " ", e.Args))
		}
	case *log.EventEntryAdded:
		// A form with faults is answered with 422, which the console calls a failure to load.
		faulted := e.Entry.URL == browser.service+"/" && strings.Contains(e.Entry.Text, "422")
		if e.Entry.Level == log.EntryLevelError && !faulted {
			b.errors = append(b.errors, e.Entry.Text+" "+e.Entry.URL)
		}
	}
}

// judge holds all that was seen to the rules.
func (b *tab) judge() {
	b.mu.Lock()
	defer b.mu.Unlock()
	assert.Empty(b.t, b.errors, "the console must stay empty")
	assert.NotEmpty(b.t, b.requests)
	for _, url := range b.requests {
		own := strings.HasPrefix(url, browser.service+"/") || strings.HasPrefix(url, "data:")
		assert.True(b.t, own, "a page asked another host: %.200s", url)
	}
}

// do runs actions; a test ends where one fails.
func (b *tab) do(actions ...chromedp.Action[chromedp.Void]) {
	b.t.Helper()
	require.NoError(b.t, chromedp.Do(b, actions...))
}

// load runs actions that lead to another page, and reports the status it came with.
func (b *tab) load(actions ...chromedp.Action[chromedp.Void]) int64 {
	b.t.Helper()
	response, err := chromedp.RunResponse(b, actions...)
	require.NoError(b.t, err)
	require.NotNil(b.t, response)
	return response.Status
}

// at goes to an address of the service.
func (b *tab) at(path string) int64 {
	b.t.Helper()
	return b.load(chromedp.Navigate(browser.service + path))
}

// get runs an action that reports something.
func get[T any](b *tab, action chromedp.Action[T]) T {
	b.t.Helper()
	out, err := chromedp.Run(b, action)
	require.NoError(b.t, err)
	return out
}

// text is the text of the first element a selector finds.
func (b *tab) text(selector string) string {
	b.t.Helper()
	return get(b, chromedp.Text(chromedp.CSS(selector)))
}

// value is what stands in an input.
func (b *tab) value(selector string) string {
	b.t.Helper()
	return get(b, chromedp.Value(chromedp.CSS(selector)))
}

// press presses a button and reports the status of the page it leads to.
func (b *tab) press(selector string) int64 {
	b.t.Helper()
	return b.load(chromedp.Click(chromedp.CSS(selector)))
}

// put types a text into an input in place of what stands there.
func (b *tab) put(selector, text string) {
	b.t.Helper()
	if text == "" {
		b.do(chromedp.Clear(chromedp.CSS(selector)))
		return
	}
	b.do(chromedp.SetValue(chromedp.CSS(selector), text))
}

// ask evaluates a script in the page.
func ask[T any](b *tab, script string) T {
	b.t.Helper()
	return get(b, chromedp.Evaluate[T](script, chromedp.EvalAwaitPromise))
}

// input finds the input at a pointer of the request.
func input(place string) string { return `[id="in` + strings.ReplaceAll(place, "/", "-") + `"]` }
