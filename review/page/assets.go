package page

import (
	"crypto/sha256"
	"embed"
	"encoding/base64"
	"fmt"
	"html/template"
	"sync"

	"passband.example/review/report"
)

//go:embed templates/*.tmpl
var templates embed.FS

//go:embed assets/page.css
var style string

//go:embed assets/page.js
var script string

// parsed gives the templates, which are part of the program.
var parsed = sync.OnceValues(func() (*template.Template, error) {
	return template.New("").Funcs(template.FuncMap{
		"shown": report.Visible,
		"style": styleWord,
		"count": count,
	}).ParseFS(templates, "templates/*.tmpl")
})

// policy is the content security policy: nothing but the style and the script of this file,
// known by their hashes (W3C, Content Security Policy Level 3).
func policy() string {
	return fmt.Sprintf("default-src 'none'; style-src %s; script-src %s; base-uri 'none'; form-action 'none'", hash(style), hash(script))
}

func hash(text string) string {
	sum := sha256.Sum256([]byte(text))
	return "'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "'"
}

// styleWord names the style of a span for the templates.
func styleWord(s report.Span) string {
	switch s.Style {
	case report.Strong:
		return "strong"
	case report.Code:
		return "code"
	case report.Faint:
		return "faint"
	case report.At:
		return "at"
	case report.Old:
		return "old"
	case report.New:
		return "new"
	case report.Blocks:
		return "block"
	case report.Warns:
		return "warn"
	case report.Notes:
		return "note"
	case report.Good:
		return "good"
	}
	return ""
}

// count says how many there are of something.
func count(n int, thing string) string {
	if n == 1 {
		return "1 " + thing
	}
	return fmt.Sprintf("%d %ss", n, thing)
}
