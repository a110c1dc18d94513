// Release makes what is handed out of a version: an archive for each system, a bill of
// materials and checksums. It publishes nothing.
//
//	go run ./cmd/release -version 2026.1 dist
//	go run ./cmd/release -version 2026.1 -systems linux/amd64,windows/amd64 dist
//
// The folder dist must not be there yet. Then it holds
//
//	passband-2026.1-linux-amd64.tar.gz      and one for each system, .zip for windows
//	passband-2026.1-linux-amd64.sbom.json   what is in it, with licenses (CycloneDX)
//	SHA256SUMS                              for sha256sum -c
//
// # The same bytes for everyone
//
// The same commit, Go version and -version give the same files on every machine, so that
// anyone can check that a release was made of these sources: the program is built
// without C, without paths and without the state of a clone (-trimpath, -buildvcs=false), and files in
// archives bear the time of the commit (SOURCE_DATE_EPOCH, where that is set, see
// reproducible-builds.org/specs/source-date-epoch), one owner and sorted names.
//
// A program above MaxSize is a fault of the release, and so is a module whose license is
// not among those that are allowed.
package main
