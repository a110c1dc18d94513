package forge

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"net"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// A server is a forge on loopback, with a token for each of its users.
type server struct {
	t      *testing.T
	url    string
	dir    string
	tokens map[string]string
}

const settings = `RUN_MODE = prod
WORK_PATH = %[1]s/data
I_AM_BEING_UNSAFE_RUNNING_AS_ROOT = true
[server]
HTTP_ADDR = 127.0.0.1
HTTP_PORT = %[2]d
ROOT_URL = http://127.0.0.1:%[2]d/
STATIC_ROOT_PATH = %[3]s
DISABLE_SSH = true
OFFLINE_MODE = true
[database]
DB_TYPE = sqlite3
PATH = %[1]s/data/gitea.db
[security]
INSTALL_LOCK = true
SECRET_KEY = test-only
[service]
DISABLE_REGISTRATION = true
[webhook]
ALLOWED_HOST_LIST = loopback
[indexer]
ISSUE_INDEXER_TYPE = db
[session]
PROVIDER = memory
[cron]
ENABLED = false
[log]
MODE = console
LEVEL = Warn
`

// start builds the server if need be, and starts it with two users.
func start(t *testing.T) *server {
	t.Helper()
	s := &server{t: t, dir: t.TempDir(), tokens: map[string]string{}}
	program := os.Getenv("GITEA")
	if program == "" {
		program = filepath.Join(s.dir, "gitea")
		s.run("", nil, "go", "build", "-o", program, "-ldflags", "-X main.Version=1.26.0", "-tags", "sqlite sqlite_unlock_notify", "code.gitea.io/gitea")
	}
	static := strings.TrimSpace(s.run("", nil, "go", "list", "-m", "-f", "{{.Dir}}", "code.gitea.io/gitea"))
	port := freePort(t)
	s.url = fmt.Sprintf("http://127.0.0.1:%d", port)
	config := filepath.Join(s.dir, "app.ini")
	if err := os.WriteFile(config, fmt.Appendf(nil, settings, s.dir, port, static), 0o600); err != nil {
		t.Fatal(err)
	}
	s.run("", nil, program, "-c", config, "migrate")
	for _, user := range []string{"owner", "lena"} {
		s.run("", nil, program, "-c", config, "admin", "user", "create", "--admin", "--username", user, "--password", "only-for-this-test-1", "--email", user+"@example.org", "--must-change-password=false")
		out := s.run("", nil, program, "-c", config, "admin", "user", "generate-access-token", "--username", user, "--token-name", "t", "--scopes", "all", "--raw")
		lines := strings.Fields(out)
		s.tokens[user] = lines[len(lines)-1]
	}
	log, err := os.Create(filepath.Join(s.dir, "server.log"))
	if err != nil {
		t.Fatal(err)
	}
	web := exec.Command(program, "-c", config, "web")
	web.Stdout, web.Stderr = log, log
	if err := web.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		_ = web.Process.Signal(os.Interrupt)
		_ = web.Wait()
		log.Close()
		if text, err := os.ReadFile(log.Name()); err == nil && t.Failed() {
			t.Logf("the server says:\n%s", text[max(0, len(text)-4000):])
		}
	})
	until(t, "the server is there", func() bool {
		resp, err := http.Get(s.url + "/api/healthz")
		if err != nil {
			return false
		}
		resp.Body.Close()
		return resp.StatusCode == 200
	})
	return s
}

func freePort(t *testing.T) int {
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer l.Close()
	return l.Addr().(*net.TCPAddr).Port
}

// until waits for something to be so: the server does much after it has answered.
func until(t *testing.T, what string, so func() bool) {
	t.Helper()
	for end := time.Now().Add(60 * time.Second); time.Now().Before(end); time.Sleep(100 * time.Millisecond) {
		if so() {
			return
		}
	}
	t.Fatalf("it never came that %s", what)
}

// run runs a program that must succeed, and gives what it prints.
func (s *server) run(dir string, env []string, name string, args ...string) string {
	s.t.Helper()
	out, err := s.try(dir, env, name, args...)
	if err != nil {
		s.t.Fatalf("%s %q: %v\n%s", name, args, err, out)
	}
	return out
}

func (s *server) try(dir string, env []string, name string, args ...string) (string, error) {
	cmd := exec.Command(name, args...)
	cmd.Dir = dir
	cmd.Env = append(os.Environ(), env...)
	out, err := cmd.CombinedOutput()
	return string(out), err
}

// ask asks the server as a user, and gives the status and the text of the answer.
func (s *server) ask(user, method, path string, in any) (int, string) {
	s.t.Helper()
	var body io.Reader
	if in != nil {
		text, err := json.Marshal(in)
		if err != nil {
			s.t.Fatal(err)
		}
		body = bytes.NewReader(text)
	}
	req, err := http.NewRequest(method, s.url+"/api/v1"+path, body)
	if err != nil {
		s.t.Fatal(err)
	}
	req.Header.Set("Authorization", "token "+s.tokens[user])
	req.Header.Set("Content-Type", "application/json")
	resp, err := http.DefaultClient.Do(req)
	if err != nil {
		s.t.Fatal(err)
	}
	defer resp.Body.Close()
	text, err := io.ReadAll(resp.Body)
	if err != nil {
		s.t.Fatal(err)
	}
	return resp.StatusCode, string(text)
}

// call is ask that reads the answer into out.
func (s *server) call(user, method, path string, in, out any) int {
	s.t.Helper()
	status, text := s.ask(user, method, path, in)
	if out != nil && status < 300 {
		if err := json.Unmarshal([]byte(text), out); err != nil {
			s.t.Fatalf("%s %s: %v in %s", method, path, err, text)
		}
	}
	return status
}

// must is call for what must succeed.
func (s *server) must(user, method, path string, in, out any) {
	s.t.Helper()
	if status := s.call(user, method, path, in, out); status >= 300 {
		s.t.Fatalf("%s %s: status %d", method, path, status)
	}
}

// basic asks as a user by password, as making a token needs.
func (s *server) basic(user, path string, in, out any) int {
	s.t.Helper()
	text, err := json.Marshal(in)
	if err != nil {
		s.t.Fatal(err)
	}
	req, err := http.NewRequest("POST", s.url+"/api/v1"+path, bytes.NewReader(text))
	if err != nil {
		s.t.Fatal(err)
	}
	req.SetBasicAuth(user, "only-for-this-test-1")
	req.Header.Set("Content-Type", "application/json")
	resp, err := http.DefaultClient.Do(req)
	if err != nil {
		s.t.Fatal(err)
	}
	defer resp.Body.Close()
	if err := json.NewDecoder(resp.Body).Decode(out); err != nil {
		s.t.Fatal(err)
	}
	return resp.StatusCode
}
