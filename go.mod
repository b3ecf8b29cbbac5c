module brightset

go 1.26.8

require (
	github.com/BurntSushi/toml v1.6.0
	github.com/lanl/clp v1.2.0
	github.com/spf13/pflag v1.1.0
)

require gonum.org/v1/gonum v0.17.0

require (
	github.com/chromedp/chromedp v0.23.0
	golang.org/x/image v0.48.0
)

require (
	github.com/chromedp/cdproto v0.159.0 // indirect
	github.com/go-json-experiment/json v0.0.0-20260213210345-44df1a37e875 // indirect
)
