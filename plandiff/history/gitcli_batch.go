package history

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"io"
	"os/exec"
	"strconv"
	"strings"
	"sync"
	"syscall"
	"time"
)

// A conversation is one long-running "git cat-file": a hash goes in, its kind,
// size and perhaps its bytes come out. The process is started by the first
// question, and again after it was ended.
type conversation struct {
	start func() *exec.Cmd

	mu   sync.Mutex
	cmd  *exec.Cmd // nil when not running
	in   io.WriteCloser
	out  *reply
	errs *lastWords
}

// A reply is what the process writes.
type reply struct{ r *bufio.Reader }

// ended is the death of the process in the middle of a conversation.
type ended struct {
	err   error
	words string
}

func (e *ended) Error() string { return e.err.Error() }

var errNoSuchObject = errors.New("no such object")

// ask sends one question and hands the answer to use, which must read the body
// if there is one. When ctx ends, so does the process.
func (c *conversation) ask(ctx context.Context, id string, use func(kind string, size int64, body *reply) error) error {
	return c.askAll(ctx, []string{id}, func(_ int, kind string, size int64, body *reply) error { return use(kind, size, body) })
}

// askAll sends several questions at once, so that git works on one answer while another is
// read, and hands each answer to use. A single object that there is not is an error; of
// several it is left out.
func (c *conversation) askAll(ctx context.Context, ids []string, use func(i int, kind string, size int64, body *reply) error) error {
	c.mu.Lock()
	defer c.mu.Unlock()
	if err := ctx.Err(); err != nil {
		return err
	}
	if err := c.begin(); err != nil {
		return err
	}
	process := c.cmd.Process
	stop := context.AfterFunc(ctx, func() { _ = process.Kill() })
	err := c.exchange(ids, use)
	if !stop() {
		_ = c.end() // it was killed, perhaps after it had answered
		return ctx.Err()
	}
	if err != nil && !errors.Is(err, errNoSuchObject) {
		return c.lost(err)
	}
	return err
}

func (c *conversation) exchange(ids []string, use func(int, string, int64, *reply) error) error {
	if _, err := io.WriteString(c.in, strings.Join(ids, "\n")+"\n"); err != nil {
		return err
	}
	for i, id := range ids {
		line, err := c.out.r.ReadString('\n')
		if err != nil {
			return err
		}
		kind, size, err := parseHeader(line, id)
		if errors.Is(err, errNoSuchObject) && len(ids) > 1 {
			continue
		}
		if err != nil {
			return err
		}
		if err := use(i, kind, size, c.out); err != nil {
			return err
		}
	}
	return nil
}

// parseHeader reads "HASH KIND SIZE" or "HASH missing", the first line of an answer of git cat-file.
func parseHeader(line, id string) (kind string, size int64, err error) {
	rest, ok := strings.CutPrefix(line, id+" ")
	if !ok {
		return "", 0, fmt.Errorf("git answered %q to a question about %s", line, id)
	}
	kind, length, _ := strings.Cut(strings.TrimSuffix(rest, "\n"), " ")
	switch kind {
	case commitKind, treeKind, blobKind, tagKind:
		size, err = strconv.ParseInt(length, 10, 64)
		if err == nil && size >= 0 {
			return kind, size, nil
		}
	case "missing":
		return "", 0, errNoSuchObject
	}
	return "", 0, fmt.Errorf("git answered %q to a question about %s", line, id)
}

// trustedSize is up to how many bytes an object is believed to have that its header announces.
const trustedSize = 16 << 20

// body reads the bytes of an object and the line end after them. Memory grows
// with what really comes, not with what was announced.
func (r *reply) body(size int64) ([]byte, error) {
	data := make([]byte, min(size, trustedSize))
	_, err := io.ReadFull(r.r, data)
	if err == nil && size > trustedSize {
		var rest []byte
		rest, err = io.ReadAll(io.LimitReader(r.r, size-trustedSize))
		data = append(data, rest...)
	}
	if errors.Is(err, io.ErrUnexpectedEOF) || err == nil && int64(len(data)) < size {
		err = io.EOF
	}
	if err != nil {
		return nil, err
	}
	if end, err := r.r.ReadByte(); err != nil || end != '\n' {
		return nil, errors.New("git's answer is longer than it announced")
	}
	return data, nil
}

func (c *conversation) begin() error {
	if c.cmd != nil {
		return nil
	}
	cmd := c.start()
	in, err := cmd.StdinPipe()
	if err != nil {
		return err
	}
	out, err := cmd.StdoutPipe()
	if err != nil {
		return err
	}
	errs := &lastWords{}
	cmd.Stderr = errs
	if err := cmd.Start(); err != nil {
		return fmt.Errorf("git cannot be started: %w", err)
	}
	c.cmd, c.in, c.out, c.errs = cmd, in, &reply{bufio.NewReaderSize(out, 64<<10)}, errs
	return nil
}

// lost ends the process and reports why the conversation broke off. A process
// that is ending by itself gets the time to say why.
func (c *conversation) lost(err error) error {
	errs, process := c.errs, c.cmd.Process
	if errors.Is(err, io.EOF) || errors.Is(err, syscall.EPIPE) {
		late := time.AfterFunc(2*time.Second, func() { _ = process.Kill() })
		defer late.Stop()
	} else {
		_ = process.Kill()
	}
	if exit := c.end(); exit != nil {
		err = exit
	}
	return &ended{err, errs.String()}
}

// end closes the process's input, which it takes for the end of its work.
func (c *conversation) end() error {
	_ = c.in.Close()
	err := c.cmd.Wait()
	c.cmd, c.in, c.out, c.errs = nil, nil, nil, nil
	return err
}

func (c *conversation) close() {
	c.mu.Lock()
	defer c.mu.Unlock()
	if c.cmd != nil {
		_ = c.cmd.Process.Kill()
		_ = c.end()
	}
}
