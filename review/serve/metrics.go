package serve

import (
	"cmp"
	"fmt"
	"maps"
	"net/http"
	"slices"
	"sync"
)

// counts counts what happened, by what and how it ended.
type counts struct {
	mu  sync.Mutex
	all map[[2]string]int
}

func (c *counts) add(what, result string) {
	c.mu.Lock()
	defer c.mu.Unlock()
	if c.all == nil {
		c.all = make(map[[2]string]int)
	}
	c.all[[2]string{what, result}]++
}

// metrics answers in the text format 0.0.4 of Prometheus (prometheus.io, exposition
// formats).
func (s *Server) metrics(w http.ResponseWriter, _ *http.Request) {
	w.Header().Set("Content-Type", "text/plain; version=0.0.4; charset=utf-8")
	s.counts.mu.Lock()
	all := maps.Clone(s.counts.all)
	s.counts.mu.Unlock()
	keys := slices.SortedFunc(maps.Keys(all), func(a, b [2]string) int { return cmp.Or(cmp.Compare(a[0], b[0]), cmp.Compare(a[1], b[1])) })
	last := ""
	for _, k := range keys {
		if k[0] != last {
			fmt.Fprintf(w, "# HELP passband_%s_total How many %s there were, by how they ended.\n# TYPE passband_%s_total counter\n", k[0], k[0], k[0])
			last = k[0]
		}
		fmt.Fprintf(w, "passband_%s_total{result=%q} %d\n", k[0], k[1], all[k])
	}
	waits, works := s.Queue.Counts()
	for _, g := range []struct {
		name, help string
		n          int
	}{{"waiting", "Reviews that wait.", waits}, {"working", "Reviews under way.", works}} {
		fmt.Fprintf(w, "# HELP passband_%s %s\n# TYPE passband_%s gauge\npassband_%s %d\n", g.name, g.help, g.name, g.name, g.n)
	}
}
