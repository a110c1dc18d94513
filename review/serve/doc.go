// Package serve reviews changes for a forge that has no continuous integration: it
// receives the forge's webhooks, queues what is to be judged, and has it judged.
//
//	q, err := serve.OpenQueue("/var/lib/passband/queue")
//	s := &serve.Server{Secret: secret, Repositories: []string{"club/plan"}, Queue: q, Workers: 2, Review: review}
//	go s.Work(ctx)
//	http.Server{Handler: s.Handler()}
//
// # What it answers
//
// POST /hook takes a delivery. It must be signed (the SHA-256 HMAC of the body by the
// secret, in X-Hub-Signature-256 as GitHub and Gitea send it, or in X-Gitea-Signature),
// and is answered before any work is done, since forges wait seconds. What was delivered
// before is known by its signature and is not queued again, unless its review failed.
// GET /healthz says whether deliveries can be taken, GET /metrics counts in the text
// format of Prometheus.
//
//	event                     of which                                  what is done
//	pull_request              opened, synchronize, reopened, edited,    comments, summary, status
//	                          ready_for_review (Gitea: synchronized)
//	merge_group               checks_requested                          status of what would be merged
//	push                      to the default branch                     status of what came
//	check_run, check_suite    rerequested                               the review again
//	ping                                                                answered
//
// Another event is answered and leads to nothing. A push to another branch is no reason:
// its pull request tells of it. GitHub sends check_run and check_suite to an app that may
// write checks, and names in them no pull request that comes from a fork.
//
// # The queue
//
// A delivery is a file before it is answered, so a restart or a crash loses none. A
// review that was cut off is done again; posting says nothing twice. Of several for one
// change only the last is judged, and never two at once. What fails is tried
// again later, five times.
//
// # What it does not do
//
// It speaks plain HTTP: put it behind a server that speaks TLS. It runs nothing from a
// repository; Fetch gets commits as objects, and needs the git command.
package serve
