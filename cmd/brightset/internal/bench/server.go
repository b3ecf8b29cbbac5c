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
	"slices"
	"sync"
	"time"

	"brightset/catalog"
	"brightset/cmd/brightset/internal/report"
	"brightset/model/plan"
)

//go:embed static
var static embed.FS

// Options are what the page is served with. The zero value does not work: Job and Papers
// are needed.
type Options struct {
	Job   string // path of the job's file
	Now   func() time.Time
	Hosts func() []string // host:port by which the page may be asked for now, and by no other name
	Key   string          // of the terminal's link; "": none is needed
	Once  string          // opens a single time: the link that a browser is started with is seen by all users
	Code  string          // lets other devices in; "": none is let in
	Stop  func()          // ends the program; nil: the page can't
	// Papers are the sheets of a plan; with all that stands on them, which takes its time
	Papers func(ctx context.Context, st *catalog.State, p *plan.Plan, whole bool) (*report.Papers, error)
	// Together is the plan of several jobs of one shop in words
	Together func(ctx context.Context, jobs []*catalog.State) (string, error)
	Tell     func(format string, args ...any) // says on the terminal what the user should know
}

// Server serves one job.
type Server struct {
	opt     Options
	mux     *http.ServeMux
	known   catalog.Known
	writing sync.Mutex // one record at a time
	noted   noted      // what is worth knowing of single entries
	answers answers
	pairing pairing
	thumbs  thumbs
	clock   func() time.Time // of codes; tests set it forward
	glance  time.Duration    // how long a page waits for the plan
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
	s := &Server{opt: opt, mux: http.NewServeMux(), clock: time.Now, glance: glance,
		pairing: pairing{key: opt.Key, once: opt.Once, code: opt.Code}}
	files, err := fs.Sub(static, "static")
	if err != nil {
		panic(err)
	}
	s.thumbs.gate = newGate(mostPhotos, mostQueued, queueTime)
	work := newGate(mostAnswers, mostWaiting, queueTime)
	waiting := newGate(mostWaiting, 0, queueTime)
	s.mux.Handle("GET /static/", http.StripPrefix("/static/", noListings(http.FileServerFS(files))))
	for path, page := range map[string]http.HandlerFunc{"/{$}": s.slotPage, "/new": s.newPage, "/plan": s.planPage,
		"/what-if": s.whatIfPage, "/papers": s.papersPage, "/journal": s.journalPage,
		"/position": s.positionPage, "/lots": s.lotsPage,
		"/photos": s.photosPage, "/hunt": s.huntPage, "/risk": s.riskPage, "/learn": s.learnPage, "/jobs": s.jobsPage,
		"/other": s.otherPage, "/shop": s.shopPage} {
		s.mux.HandleFunc("GET "+path, work.through(page))
	}
	// these wait for each other within answers
	for path, part := range map[string]http.HandlerFunc{"/ready": s.ready, "/paper/{name}": s.paper,
		"/why": s.whyPart, "/others": s.othersPart, "/clash": s.clashPart,
		"/hunt.part": s.huntPart, "/jobs.part": s.jobsPart, "/risk.part": s.riskPart,
		"/turns": s.turnsPart, "/curve": s.curvePart,
		"/stops": s.stopsPart, "/costs.json": s.costsJSON, "/locks.json": s.locksJSON,
		"/what-if.json": s.whatIfJSON, "/edge.json": s.edgeJSON} {
		s.mux.HandleFunc("GET "+path, waiting.through(part))
	}
	s.mux.HandleFunc("GET /photo", s.photo)
	s.mux.HandleFunc("GET /start", s.startPage)
	s.mux.HandleFunc("POST /start", s.start)
	s.mux.HandleFunc("POST /piece", s.takePiece)
	s.mux.HandleFunc("POST /import", s.importTable)
	s.mux.HandleFunc("GET /export/{table}", s.exportTable)
	s.mux.HandleFunc("POST /do", s.do)
	s.mux.HandleFunc("POST /turn", s.turn)
	s.mux.HandleFunc("POST /photo", s.takePhoto)
	s.mux.HandleFunc("GET /stop", s.stopPage)
	s.mux.HandleFunc("POST /stop", s.stop)
	s.mux.HandleFunc("GET /pair", s.pairPage)
	s.mux.HandleFunc("POST /pair", s.pair)
	return s
}

// Handler is the server behind everything that keeps strangers out: only the hosts it
// was told of, no request that another site caused, nobody who was not let in, and no
// more than a form's worth of bytes.
func (s *Server) Handler() http.Handler {
	cross := http.NewCrossOriginProtection()
	return headers(limited(shortQueries(s.onlyHosts(noForeign(cross.Handler(s.paired(s.mux)))))))
}

// policy allows the page's own files and nothing else, and nowhere to send a form but
// back.
const policy = "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; connect-src 'self'; " +
	"form-action 'self'; frame-ancestors 'none'; base-uri 'none'"

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
		if r.URL.Path == "/photo" || r.URL.Path == "/piece" || r.URL.Path == "/import" {
			most = maxPhoto
		}
		r.Body = http.MaxBytesReader(w, r.Body, most)
		next.ServeHTTP(w, r)
	})
}

// onlyHosts refuses names it was not told of: a page elsewhere that gives this machine
// another name would otherwise be let in.
func (s *Server) onlyHosts(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if !slices.Contains(s.opt.Hosts(), r.Host) {
			http.Error(w, "this page is not served under that name", http.StatusMisdirectedRequest)
			return
		}
		next.ServeHTTP(w, r)
	})
}

// recorder opens the job as its files are now. Its state is shared with other requests: nobody changes it.
func (s *Server) recorder() (*catalog.Recorder, error) {
	return catalog.OpenRecorder(s.opt.Job, catalog.Options{Today: s.opt.Now(), Now: s.opt.Now, Known: &s.known})
}
