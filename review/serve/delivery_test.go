package serve

import (
	"encoding/hex"
	"net/http"
	"testing"
)

// Nobody signs a delivery without the secret, whatever stands in the headers.
func FuzzSigned(f *testing.F) {
	body := []byte("Hello, World!")
	f.Add("sha256="+sign(body, secret), "", body)
	f.Add("", sign(body, secret), body)
	f.Add("sha256=", "", []byte{})
	f.Add("sha1="+sign(body, secret)[:40], sign(body, secret), body)
	f.Add("SHA256=00", "zz", []byte(nil))
	f.Fuzz(func(t *testing.T, hub, own string, body []byte) {
		id, ok := signed(http.Header{"X-Hub-Signature-256": {hub}, "X-Gitea-Signature": {own}}, body, secret)
		want := sign(body, secret)
		if !ok {
			return
		}
		given := own
		if hub != "" {
			given = hub[len("sha256="):]
		}
		if got, err := hex.DecodeString(given); err != nil || hex.EncodeToString(got) != want || id != want {
			t.Errorf("%q and %q count as signed, as %q", hub, own, id)
		}
		if _, ok := signed(http.Header{"X-Hub-Signature-256": {hub}, "X-Gitea-Signature": {own}}, body, nil); ok {
			t.Error("no secret signs")
		}
	})
}
