package bench

import (
	"net"
	"net/http"
)

// stopPage asks whether the bench shall stop.
func (s *Server) stopPage(w http.ResponseWriter, r *http.Request) {
	s.show(w, http.StatusOK, "stop", map[string]any{"Here": atThisComputer(r)})
}

// stop ends the program, for who sits at its computer: a tablet that is put down must not take
// the bench away from others.
func (s *Server) stop(w http.ResponseWriter, r *http.Request) {
	if s.opt.Stop == nil || !atThisComputer(r) {
		http.Error(w, "the bench is stopped at the computer on which it runs", http.StatusForbidden)
		return
	}
	s.show(w, http.StatusOK, "stopped", nil)
	s.opt.Stop()
}

// atThisComputer says whether a request comes from the machine that serves it.
func atThisComputer(r *http.Request) bool {
	host, _, err := net.SplitHostPort(r.RemoteAddr)
	if err != nil {
		return false
	}
	ip := net.ParseIP(host)
	return ip != nil && ip.IsLoopback()
}
