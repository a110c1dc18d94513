module passband.example

go 1.26.0

require (
	github.com/agnivade/levenshtein v1.2.2
	github.com/go-git/go-billy/v5 v5.9.2
	github.com/go-git/go-git/v5 v5.19.3
	github.com/google/go-cmp v0.7.0
	github.com/google/go-github/v60 v60.0.0
	github.com/google/licensecheck v0.3.1
	github.com/rivo/uniseg v0.4.7
	github.com/rogpeppe/go-internal v1.16.0
	github.com/sergi/go-diff v1.4.0
	github.com/spf13/cobra v1.10.2
	golang.org/x/net v0.57.0
	golang.org/x/sys v0.50.0
	golang.org/x/term v0.48.0
	golang.org/x/text v0.41.0
	golang.org/x/tools v0.48.0
	gopkg.in/yaml.v3 v3.0.1
	pgregory.net/rapid v1.3.0
)

require (
	github.com/cyphar/filepath-securejoin v0.6.1 // indirect
	github.com/go-git/gcfg v1.5.1-0.20230307220236-3a3c6141e376 // indirect
	github.com/google/go-querystring v1.1.0 // indirect
	github.com/inconshreveable/mousetrap v1.1.0 // indirect
	github.com/jbenet/go-context v0.0.0-20150711004518-d14ea06fba99 // indirect
	github.com/pjbgf/sha1cd v0.7.0 // indirect
	github.com/spf13/pflag v1.0.9 // indirect
	gopkg.in/warnings.v0 v0.1.2 // indirect
)
