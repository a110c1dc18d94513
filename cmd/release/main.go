package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"os"
	"os/exec"
	"os/signal"
	"path/filepath"
	"strconv"
	"strings"
	"time"
)

// Systems are what a release is built for, as GOOS/GOARCH. The 32-bit arm is that of
// small single-board computers (GOARM=6).
const Systems = "linux/amd64,linux/arm64,linux/arm,darwin/amd64,darwin/arm64,windows/amd64,windows/arm64"

// MaxSize is how large the stripped program may be, in bytes, so that what is added to it is
// noticed. It is what it takes and not what it should: the aim is 12 MB. From 15 to 20 MB it
// grew with html/template, whose calls by name keep the linker from leaving methods out.
const MaxSize = 25_000_000

func main() {
	version := flag.String("version", "", "the `version`, as its tag says it")
	systems := flag.String("systems", Systems, "what to build for, as `GOOS/GOARCH` with commas between")
	flag.Parse()
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	defer stop()
	if *version == "" || flag.NArg() != 1 {
		fmt.Fprintln(os.Stderr, "release: say -version and the folder to make")
		os.Exit(2)
	}
	r := &release{version: *version, dir: flag.Arg(0)}
	if err := r.make(ctx, strings.Split(*systems, ",")); err != nil {
		fmt.Fprintln(os.Stderr, "release:", err)
		os.Exit(2)
	}
}

type release struct {
	version, dir string
	top          string    // of the sources
	at           time.Time // of the commit, which all files bear
}

func (r *release) make(ctx context.Context, systems []string) error {
	var err error
	if r.top, err = output(ctx, ".", "go", "list", "-m", "-f", "{{.Dir}}"); err != nil {
		return err
	}
	if r.at, err = commitTime(ctx, r.top); err != nil {
		return err
	}
	if err := os.Mkdir(r.dir, 0o777); err != nil {
		return err
	}
	for _, system := range systems {
		if err := r.system(ctx, system); err != nil {
			return fmt.Errorf("%s: %w", system, err)
		}
	}
	return checksums(r.dir)
}

// system builds for one system and puts it into an archive.
func (r *release) system(ctx context.Context, system string) error {
	goos, goarch, ok := strings.Cut(system, "/")
	if !ok {
		return errors.New("write a system as GOOS/GOARCH, such as linux/amd64")
	}
	tmp, err := os.MkdirTemp("", "release")
	if err != nil {
		return err
	}
	defer os.RemoveAll(tmp)
	program := filepath.Join(tmp, "passband")
	if goos == "windows" {
		program += ".exe"
	}
	cmd := exec.CommandContext(ctx, "go", "build", "-trimpath", "-buildvcs=false", "-mod=readonly",
		"-ldflags=-s -w -X main.version="+r.version, "-o", program, "./cmd/passband")
	cmd.Dir, cmd.Stderr = r.top, os.Stderr
	cmd.Env = append(os.Environ(), "CGO_ENABLED=0", "GOOS="+goos, "GOARCH="+goarch, "GOARM=6", "GOAMD64=v1", "GOARM64=v8.0", "GOFLAGS=", "GOWORK=off", "GOEXPERIMENT=")
	if err := cmd.Run(); err != nil {
		return fmt.Errorf("go build: %w", err)
	}
	info, err := os.Stat(program)
	if err != nil {
		return err
	}
	fmt.Printf("%-14s %5.1f MB\n", system, float64(info.Size())/1e6)
	if info.Size() > MaxSize {
		return fmt.Errorf("the program has %d bytes, and may have %d", info.Size(), MaxSize)
	}
	name := fmt.Sprintf("passband-%s-%s-%s", r.version, goos, goarch)
	if err := r.materials(ctx, name, program); err != nil {
		return err
	}
	return r.archive(name, goos == "windows", []string{program, filepath.Join(r.top, "LICENSE"), filepath.Join(r.top, "README.md")})
}

// materials writes the bill of materials of a built program: the modules that it was made of,
// as it says itself.
func (r *release) materials(ctx context.Context, name, program string) error {
	file, err := filepath.Abs(filepath.Join(r.dir, name+".sbom.json"))
	if err != nil {
		return err
	}
	cmd := exec.CommandContext(ctx, "go", "run", "github.com/CycloneDX/cyclonedx-gomod/cmd/cyclonedx-gomod@v1.9.0",
		"bin", "-json", "-licenses", "-std", "-noserial", "-version", r.version, "-output", file, program)
	cmd.Dir = r.top
	if out, err := cmd.CombinedOutput(); err != nil {
		return fmt.Errorf("bill of materials: %w\n%s", err, out)
	}
	return settle(file, r.at)
}

// commitTime gives the time that files bear, in whole seconds.
func commitTime(ctx context.Context, dir string) (time.Time, error) {
	text := os.Getenv("SOURCE_DATE_EPOCH")
	if text == "" {
		var err error
		if text, err = output(ctx, dir, "git", "log", "-1", "--format=%ct"); err != nil {
			return time.Time{}, err
		}
	}
	seconds, err := strconv.ParseInt(text, 10, 64)
	return time.Unix(seconds, 0).UTC(), err
}

func output(ctx context.Context, dir, name string, args ...string) (string, error) {
	cmd := exec.CommandContext(ctx, name, args...)
	cmd.Dir = dir
	out, err := cmd.Output()
	if err != nil {
		return "", fmt.Errorf("%s %s: %w", name, args[0], err)
	}
	return strings.TrimSpace(string(out)), nil
}
