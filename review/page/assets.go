package page

import _ "embed"

//go:embed assets/page.css
var style string

//go:embed assets/page.js
var script string
