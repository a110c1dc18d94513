module passband.test/plan

go 1.26.0

require (
	github.com/paulmach/orb v0.14.0
	github.com/peterstace/simplefeatures v0.50.0
	github.com/santhosh-tekuri/jsonschema/v6 v6.0.3
	golang.org/x/tools v0.48.0
	gopkg.in/yaml.v3 v3.0.1
	passband.example v0.0.0
	pgregory.net/rapid v1.3.0
)

require (
	github.com/agnivade/levenshtein v1.2.2 // indirect
	github.com/cyphar/filepath-securejoin v0.6.1 // indirect
	github.com/go-git/gcfg v1.5.1-0.20230307220236-3a3c6141e376 // indirect
	github.com/go-git/go-billy/v5 v5.9.2 // indirect
	github.com/go-git/go-git/v5 v5.19.3 // indirect
	github.com/jbenet/go-context v0.0.0-20150711004518-d14ea06fba99 // indirect
	github.com/pjbgf/sha1cd v0.7.0 // indirect
	go.mongodb.org/mongo-driver/v2 v2.5.0 // indirect
	golang.org/x/net v0.57.0 // indirect
	golang.org/x/sys v0.50.0 // indirect
	golang.org/x/text v0.41.0 // indirect
	gopkg.in/warnings.v0 v0.1.2 // indirect
)

replace passband.example => ../../..
