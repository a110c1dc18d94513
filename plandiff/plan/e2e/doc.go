// Package e2e holds the open formats in which a plan is handed out against what others
// have published: the JSON Schema for editors against the meta-schema, by a validator that
// knows nothing of plans, and against the loader, on every plan file that the tests have;
// GeoJSON against a JSON Schema from npm and two libraries of maps; GPX against its XML
// Schema and a reader from npm. It is a module of its own, since the program needs none of
// these. Run it by
//
//	npm install --prefix DIR geojson-schema@1.0.5 @tmcw/togeojson@7.1.3 @xmldom/xmldom@0.9.12
//	cd plandiff/plan/e2e && PASSBAND_FORMATS=DIR/node_modules go test .
//
// with the commands node and xmllint (Debian's libxml2-utils) on the path; .ci/run does.
package e2e
