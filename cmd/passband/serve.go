package main

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"net"
	"net/http"
	"path/filepath"
	"time"

	"github.com/spf13/cobra"
	"passband.example/review/post"
	"passband.example/review/serve"
)

// serving is what the flags of serve say.
type serving struct {
	listen, dir, api, git string
	repositories, folders []string
	workers, most         int
}

func newServe(a *app) *cobra.Command {
	var f serving
	cmd := &cobra.Command{
		Use:   "serve",
		Short: "Receive the webhooks of a forge, and review its pull requests",
		Long: `Serve does what "review --post" does, for a forge without continuous integration:
it receives the forge's webhooks and posts a review of each pull request. What a
merge queue would merge, and what is pushed to the default branch, gets a status.
On GitHub have the events pull_request, merge_group, push, check_run and check_suite
sent, on Gitea those for pull requests and pushes.

Deliveries must be signed by the secret in PASSBAND_SECRET; it posts with the token
in PASSBAND_TOKEN. What is taken is kept in --dir, so that a restart loses none.
Commits are fetched as objects by the git command; nothing is checked out.

POST /hook takes deliveries, GET /healthz and GET /metrics tell how it is. It
speaks plain HTTP: put it behind a server that speaks TLS. It ends when it is
interrupted, and lets what is under way end first.

Exit status: 0 it was ended, 2 it could not do its work.`,
		Example: "  passband serve --dir /var/lib/passband --api https://forge.example/api/v1 --git https://forge.example --repository club/plan",
		Args:    atMost(0, "no words"),
		RunE:    func(cmd *cobra.Command, _ []string) error { return a.serve(cmd.Context(), &f) },
	}
	flags := cmd.Flags()
	flags.StringVar(&f.listen, "listen", "127.0.0.1:8473", "the `address` to listen on")
	flags.StringVar(&f.dir, "dir", "", "the `folder` for the queue and the clones")
	flags.StringVar(&f.api, "api", "", "the `address` of the forge's interface; one that ends in /api/v1 is Gitea's")
	flags.StringVar(&f.git, "git", "", "the `address` of the forge for git")
	flags.StringArrayVar(&f.repositories, "repository", nil, "`owner/name` of a repository to serve; may be said again")
	flags.StringArrayVar(&f.folders, "folder", []string{""}, "the `folder` of a plan in the repositories; may be said again")
	flags.IntVar(&f.workers, "workers", 2, "how many reviews at once")
	flags.IntVar(&f.most, "most", post.DefaultMost, "how many comments there may be on lines")
	return cmd
}

// serve listens until ctx ends.
func (a *app) serve(ctx context.Context, f *serving) error {
	secret, token := a.env("PASSBAND_SECRET"), cmp.Or(a.env("PASSBAND_TOKEN"), a.env("GITHUB_TOKEN"))
	switch {
	case secret == "":
		return errors.New("PASSBAND_SECRET is not set: make a long random word, and set it here and as the secret of the webhook")
	case token == "":
		return errors.New("PASSBAND_TOKEN is not set: make a token for a user of its own, who may comment and set statuses")
	case f.dir == "" || f.api == "" || f.git == "" || len(f.repositories) == 0:
		return errors.New("--dir, --api, --git and --repository are needed; see \"passband serve --help\"")
	}
	queue, err := serve.OpenQueue(filepath.Join(f.dir, "queue"))
	if err != nil {
		return err
	}
	mirror := &serve.Mirror{Dir: filepath.Join(f.dir, "clones"), Git: f.git, Token: token}
	s := &serve.Server{
		Secret: []byte(secret), Repositories: f.repositories, Queue: queue, Workers: f.workers, Grace: time.Minute,
		Log: func(format string, args ...any) { a.say("passband: %s", safe(fmt.Sprintf(format, args...))) },
		Review: func(ctx context.Context, j serve.Job) error {
			dir, err := mirror.Fetch(ctx, j)
			if err != nil {
				return err
			}
			return a.serveJob(ctx, f, j, dir, post.Access{API: f.api, Server: f.git, Token: token, Repository: j.Repository, Number: j.Number})
		},
	}
	return a.listen(ctx, f.listen, s)
}

// listen takes requests until ctx ends, and returns when the last review has.
func (a *app) listen(ctx context.Context, address string, s *serve.Server) error {
	l, err := net.Listen("tcp", address)
	if err != nil {
		return fmt.Errorf("%s cannot be listened on: %w", address, err)
	}
	a.say("passband: listening on %s", l.Addr())
	server := &http.Server{Handler: s.Handler(), ReadTimeout: 30 * time.Second, WriteTimeout: 30 * time.Second, MaxHeaderBytes: 64 << 10}
	served := make(chan error, 1)
	go func() { served <- server.Serve(l) }()
	work, stop := context.WithCancel(ctx)
	defer stop()
	context.AfterFunc(work, func() {
		last, end := context.WithTimeout(context.Background(), 10*time.Second)
		defer end()
		_ = server.Shutdown(last)
	})
	go func() {
		if err := <-served; !errors.Is(err, http.ErrServerClosed) {
			a.say("passband: %s", safe(err.Error()))
			stop()
		}
	}()
	s.Work(work)
	if ctx.Err() == nil {
		return errors.New("the server broke off; what was queued is kept")
	}
	return nil
}
