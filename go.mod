module brightset

go 1.26.8

require (
	github.com/BurntSushi/toml v1.6.0
	github.com/lanl/clp v1.2.0
	github.com/spf13/pflag v1.1.0
)

require gonum.org/v1/gonum v0.17.0

require golang.org/x/image v0.48.0
