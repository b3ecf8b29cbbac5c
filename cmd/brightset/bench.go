package main

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"strconv"
	"time"

	"brightset/catalog"
	"brightset/cmd/brightset/internal/bench"

	"github.com/spf13/pflag"
)

var benchCommand = command{
	name: "bench", args: "[JOB]", most: 1,
	summary: "serve the page for the bench: inspect, decide, ask what if, record, print",
	text: "Serves one page in the browser on this machine, at which the whole job can be done without typing. It goes " +
		"on until Ctrl-C; everything done there is in the journal. Where there is no job yet, the page begins one." +
		"\nWith --share other devices in the same network can use it too, such as a tablet in the workshop: each has to " +
		"type the code that stands in the terminal. The connection is not encrypted: share only in a network you trust.",
	setup: func(flags *pflag.FlagSet) action {
		var o benchOptions
		flags.IntVar(&o.port, "port", benchPort, "the `PORT` to serve at; 0 for any that is free")
		flags.BoolVar(&o.share, "share", false, "let other devices in this network in, against a pairing code")
		return o.run
	},
}

// benchPort is where the page is served unless it is told otherwise.
const benchPort = 8477

type benchOptions struct {
	port  int
	share bool
	show  func(link string) error // opens the page in a browser; nil: the user does
}

func (o *benchOptions) run(c *call) (int, error) {
	if o.port < 0 || o.port > 65535 {
		return 0, usageError{fmt.Sprintf("--port %d is no port; type: brightset bench --port 8477", o.port)}
	}
	path := benchPath(c)
	if _, err := os.Stat(path); os.IsNotExist(err) {
		fmt.Fprintf(c.err, "There is no job at %s yet: the page begins one.\n", path)
	} else if _, err := catalog.Load(path, catalog.Options{Today: now()}); err != nil {
		return 0, err
	}
	address := "127.0.0.1"
	if o.share {
		address = ""
	}
	listener, err := net.Listen("tcp", net.JoinHostPort(address, strconv.Itoa(o.port)))
	if err != nil && o.show != nil { // whoever didn't ask for a port can do with any
		listener, err = net.Listen("tcp", net.JoinHostPort(address, "0"))
	}
	if err != nil {
		return 0, fmt.Errorf("can't serve at port %d: %w; another one: brightset bench --port 0", o.port, err)
	}
	ctx, giveBack := interruptible()
	defer giveBack()
	ctx, stop := context.WithCancel(ctx)
	defer stop()
	return o.serve(ctx, stop, c, path, listener)
}

// benchPath is the job of a file or folder, whether it is there yet or not.
func benchPath(c *call) string {
	path := "job.toml"
	if len(c.args) > 0 {
		path = c.args[0]
	}
	if info, err := os.Stat(path); err == nil && info.IsDir() || filepath.Ext(path) == "" {
		path = filepath.Join(path, "job.toml")
	}
	return path
}

// serve answers until the user has had enough.
func (o *benchOptions) serve(ctx context.Context, stop func(), c *call, path string,
	listener net.Listener) (int, error) {
	port := strconv.Itoa(listener.Addr().(*net.TCPAddr).Port)
	opt := bench.Options{Job: path, Now: now, Papers: benchPapers, Together: benchTogether,
		Key: bench.NewKey(), Stop: stop,
		Hosts: func() []string { return hosts(port, o.share) },
		Tell:  func(format string, args ...any) { fmt.Fprintf(c.err, format+"\n", args...) }}
	if o.share {
		opt.Code = bench.NewCode()
	}
	if o.show != nil {
		opt.Once = bench.NewKey()
	}
	page := bench.New(opt)
	server := &http.Server{Handler: page.Handler(), ReadHeaderTimeout: 5 * time.Second, ReadTimeout: 60 * time.Second,
		WriteTimeout: 120 * time.Second, IdleTimeout: 120 * time.Second, MaxHeaderBytes: 16 << 10}
	remember(path)
	fmt.Fprintf(c.out, "The bench is at http://127.0.0.1:%s/?key=%s until Ctrl-C.\n", port, opt.Key)
	if o.share {
		o.tellHow(c, page, &opt)
	}
	done := make(chan error, 1)
	go func() { done <- server.Serve(listener) }()
	if o.show != nil {
		if err := o.show("http://127.0.0.1:" + port + "/?key=" + opt.Once); err != nil {
			fmt.Fprintf(c.err, "The browser doesn't open by itself (%s): open that link in it.\n", err)
		}
	}
	select {
	case err := <-done:
		return exitFailed, err
	case <-ctx.Done():
	}
	last, cancel := context.WithTimeout(context.Background(), 3*time.Second)
	defer cancel()
	if err := server.Shutdown(last); err != nil && !errors.Is(err, context.DeadlineExceeded) {
		return exitFailed, err
	}
	return exitAnswered, nil
}

// tellHow says how other devices get in, and goes on after too many wrong codes when somebody
// presses Enter.
func (o *benchOptions) tellHow(c *call, page *bench.Server, opt *bench.Options) {
	fmt.Fprintf(c.err, "Shared with this network, unencrypted: anybody in it can see what you send.\n")
	for _, h := range opt.Hosts()[3:] {
		fmt.Fprintf(c.err, "  http://%s/\n", h)
	}
	fmt.Fprintf(c.err, "The code for the first device: %s\n", opt.Code)
	go func() {
		for lines := bufio.NewScanner(c.in); lines.Scan(); {
			if code := page.LetTryAgain(); code != "" {
				fmt.Fprintf(c.err, "The new code: %s\n", code)
			}
		}
	}()
}

// hosts are the names by which the page may be asked for: this machine's loopback, and
// when shared the addresses it has in its networks.
func hosts(port string, share bool) []string {
	all := []string{net.JoinHostPort("127.0.0.1", port), net.JoinHostPort("localhost", port),
		net.JoinHostPort("::1", port)}
	if !share {
		return all
	}
	addresses, _ := net.InterfaceAddrs()
	for _, a := range addresses {
		if n, ok := a.(*net.IPNet); ok && !n.IP.IsLoopback() && !n.IP.IsLinkLocalUnicast() {
			all = append(all, net.JoinHostPort(n.IP.String(), port))
		}
	}
	return all
}
