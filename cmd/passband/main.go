// Passband is version control and review for the channel plans of amateur-radio
// clubs. Run it without arguments for its commands, or see the README.
package main

import (
	"context"
	"io"
	"os"
	"os/signal"
	"syscall"
	"time"
)

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	context.AfterFunc(ctx, stop) // a second Ctrl-C ends a run that does not listen to the first
	os.Exit(run(ctx, os.Args[1:], os.Stdout, os.Stderr, os.Getenv, time.Now))
}

// run is the program: its streams, environment and clock are handed in. It gives
// the exit status.
func run(ctx context.Context, args []string, stdout, stderr io.Writer, env func(string) string, now func() time.Time) int {
	a := &app{stdout: stdout, stderr: stderr, env: env, now: now}
	root := newRoot(a)
	root.SetArgs(args)
	root.SetOut(stdout)
	root.SetErr(stderr)
	return a.status(root.ExecuteContext(ctx))
}
