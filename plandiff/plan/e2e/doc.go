// Package e2e holds the open formats in which a plan is handed out against what others
// have published: the JSON Schema for editors against the meta-schema, by a validator that
// knows nothing of plans, and against the loader, on every plan file that the tests have;
// GeoJSON against a JSON Schema from npm and two libraries of maps; GPX against its XML
// Schema and a reader from npm. It is a module of its own, since the program needs none of
// these. Run it by
//
//	cd plandiff/plan/e2e && go test .
//
// with the command xmllint (Debian's libxml2-utils) and npm on the path; it fetches the
// npm packages into a temporary folder, unless PASSBAND_FORMATS names a folder that has
// them.
package e2e
