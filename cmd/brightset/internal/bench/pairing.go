package bench

import (
	"crypto/rand"
	"crypto/subtle"
	"encoding/hex"
	"net/http"
	"sync"
)

// pairing lets in who typed the code that stands on the terminal. A code works once, and
// not at all after a few wrong tries; then there is a new one.
type pairing struct {
	mu     sync.Mutex
	code   string
	wrong  int
	tokens map[string]bool
}

const (
	cookie   = "brightset-bench"
	mostMiss = 5
)

// NewCode gives eight digits from the machine's random source.
func NewCode() string {
	var b [8]byte
	rand.Read(b[:])
	for i := range b {
		b[i] = '0' + b[i]%10
	}
	return string(b[:])
}

// paired shows the form for the code to everybody who has not typed it.
func (s *Server) paired(next http.Handler) http.Handler {
	if s.opt.Code == "" {
		return next
	}
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		open := r.URL.Path == "/pair" || r.URL.Path == "/static/bench.css"
		if !open && !s.pairing.known(r) {
			if r.Method != http.MethodGet {
				http.Error(w, "not paired", http.StatusForbidden)
				return
			}
			http.Redirect(w, r, "/pair", http.StatusSeeOther)
			return
		}
		next.ServeHTTP(w, r)
	})
}

func (p *pairing) known(r *http.Request) bool {
	c, err := r.Cookie(cookie)
	if err != nil {
		return false
	}
	p.mu.Lock()
	defer p.mu.Unlock()
	return p.tokens[c.Value]
}

func (s *Server) pairPage(w http.ResponseWriter, r *http.Request) {
	s.show(w, http.StatusOK, "pair", map[string]any{"Wrong": r.URL.Query().Get("wrong") != ""})
}

func (s *Server) pair(w http.ResponseWriter, r *http.Request) {
	token, ok, fresh := s.pairing.try(r.FormValue("code"))
	if fresh != "" {
		s.opt.Tell("The code for the next device: %s", fresh)
	}
	if !ok {
		http.Redirect(w, r, "/pair?wrong=1", http.StatusSeeOther)
		return
	}
	http.SetCookie(w, &http.Cookie{Name: cookie, Value: token, Path: "/", HttpOnly: true, SameSite: http.SameSiteStrictMode})
	http.Redirect(w, r, "/", http.StatusSeeOther)
}

// try takes a code: a token where it is right. fresh is the code that takes its place,
// where it was used or tried too often.
func (p *pairing) try(code string) (token string, ok bool, fresh string) {
	p.mu.Lock()
	defer p.mu.Unlock()
	if p.code == "" || subtle.ConstantTimeCompare([]byte(code), []byte(p.code)) != 1 {
		if p.wrong++; p.wrong >= mostMiss {
			p.code, p.wrong = NewCode(), 0
			fresh = p.code
		}
		return "", false, fresh
	}
	var b [24]byte
	rand.Read(b[:])
	token = hex.EncodeToString(b[:])
	if p.tokens == nil {
		p.tokens = map[string]bool{}
	}
	p.tokens[token] = true
	p.code, p.wrong = NewCode(), 0
	return token, true, p.code
}
