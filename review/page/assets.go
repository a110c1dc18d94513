package page

import (
	"crypto/sha256"
	_ "embed"
	"encoding/base64"
	"fmt"
)

//go:embed assets/page.css
var style string

//go:embed assets/page.js
var script string

// policy is the content security policy: nothing but the style and the script of this file,
// known by their hashes (W3C, Content Security Policy Level 3).
func policy() string {
	return fmt.Sprintf("default-src 'none'; style-src %s; script-src %s; base-uri 'none'; form-action 'none'", hash(style), hash(script))
}

func hash(text string) string {
	sum := sha256.Sum256([]byte(text))
	return "'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "'"
}
