// Package e2e opens the page of package review/page in a real Chromium and uses it as
// people do: with and without scripts, narrow and wide, light and dark, on paper, and
// with the audit of axe-core.
//
// It is a module of its own, since it needs what the program does not: the command
// chromium (Debian's package chromium) on the PATH, or where PASSBAND_CHROMIUM says, and
// the file axe.min.js of the npm package axe-core where PASSBAND_AXE says. Its tests fail
// where one is missing.
//
//	npm install --prefix /tmp/axe axe-core
//	PASSBAND_AXE=/tmp/axe/node_modules/axe-core/axe.min.js go test .
package e2e
