// Package bench serves the local page at which a whole job is done: inspecting, deciding,
// asking "what if", recording and printing. It decides nothing itself: states come from
// catalog, answers from model, words from report, and whatever is done goes through the
// journal. Every request looks at the files as they are, so that two tabs, an editor and
// the command line can't disagree.
package bench

import (
	"context"
	"embed"
	"io/fs"
	"net/http"
	"path/filepath"
	"sync"
	"time"

	"brightset/catalog"
	"brightset/cmd/brightset/internal/report"
	"brightset/cmd/brightset/internal/report/page"
	"brightset/model/plan"
)

//go:embed static
var static embed.FS

// Options are what the page is served with. The zero value does not work: Job and Papers
// are needed.
type Options struct {
	Job    string // path of the job's file
	Now    func() time.Time
	Hosts  []string // host:port by which the page may be asked for, and by no other name
	Code   string   // pairing code; "": none is needed
	Papers func(context.Context, *catalog.State, *plan.Plan) (*report.Papers, error)
	Tell   func(format string, args ...any) // says on the terminal what the user should know
}

// Server serves one job.
type Server struct {
	opt     Options
	mux     *http.ServeMux
	writing sync.Mutex // one record at a time
	answers answers
	pairing pairing
}

// Limits of requests.
const (
	maxForm  = 64 << 10
	maxPhoto = 40 << 20
)

// New makes the server.
func New(opt Options) *Server {
	if opt.Now == nil {
		opt.Now = time.Now
	}
	if opt.Tell == nil {
		opt.Tell = func(string, ...any) {}
	}
	s := &Server{opt: opt, mux: http.NewServeMux(), pairing: pairing{code: opt.Code}}
	files, err := fs.Sub(static, "static")
	if err != nil {
		panic(err)
	}
	s.mux.Handle("GET /static/", http.StripPrefix("/static/", http.FileServerFS(files)))
	s.mux.HandleFunc("GET /{$}", s.slotPage)
	s.mux.HandleFunc("GET /new", s.newPage)
	s.mux.HandleFunc("GET /plan", s.planPage)
	s.mux.HandleFunc("GET /what-if", s.whatIfPage)
	s.mux.HandleFunc("GET /papers", s.papersPage)
	s.mux.HandleFunc("GET /paper/{name}", s.paper)
	s.mux.HandleFunc("GET /journal", s.journalPage)
	s.mux.HandleFunc("GET /why", s.whyPart)
	s.mux.HandleFunc("GET /others", s.othersPart)
	s.mux.HandleFunc("GET /curve.json", s.curveJSON)
	s.mux.HandleFunc("GET /what-if.json", s.whatIfJSON)
	s.mux.HandleFunc("GET /photo", s.photo)
	s.mux.HandleFunc("POST /do", s.do)
	s.mux.HandleFunc("POST /turn", s.turn)
	s.mux.HandleFunc("POST /photo", s.takePhoto)
	s.mux.HandleFunc("GET /pair", s.pairPage)
	s.mux.HandleFunc("POST /pair", s.pair)
	return s
}

// Handler is the server behind everything that keeps strangers out: only the hosts it
// was told of, no request that another site caused, nobody who was not paired, and no
// more than a form's worth of bytes.
func (s *Server) Handler() http.Handler {
	cross := http.NewCrossOriginProtection()
	var h http.Handler = s.mux
	h = s.paired(h)
	h = cross.Handler(h)
	h = s.onlyHosts(h)
	return headers(limited(h))
}

// policy allows the page's own files and nothing else, and nowhere to send a form but
// back.
const policy = "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; connect-src 'self'; form-action 'self'; frame-ancestors 'none'; base-uri 'none'"

func headers(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		h := w.Header()
		h.Set("Content-Security-Policy", policy)
		h.Set("X-Content-Type-Options", "nosniff")
		h.Set("Referrer-Policy", "no-referrer")
		h.Set("Cross-Origin-Opener-Policy", "same-origin")
		h.Set("Cross-Origin-Resource-Policy", "same-origin")
		h.Set("Cache-Control", "no-store")
		next.ServeHTTP(w, r)
	})
}

func limited(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		most := int64(maxForm)
		if r.URL.Path == "/photo" {
			most = maxPhoto
		}
		r.Body = http.MaxBytesReader(w, r.Body, most)
		next.ServeHTTP(w, r)
	})
}

// onlyHosts refuses names it was not told of: a page elsewhere that gives this machine
// another name would otherwise be let in.
func (s *Server) onlyHosts(next http.Handler) http.Handler {
	known := map[string]bool{}
	for _, h := range s.opt.Hosts {
		known[h] = true
	}
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if !known[r.Host] {
			http.Error(w, "this page is not served under that name", http.StatusMisdirectedRequest)
			return
		}
		next.ServeHTTP(w, r)
	})
}

// recorder opens the job as its files are now.
func (s *Server) recorder() (*catalog.Recorder, error) {
	return catalog.OpenRecorder(s.opt.Job, catalog.Options{Today: s.opt.Now(), Now: s.opt.Now})
}

// folder is the job's, in which photos lie.
func (s *Server) folder() string { return filepath.Dir(s.opt.Job) }

// sheets are the printable pages.
func (s *Server) sheets(ctx context.Context, p *plan.Plan) ([]*page.Page, *report.Papers, error) {
	papers, err := s.opt.Papers(ctx, p.Of, p)
	if err != nil {
		return nil, nil, err
	}
	return papers.Pages(), papers, nil
}
