package bench

import (
	"crypto/rand"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"maps"
	"net/http"
	"net/url"
	"slices"
	"strconv"
	"strings"

	"brightset/catalog"
	"brightset/catalog/event"
	"brightset/catalog/journal"
)

// A form carries what its page showed: the revision of everything, that of the files alone, and
// how much was recorded. What was recorded since by others is in the way of an act only where
// both are about the same table; an edited file, or something taken back, is always.

// stampLength is of the two revisions within a stamp.
const stampLength = 16

// stamp is what a page shows, as its forms carry it.
func stamp(d *catalog.Recorder) string {
	return fmt.Sprintf("%s%s%x", d.State.Revision, d.State.Files, lastOf(d))
}

// lastOf is the number of what was recorded last; 0 where nothing was.
func lastOf(d *catalog.Recorder) int {
	log, err := d.Log()
	if err != nil || len(log) == 0 {
		return 0
	}
	return log[len(log)-1].Seq
}

// since is what was recorded after a page was shown: the tables it is about.
type since map[string]bool

// asShown opens the job for a form. Where others have recorded something since its page was shown,
// it says about what; where that can't be told apart the error is ErrChanged.
func (s *Server) asShown(r *http.Request) (*catalog.Recorder, since, error) {
	d, err := s.recorder()
	if err != nil {
		return nil, nil, err
	}
	base := r.FormValue("base")
	if base == stamp(d) {
		return d, nil, nil
	}
	if len(base) <= 2*stampLength || base[stampLength:2*stampLength] != d.State.Files {
		return d, nil, catalog.ErrChanged
	}
	seq, err := strconv.ParseInt(base[2*stampLength:], 16, 64)
	if err != nil {
		return d, nil, catalog.ErrChanged
	}
	log, err := d.Log()
	if err != nil {
		return d, nil, err
	}
	about := since{}
	for i := range log {
		e := &log[i]
		if int64(e.Seq) <= seq {
			continue
		}
		if e.Action.Turns() || e.Action == event.Keep {
			return d, nil, catalog.ErrChanged
		}
		about.add(d.State, e.ID)
	}
	return d, about, nil
}

// add notes what an entry is about, in both files.
func (a since) add(st *catalog.State, id string) {
	if st.Record == nil {
		return
	}
	for i := range st.Record.Entries {
		if e := &st.Record.Entries[i]; e.ID == id {
			for _, c := range e.Changes {
				a[tableOf(c.Target)] = true
			}
		}
	}
}

// tableOf names the table of a path that others can be in the way of: what is spent is only added to.
func tableOf(t event.Target) string {
	if len(t) < 2 {
		return strings.Join(t, " ")
	}
	return t[0] + " " + strings.TrimPrefix(strings.TrimPrefix(t[1], "shop:"), "job:")
}

// clash is ErrChanged where an act is about what others have been at since.
func (a since) clash(act *catalog.Act) error {
	for _, s := range act.Sets {
		if !s.Target.Is(event.TableSpent) && a[tableOf(s.Target)] {
			return catalog.ErrChanged
		}
	}
	return nil
}

// newToken is what a page's forms carry, so that a request that comes twice is known.
func newToken() string {
	var b [8]byte
	rand.Read(b[:])
	return hex.EncodeToString(b[:])
}

// requestID is the id of the entry that a request makes: of its token and all that it says, so that the
// forms of one page are told apart; "" without a token.
func requestID(path string, form url.Values, more ...byte) string {
	if form.Get("token") == "" {
		return ""
	}
	h := sha256.New()
	fmt.Fprintf(h, "%s\n", path)
	for _, name := range slices.Sorted(maps.Keys(form)) {
		if name != "back" && name != "base" {
			fmt.Fprintf(h, "%q %q\n", name, form[name])
		}
	}
	h.Write(more)
	return hex.EncodeToString(h.Sum(nil))[:stampLength]
}

// recorded is the entry that a request made before; nil where it made none.
func recorded(d *catalog.Recorder, id string) *journal.Entry {
	log, err := d.Log()
	if err != nil || id == "" {
		return nil
	}
	i := slices.IndexFunc(log, func(e journal.Entry) bool { return e.ID == id })
	if i < 0 {
		return nil
	}
	return &log[i]
}

// done sends the browser back to where a form stood, to be told there what was recorded.
func done(w http.ResponseWriter, r *http.Request, key string, seq int) {
	to, err := url.Parse(back(r.FormValue("back")))
	if err != nil {
		to = &url.URL{Path: "/"}
	}
	q := to.Query()
	q.Del("did")
	q.Del("undone")
	q.Set(key, strconv.Itoa(seq))
	to.RawQuery = q.Encode()
	http.Redirect(w, r, to.String(), http.StatusSeeOther)
}

// here is the address of a page without what it was told to say.
func here(r *http.Request) string {
	u := *r.URL
	q := u.Query()
	q.Del("did")
	q.Del("undone")
	u.RawQuery = q.Encode()
	return u.RequestURI()
}
