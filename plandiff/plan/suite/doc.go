// Package suite holds the reading of plans against the public YAML test suite
// (github.com/yaml/yaml-test-suite), as the module github.com/goccy/go-yaml carries it: some 350 texts
// with every corner of YAML, right and wrong. It is a module of its own, so that what it compares with
// is no part of passband:
//
//	cd plandiff/plan/suite && go test .
package suite
