package serve

import (
	"cmp"
	"crypto/hmac"
	"crypto/sha256"
	"encoding/hex"
	"net/http"
	"strings"
)

// mostDelivery bounds a delivery, in bytes (docs.github.com: payloads are capped at
// 25 MB).
const mostDelivery = 25 << 20

// signed gives the signature of a delivery, if it is that of the body by the secret. It
// stands in GitHub's header, which Gitea sends too, or else in Gitea's own. An empty
// secret signs nothing. The weaker SHA-1 that forges send too is not looked at.
func signed(header http.Header, body, secret []byte) (id string, ok bool) {
	given := header.Get("X-Gitea-Signature")
	if hub := header.Get("X-Hub-Signature-256"); hub != "" {
		given, ok = strings.CutPrefix(hub, "sha256=")
		if !ok {
			return "", false
		}
	}
	got, err := hex.DecodeString(given)
	if err != nil || len(secret) == 0 {
		return "", false
	}
	mac := hmac.New(sha256.New, secret)
	mac.Write(body)
	want := mac.Sum(nil)
	return hex.EncodeToString(want), hmac.Equal(got, want)
}

// eventOf gives the name of what a delivery tells.
func eventOf(header http.Header) string {
	return cmp.Or(header.Get("X-GitHub-Event"), header.Get("X-Gitea-Event"))
}
