package markup

import (
	"crypto/sha256"
	"encoding/base64"
)

// Policy is the content security policy of a page, for its head: nothing but a style and
// scripts of its own, known by their hashes (W3C, Content Security Policy Level 3).
func Policy(style string, scripts ...string) *Node {
	text := "default-src 'none'; style-src" + hashed(style)
	if len(scripts) > 0 {
		text += "; script-src"
		for _, script := range scripts {
			text += hashed(script)
		}
	}
	return El("meta", Attr("http-equiv", "Content-Security-Policy"), Attr("content", text+"; base-uri 'none'; form-action 'none'"))
}

func hashed(text string) string {
	sum := sha256.Sum256([]byte(text))
	return " 'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "'"
}
