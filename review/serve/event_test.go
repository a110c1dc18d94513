package serve

import (
	"bytes"
	"fmt"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
	"time"
)

// Commits that events name.
var (
	one  = strings.Repeat("1", 40)
	two  = strings.Repeat("2", 40)
	zero = strings.Repeat("0", 40)
)

// TestRead wants the jobs of each event, as "name base head: what is fetched".
func TestRead(t *testing.T) {
	pulls := func(numbers ...int) string {
		var all []string
		for _, n := range numbers {
			all = append(all, fmt.Sprintf(`{"number":%d,"base":{"ref":"main","sha":%q},"head":{"ref":"new","sha":%q}}`, n, one, two))
		}
		return "[" + strings.Join(all, ",") + "]"
	}
	group := `"merge_group":{"head_sha":"` + two + `","head_ref":"refs/heads/gh-readonly-queue/main/pr-104-1","base_sha":"` + one + `","base_ref":"refs/heads/main"}`
	pushed := func(ref, before, after string) string {
		return fmt.Sprintf(`"ref":%q,"before":%q,"after":%q`, ref, before, after)
	}
	ofPull := " 1 2: +refs/heads/main:refs/heads/main +refs/pull/%d/head:refs/pull/%[1]d"
	for _, c := range []struct {
		name, event, payload string
		want                 []string
		why                  string
	}{
		{"a merge queue asks", "merge_group", `"action":"checks_requested",` + group,
			[]string{"club/plan gh-readonly-queue/main/pr-104-1 1 2: +refs/heads/main:refs/heads/main +refs/heads/gh-readonly-queue/main/pr-104-1:refs/heads/gh-readonly-queue/main/pr-104-1"}, ""},
		{"a merge queue gives up", "merge_group", `"action":"destroyed",` + group, nil, "for the action"},
		{"a merge queue without refs", "merge_group", `"action":"checks_requested"`, nil, "two ends"},
		{"a push to the default branch", "push", pushed("refs/heads/main", one, two), []string{"club/plan main 1 2: +refs/heads/main:refs/heads/main"}, ""},
		{"a push to another branch", "push", pushed("refs/heads/new", one, two), nil, "another branch"},
		{"a tag of that name", "push", pushed("refs/tags/main", one, two), nil, "another branch"},
		{"the first push", "push", pushed("refs/heads/main", zero, two), nil, "nothing to compare"},
		{"the branch is deleted", "push", pushed("refs/heads/main", one, zero), nil, "nothing to compare"},
		{"Gitea's try", "push", pushed("refs/heads/main", one, one), nil, "nothing to compare"},
		{"a check of ours again", "check_run", `"action":"rerequested","check_run":{"name":"passband/plans/east","pull_requests":` + pulls(7) + `}`, []string{"club/plan#7" + fmt.Sprintf(ofPull, 7)}, ""},
		{"a check of another", "check_run", `"action":"rerequested","check_run":{"name":"tests","pull_requests":` + pulls(7) + `}`, nil, "not a check of this program"},
		{"a check with a longer name", "check_run", `"action":"rerequested","check_run":{"name":"passbandit","pull_requests":` + pulls(7) + `}`, nil, "not a check of this program"},
		{"our own check ends", "check_run", `"action":"completed","check_run":{"name":"passband","pull_requests":` + pulls(7) + `}`, nil, "for the action"},
		{"a check of a fork", "check_run", `"action":"rerequested","check_run":{"name":"passband","pull_requests":[]}`, nil, "from a fork"},
		{"all checks of a commit again", "check_suite", `"action":"rerequested","check_suite":{"pull_requests":` + pulls(7, 8) + `}`,
			[]string{"club/plan#7" + fmt.Sprintf(ofPull, 7), "club/plan#8" + fmt.Sprintf(ofPull, 8)}, ""},
		{"one of them is none", "check_suite", `"action":"rerequested","check_suite":{"pull_requests":` + pulls(7, 0) + `}`, nil, "names no pull request"},
	} {
		t.Run(c.name, func(t *testing.T) {
			body := []byte(`{"repository":{"full_name":"club/plan","default_branch":"main"},` + c.payload + `}`)
			jobs, why := read(c.event, strings.Repeat("0", 64), body, time.Now())
			var got []string
			ids := map[string]bool{}
			for _, j := range jobs {
				got = append(got, fmt.Sprintf("%s %.1s %.1s: %s", j.Name(), j.Base, j.Head, strings.Join(j.refs(), " ")))
				ids[j.ID] = validID(j.ID)
			}
			if strings.Join(got, "\n") != strings.Join(c.want, "\n") || (why == "") != (c.why == "") || !strings.Contains(why, c.why) {
				t.Errorf("%q, because %q", got, why)
			}
			if len(ids) != len(jobs) || strings.Contains(fmt.Sprint(ids), "false") {
				t.Errorf("they cannot be told apart: %v", ids)
			}
		})
	}
}

// TestHeadersOfGitea delivers with no header but Gitea's own, and twice.
func TestHeadersOfGitea(t *testing.T) {
	s := newServer(t, t.TempDir(), nil)
	body := pullBody(7, "1", "synchronized")
	for _, want := range []int{http.StatusAccepted, http.StatusOK} {
		r := httptest.NewRequest("POST", "/hook", bytes.NewReader(body))
		r.Header.Set("X-Gitea-Event", "pull_request")
		r.Header.Set("X-Gitea-Signature", sign(body, secret))
		w := httptest.NewRecorder()
		s.Handler().ServeHTTP(w, r)
		if w.Code != want {
			t.Errorf("%d %s", w.Code, w.Body)
		}
	}
	if waits, _ := s.Queue.Counts(); waits != 1 {
		t.Errorf("%d jobs wait", waits)
	}
}

// TestSeveral queues both pull requests of one delivery, and knows them again.
func TestSeveral(t *testing.T) {
	s := newServer(t, t.TempDir(), nil)
	half := func(n int) string {
		return fmt.Sprintf(`{"number":%d,"base":{"ref":"main","sha":%q},"head":{"ref":"new","sha":%q}}`, n, one, two)
	}
	body := []byte(`{"action":"rerequested","check_suite":{"pull_requests":[` + half(7) + "," + half(8) + `]},"repository":{"full_name":"club/plan"}}`)
	for _, want := range []int{202, 200} {
		if status, said := deliver(t, s, "check_suite", body, secret); status != want {
			t.Errorf("%d %s", status, said)
		}
	}
	if waits, _ := s.Queue.Counts(); waits != 2 {
		t.Errorf("%d jobs wait", waits)
	}
}

// FuzzRead must not fall over any delivery, and gives no job whose names could mean
// anything else to git.
func FuzzRead(f *testing.F) {
	f.Add("pull_request", pullBody(7, "1", "opened"))
	f.Add("pull_request", []byte(`{"action":"opened","pull_request":null}`))
	f.Add("merge_group", []byte(`{"action":"checks_requested","merge_group":{"base_ref":"refs/heads/main","head_ref":"refs/heads/x"}}`))
	f.Add("push", []byte(`{"ref":"refs/heads/main","before":"1","after":"2","repository":{"default_branch":"main"}}`))
	f.Add("check_suite", []byte(`{"action":"rerequested","check_suite":{"pull_requests":[{"number":1}]}}`))
	f.Fuzz(func(t *testing.T, event string, body []byte) {
		jobs, why := read(event, strings.Repeat("0", 64), body, time.Now())
		if (why == "") != (len(jobs) > 0) {
			t.Errorf("%d jobs, because %q", len(jobs), why)
		}
		for _, j := range jobs {
			if !isRef(j.BaseRef) || !isHash(j.Base) || !isHash(j.Head) || j.Number < 0 || j.Number == 0 && !isRef(j.HeadRef) || !validID(j.ID) {
				t.Errorf("%+v", j)
			}
		}
	})
}
