module passband.test/contract

go 1.26.0

require (
	github.com/CycloneDX/cyclonedx-go v0.9.2
	github.com/getkin/kin-openapi v0.153.0
	github.com/santhosh-tekuri/jsonschema/v6 v6.0.3
	github.com/vektah/gqlparser/v2 v2.5.64
	github.com/yuin/goldmark v1.8.7
	gopkg.in/yaml.v3 v3.0.1
	passband.example v0.0.0
)

require (
	github.com/agnivade/levenshtein v1.2.2 // indirect
	github.com/cyphar/filepath-securejoin v0.6.1 // indirect
	github.com/go-git/gcfg v1.5.1-0.20230307220236-3a3c6141e376 // indirect
	github.com/go-git/go-billy/v5 v5.9.2 // indirect
	github.com/go-git/go-git/v5 v5.19.3 // indirect
	github.com/go-openapi/jsonpointer v0.22.5 // indirect
	github.com/go-openapi/swag/jsonname v0.25.5 // indirect
	github.com/google/go-github/v60 v60.0.0 // indirect
	github.com/google/go-querystring v1.1.0 // indirect
	github.com/gorilla/mux v1.8.0 // indirect
	github.com/jbenet/go-context v0.0.0-20150711004518-d14ea06fba99 // indirect
	github.com/pjbgf/sha1cd v0.7.0 // indirect
	github.com/rivo/uniseg v0.4.7 // indirect
	github.com/sergi/go-diff v1.4.0 // indirect
	go.yaml.in/yaml/v4 v4.0.0 // indirect
	golang.org/x/net v0.57.0 // indirect
	golang.org/x/sys v0.50.0 // indirect
	golang.org/x/text v0.41.0 // indirect
	gopkg.in/warnings.v0 v0.1.2 // indirect
)

replace passband.example => ../../../..
