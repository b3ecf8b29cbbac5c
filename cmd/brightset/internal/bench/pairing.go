package bench

import (
	"crypto/rand"
	"crypto/subtle"
	"encoding/hex"
	"net"
	"net/http"
	"strings"
	"sync"
	"time"
)

// pairing knows who may use the page: a device that came by the terminal's own link, whose
// key no other user of this machine can read, and devices that typed the code that stands on
// the terminal. A code works once. Over all connections together one code a second is looked
// at, and after mostMiss wrong ones none is until somebody at the terminal says so.
type pairing struct {
	mu     sync.Mutex
	key    string // of the link; "": none is needed
	once   string // opens a single time; "": none, or it has
	code   string // "": no device is let in by a code
	wrong  int
	last   time.Time // when a code was last looked at
	tokens map[string]bool
}

const (
	mostMiss = 20
	between  = time.Second // from one code to the next
	letters  = "ABCDEFGHJKLMNPQRSTUVWXYZ23456789"
)

// NewCode gives twelve letters and digits from the machine's random source in three groups,
// without those that are mistaken for others: 60 bits.
func NewCode() string {
	var b [12]byte
	rand.Read(b[:])
	for i := range b {
		b[i] = letters[int(b[i])%len(letters)]
	}
	return string(b[:4]) + "-" + string(b[4:8]) + "-" + string(b[8:])
}

// NewKey gives the key of the terminal's link: 192 bits.
func NewKey() string {
	var b [24]byte
	rand.Read(b[:])
	return hex.EncodeToString(b[:])
}

// typed is a code as people type it, made the way it was given.
func typed(code string) string {
	var b strings.Builder
	for _, r := range strings.ToUpper(code) {
		if strings.ContainsRune(letters, r) {
			b.WriteRune(r)
		}
	}
	return b.String()
}

// cookieName is by the port, so that the pages of two jobs on one machine do not put each
// other's devices out.
func cookieName(r *http.Request) string {
	_, port, err := net.SplitHostPort(r.Host)
	if err != nil {
		port = "80"
	}
	return "brightset-bench-" + port
}

// paired lets in who is known, and shows others the way.
func (s *Server) paired(next http.Handler) http.Handler {
	if s.opt.Key == "" && s.opt.Code == "" {
		return next
	}
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		switch {
		case r.URL.Path == "/" && r.Method == http.MethodGet && s.pairing.opens(r.URL.Query().Get("key")):
			s.letIn(w, r)
		case r.URL.Path == "/static/bench.css" || s.pairing.known(r):
			next.ServeHTTP(w, r)
		case s.opt.Code != "" && r.URL.Path == "/pair":
			next.ServeHTTP(w, r)
		case r.Method != http.MethodGet && r.Method != http.MethodHead:
			http.Error(w, "not let in: open the link that stands in the terminal", http.StatusForbidden)
		case s.opt.Code != "":
			http.Redirect(w, r, "/pair", http.StatusSeeOther)
		default:
			s.show(w, http.StatusForbidden, "locked", nil)
		}
	})
}

func (p *pairing) known(r *http.Request) bool {
	c, err := r.Cookie(cookieName(r))
	if err != nil {
		return false
	}
	p.mu.Lock()
	defer p.mu.Unlock()
	return p.tokens[c.Value]
}

// opens says whether a key is that of the terminal's link, or the one that opens once and
// hasn't yet.
func (p *pairing) opens(key string) bool {
	same := func(of string) bool { return of != "" && subtle.ConstantTimeCompare([]byte(key), []byte(of)) == 1 }
	if same(p.key) {
		return true
	}
	p.mu.Lock()
	defer p.mu.Unlock()
	if !same(p.once) {
		return false
	}
	p.once = ""
	return true
}

// letIn gives a device a token of its own, unless it has one, and shows it the page, without
// the key in the address: an address is looked at, copied and kept.
func (s *Server) letIn(w http.ResponseWriter, r *http.Request) {
	if s.pairing.known(r) {
		http.Redirect(w, r, "/", http.StatusSeeOther)
		return
	}
	http.SetCookie(w, &http.Cookie{Name: cookieName(r), Value: s.pairing.token(), Path: "/", HttpOnly: true,
		SameSite: http.SameSiteStrictMode})
	http.Redirect(w, r, "/", http.StatusSeeOther)
}

func (p *pairing) token() string {
	token := NewKey()
	p.mu.Lock()
	defer p.mu.Unlock()
	if p.tokens == nil {
		p.tokens = map[string]bool{}
	}
	p.tokens[token] = true
	return token
}

func (s *Server) pairPage(w http.ResponseWriter, r *http.Request) {
	s.show(w, http.StatusOK, "pair", map[string]any{"Why": r.URL.Query().Get("why")})
}

func (s *Server) pair(w http.ResponseWriter, r *http.Request) {
	outcome, fresh := s.pairing.try(r.FormValue("code"), s.clock())
	switch outcome {
	case paired:
		s.opt.Tell("A device was let in. The code for the next one: %s", fresh)
		s.letIn(w, r)
		return
	case lastMiss:
		s.opt.Tell("%d wrong codes were typed: no device is let in any more. Press Enter here for a new code.", mostMiss)
	case tooSoon:
		w.Header().Set("Retry-After", "1")
	}
	http.Redirect(w, r, "/pair?why="+string(outcome), http.StatusSeeOther)
}

// outcome is what became of a code; the word is also what the page is told.
type outcome string

const (
	paired   outcome = "paired"
	wrong    outcome = "wrong"
	lastMiss outcome = "last"    // the one after which no code is looked at
	stopped  outcome = "stopped" // none is looked at
	tooSoon  outcome = "soon"    // not looked at: another was a moment ago
)

// try takes a code. fresh is the one that takes its place where it was right.
func (p *pairing) try(code string, now time.Time) (what outcome, fresh string) {
	p.mu.Lock()
	defer p.mu.Unlock()
	switch {
	case p.code == "" || p.wrong >= mostMiss:
		return stopped, ""
	case now.Sub(p.last) < between:
		return tooSoon, ""
	}
	p.last = now
	if subtle.ConstantTimeCompare([]byte(typed(code)), []byte(typed(p.code))) != 1 {
		if p.wrong++; p.wrong >= mostMiss {
			return lastMiss, ""
		}
		return wrong, ""
	}
	p.code, p.wrong = NewCode(), 0
	return paired, p.code
}

// LetTryAgain takes codes again after too many wrong ones, with a new code, which it gives; ""
// where codes are being looked at as it is.
func (s *Server) LetTryAgain() string {
	p := &s.pairing
	p.mu.Lock()
	defer p.mu.Unlock()
	if p.code == "" || p.wrong < mostMiss {
		return ""
	}
	p.code, p.wrong = NewCode(), 0
	return p.code
}
