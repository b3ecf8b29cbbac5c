package catalog

import (
	"crypto/sha256"
	"maps"
	"time"
)

// looks are all that a state depends on outside of the program: what was seen, and how to look again.
type looks []look

type look struct {
	was   [sha256.Size]byte
	again func() string
}

// at looks at something for the first time.
func (all *looks) at(see func() string) string {
	now := see()
	all.saw(now, see)
	return now
}

// saw notes what was seen already.
func (all *looks) saw(was string, again func() string) {
	*all = append(*all, look{sha256.Sum256([]byte(was)), again})
}

// same says whether all of it looks as it did: by what stands there, since a file may be written twice within
// the tick of a clock, and be as long as it was.
func (all looks) same() bool {
	for i := range all {
		if sha256.Sum256([]byte(all[i].again())) != all[i].was {
			return false
		}
	}
	return true
}

// open gives a job's recorder: where all it depends on is as it was when it was opened last, with the state made
// then. Who comes meanwhile waits, and looks for himself.
func (k *Known) open(path string, opt Options) (*Recorder, error) {
	k.opening.Lock()
	defer k.opening.Unlock()
	if last := k.last; last != nil && last.path == path && opt.asWritten() && sameDay(last.opt.Today, opt.Today) &&
		last.l.looks.same() {
		return last.shared(opt), nil
	}
	d, err := openAnyway(path, opt)
	if err != nil {
		return nil, err
	}
	k.last = d.remembered()
	return d, nil
}

// opened keeps a recorder whose state has just been made.
func (k *Known) opened(d *Recorder) {
	if k != nil {
		k.opening.Lock()
		defer k.opening.Unlock()
		k.last = d.remembered()
	}
}

// remembered is what is kept of a recorder; nil where it looks at a job otherwise than it stands on the disk.
func (d *Recorder) remembered() *Recorder {
	if !d.opt.asWritten() {
		return nil
	}
	return d.shared(d.opt)
}

// asWritten says that a job is read as it stands on the disk, with all that was recorded.
func (opt *Options) asWritten() bool {
	return !opt.NothingRecorded && opt.Include == nil && opt.Yet == nil
}

func sameDay(a, b time.Time) bool {
	return a.IsZero() == b.IsZero() && a.Format(time.DateOnly) == b.Format(time.DateOnly)
}

// shared is a recorder of its own for the same state, which none of them changes: what one records gives it
// another state.
func (d *Recorder) shared(opt Options) *Recorder {
	own, l := *d, *d.l
	l.ours = maps.Clone(l.ours)
	own.opt, own.l = opt, &l
	if own.opt.Now == nil {
		own.opt.Now = time.Now
	}
	return &own
}
