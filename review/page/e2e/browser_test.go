package e2e

import (
	"context"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
)

// chromium gives the browser.
func chromium(t *testing.T) string {
	t.Helper()
	if named := os.Getenv("PASSBAND_CHROMIUM"); named != "" {
		return named
	}
	found, err := exec.LookPath("chromium")
	if err != nil {
		t.Fatal("there is no chromium: install it with apt-get install chromium, or name one in PASSBAND_CHROMIUM")
	}
	return found
}

// axe gives the source of axe-core.
func axe(t *testing.T) string {
	t.Helper()
	source, err := os.ReadFile(os.Getenv("PASSBAND_AXE"))
	if err != nil {
		t.Fatalf("there is no axe-core: npm install --prefix FOLDER axe-core, and name FOLDER/node_modules/axe-core/axe.min.js in PASSBAND_AXE (%v)", err)
	}
	return string(source)
}

// A visit is how somebody looks at a page.
type visit struct {
	width, height int64
	dark, still   bool // still: without scripts
}

// A tab has the page open, and remembers what the browser said of it.
type tab struct {
	t   *testing.T
	ctx context.Context

	mu       sync.Mutex
	said     []string // errors, warnings and violations of the policy
	requests []string
}

// browser starts one Chromium for all tests; each page has a tab of its own.
func browser(t *testing.T) context.Context {
	t.Helper()
	path := chromium(t)
	started.Do(func() {
		options := append(chromedp.DefaultExecAllocatorOptions[:],
			chromedp.ExecPath(path), chromedp.NoSandbox, chromedp.DisableGPU, chromedp.NoFirstRun, chromedp.UserDataDir(profile),
			chromedp.Flag("disable-quic", true), chromedp.Flag("disable-background-networking", true), chromedp.Flag("disable-component-update", true),
			chromedp.Flag("disable-sync", true), chromedp.WSURLReadTimeout(time.Minute))
		allocator, _ := chromedp.NewExecAllocator(context.Background(), options...)
		running, _ = chromedp.NewContext(allocator)
		startError = chromedp.Do(running)
	})
	if startError != nil {
		t.Fatalf("chromium does not start: %v", startError)
	}
	return running
}

var (
	started    sync.Once
	running    context.Context
	startError error
	profile    string // an empty folder
)

func TestMain(m *testing.M) {
	var err error
	if profile, err = os.MkdirTemp("", "page-e2e-"); err != nil {
		panic(err)
	}
	status := m.Run()
	if running != nil {
		_ = chromedp.Cancel(running)
	}
	_ = os.RemoveAll(profile)
	os.Exit(status)
}

// open opens a page from the disk.
func open(t *testing.T, html []byte, v visit) *tab {
	t.Helper()
	file := filepath.Join(t.TempDir(), "page.html")
	if err := os.WriteFile(file, html, 0o600); err != nil {
		t.Fatal(err)
	}
	ctx, cancel := chromedp.NewContext(browser(t))
	t.Cleanup(cancel)
	if err := chromedp.Do(ctx); err != nil {
		t.Fatal(err)
	}
	ctx, late := context.WithTimeout(ctx, 2*time.Minute)
	t.Cleanup(late)
	b := &tab{t: t, ctx: ctx}
	if err := chromedp.Listen(ctx, b.hear); err != nil {
		t.Fatal(err)
	}
	scheme := "light"
	if v.dark {
		scheme = "dark"
	}
	call(b, network.Enable, network.EnableParams{})
	call(b, log.Enable, cdp.Empty{})
	call(b, runtime.Enable, cdp.Empty{})
	call(b, emulation.SetDeviceMetricsOverride, emulation.SetDeviceMetricsOverrideParams{Width: v.width, Height: v.height, DeviceScaleFactor: 1})
	call(b, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: scheme}}})
	call(b, emulation.SetScriptExecutionDisabled, emulation.SetScriptExecutionDisabledParams{Value: v.still})
	b.do(chromedp.Navigate("file://" + file))
	return b
}

// call gives the browser a command of its protocol.
func call[P, R any](b *tab, command cdp.Command[P, R], params P) R {
	b.t.Helper()
	answer, err := chromedp.Call(b.ctx, command, params)
	if err != nil {
		b.t.Fatal(err)
	}
	return answer
}

// hear notes what the browser tells.
func (b *tab) hear(event any) {
	b.mu.Lock()
	defer b.mu.Unlock()
	switch e := event.(type) {
	case *network.EventRequestWillBeSent:
		b.requests = append(b.requests, e.Request.URL)
	case *log.EventEntryAdded:
		b.said = append(b.said, string(e.Entry.Source)+": "+e.Entry.Text)
	case *runtime.EventExceptionThrown:
		b.said = append(b.said, "script: "+e.ExceptionDetails.Text)
	case *runtime.EventConsoleAPICalled:
		b.said = append(b.said, "console."+string(e.Type))
	}
}

func (b *tab) do(actions ...chromedp.Action[chromedp.Void]) {
	b.t.Helper()
	if err := chromedp.Do(b.ctx, actions...); err != nil {
		b.t.Fatal(err)
	}
}

// ask gives what an expression is in the page.
func ask[T any](b *tab, expression string) T {
	b.t.Helper()
	answer, err := chromedp.Run(b.ctx, chromedp.Evaluate[T](expression, chromedp.EvalAwaitPromise))
	if err != nil {
		b.t.Fatal(err)
	}
	return answer
}

// quiet wants that the browser had nothing to say, and fetched nothing but the file.
func (b *tab) quiet() {
	b.t.Helper()
	b.mu.Lock()
	defer b.mu.Unlock()
	if len(b.said) > 0 {
		b.t.Errorf("the browser says: %s", strings.Join(b.said, "; "))
	}
	if len(b.requests) != 1 || !strings.HasPrefix(b.requests[0], "file://") {
		b.t.Errorf("the page asked for %q", b.requests)
	}
}
