package history

import (
	"context"
	"strings"
	"testing"
)

func TestBlobAtMost(t *testing.T) {
	f := newFixture(t)
	f.commit("two", "small", "1234", "large", strings.Repeat("x", 100_000))
	for _, backing := range []string{"go-git", "git"} {
		r := mustOnly(t, f.dir, backing)
		small, large := f.git("rev-parse", "HEAD:small"), f.git("rev-parse", "HEAD:large")
		for range 2 { // one that was skipped must not spoil the next answer
			if data, size, err := r.BlobAtMost(context.Background(), large, 99_999); data != nil || size != 100_000 || err != nil {
				t.Errorf("%s: of a large one %d bytes, size %d, %v", backing, len(data), size, err)
			}
			if data, size, err := r.BlobAtMost(context.Background(), small, 4); string(data) != "1234" || size != 4 || err != nil {
				t.Errorf("%s: of a small one %q, size %d, %v", backing, data, size, err)
			}
		}
		if _, _, err := r.BlobAtMost(context.Background(), f.git("rev-parse", "HEAD"), 1000); err == nil || !strings.Contains(err.Error(), "is a commit") {
			t.Errorf("%s: a commit: %v", backing, err)
		}
		if _, _, err := r.BlobAtMost(context.Background(), strings.Repeat("1", 40), 1000); err == nil {
			t.Errorf("%s: what is not there has contents", backing)
		}
	}
}

func TestEachBlob(t *testing.T) {
	f := newFixture(t)
	f.commit("two", "small", "1234", "large", strings.Repeat("x", 100_000), "empty", "")
	for _, backing := range []string{"go-git", "git"} {
		r := mustOnly(t, f.dir, backing)
		asked := []string{f.git("rev-parse", "HEAD:large"), strings.Repeat("1", 40), "no hash", f.git("rev-parse", "HEAD"), f.git("rev-parse", "HEAD:empty")}
		small := f.git("rev-parse", "HEAD:small")
		for range 2 * mostAsked { // more than are asked for at once
			asked = append(asked, small)
		}
		var got []string
		r.EachBlob(context.Background(), asked, 99_999, func(hash string, data []byte) {
			got = append(got, hash+" "+string(data))
		})
		if want := 1 + 2*mostAsked; len(got) != want || got[0] != asked[4]+" " || got[1] != asked[5]+" 1234" || got[want-1] != got[1] {
			t.Errorf("%s: %d files are read, and not the empty and the small ones alone: %.200q", backing, len(got), got)
		}
		if data, err := r.Blob(context.Background(), asked[0]); len(data) != 100_000 || err != nil {
			t.Errorf("%s: what was left out cannot be read any more: %d bytes, %v", backing, len(data), err)
		}
	}
}
