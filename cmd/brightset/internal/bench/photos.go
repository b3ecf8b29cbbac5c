package bench

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"net/http"
	"os"
	"path"
	"path/filepath"
	"strconv"
	"time"

	"brightset/catalog"
	"brightset/catalog/event"
	"brightset/cmd/brightset/internal/record"
	"brightset/cmd/brightset/internal/report/page"
)

// photoFolder is where photos taken at the bench go, within the folder of the file in which the
// piece stands: a piece of the shop's is shown at every job.
const photoFolder = "photos"

// photo serves a small copy of a piece's photo: only those that the piece names, and only
// from the folder of the file in which the piece stands. It is made once.
func (s *Server) photo(w http.ResponseWriter, r *http.Request) {
	d, err := s.recorder()
	if err != nil {
		http.Error(w, "the files have mistakes", http.StatusConflict)
		return
	}
	i, ok := d.State.FindPiece(r.FormValue("piece"))
	n, err := strconv.Atoi(r.FormValue("n"))
	if !ok || err != nil || n < 0 || n >= len(d.State.Pieces[i].Photos) {
		http.NotFound(w, r)
		return
	}
	p := &d.State.Pieces[i]
	side := thumbSide
	if r.FormValue("large") != "" {
		side = largeSide
	}
	small, mark, err := s.thumbs.of(r, d.State.PhotoFolder(p), filepath.FromSlash(p.Photos[n]), side)
	switch {
	case errors.Is(err, errBusy):
		busy(w)
		return
	case err != nil:
		http.NotFound(w, r)
		return
	}
	w.Header().Set("Cache-Control", "private, no-cache") // the browser asks, and is told in a word that it has it
	w.Header().Set("ETag", mark)
	w.Header().Set("Content-Type", "image/jpeg")
	http.ServeContent(w, r, "", time.Time{}, bytes.NewReader(small))
}

// incoming is the photo that a form brings, as it is kept: as it is shown, upright and without
// the tags that say where it was taken; nil where none came and none has to. Where ok is false
// the answer is given.
func (s *Server) incoming(w http.ResponseWriter, r *http.Request, needed bool) (small []byte, ok bool) {
	file, _, err := r.FormFile("photo")
	if errors.Is(err, http.ErrMissingFile) && !needed {
		return nil, true
	}
	if err != nil {
		s.fail(w, r, http.StatusBadRequest, fmt.Errorf("no photo came: %w", err))
		return nil, false
	}
	defer file.Close()
	data, err := io.ReadAll(file)
	if err != nil {
		s.fail(w, r, http.StatusRequestEntityTooLarge, fmt.Errorf("the photo is too large: %w", err))
		return nil, false
	}
	leave, ok := s.thumbs.gate.enter(r)
	if !ok {
		busy(w)
		return nil, false
	}
	defer leave()
	if small, err = page.Shrink(data, largeSide); err != nil {
		s.fail(w, r, http.StatusUnsupportedMediaType, err)
		return nil, false
	}
	return small, true
}

// takePhoto keeps a photo and writes it down for its piece.
func (s *Server) takePhoto(w http.ResponseWriter, r *http.Request) {
	small, ok := s.incoming(w, r, true)
	if !ok {
		return
	}
	s.writing.Lock()
	defer s.writing.Unlock()
	kept := ""
	id := requestID(r.URL.Path, r.PostForm, small...)
	_, seq, err := s.try(r, id, func(d *catalog.Recorder) (act catalog.Act, err error) {
		act, kept, err = s.photoAct(d, r.FormValue("piece"), small)
		return act, err
	})
	if err != nil && kept != "" {
		os.Remove(kept)
	}
	s.reply(w, r, seq, err)
}

// takePiece writes down a piece that no file names, with its photo where there is one.
func (s *Server) takePiece(w http.ResponseWriter, r *http.Request) {
	small, ok := s.incoming(w, r, false)
	if !ok {
		return
	}
	s.writing.Lock()
	defer s.writing.Unlock()
	f := facts(r.PostForm)
	what := event.New
	if r.PostForm.Get("action") == string(event.Bought) {
		what = event.Bought
	}
	id := requestID(r.URL.Path, r.PostForm, small...)
	d, seq, err := s.try(r, id, func(d *catalog.Recorder) (catalog.Act, error) {
		f.Target = newName(d.State, event.New, "")
		a, _ := record.Find(string(what))
		return a.Deed(d, f)
	})
	if d != nil && err == nil && small != nil {
		var act catalog.Act
		kept := ""
		if act, kept, err = s.photoAct(d, f.Target, small); err == nil {
			_, err = d.Record(act)
		}
		if seq = lastOf(d); err != nil {
			os.Remove(kept)
			err = fmt.Errorf("the piece is written down, its photo is not: %w", err)
		}
	}
	s.reply(w, r, seq, err)
}

// photoAct writes a photo to the disk, and gives the act that names it and the path.
func (s *Server) photoAct(d *catalog.Recorder, id string, data []byte) (act catalog.Act, kept string, err error) {
	i, ok := d.State.FindPiece(id)
	if !ok {
		return act, "", fmt.Errorf("no piece is called %q", id)
	}
	p := &d.State.Pieces[i]
	folder := d.State.PhotoFolder(p)
	root, err := os.OpenRoot(folder)
	if err != nil {
		return act, "", err
	}
	defer root.Close()
	if err := root.Mkdir(photoFolder, 0o777); err != nil && !os.IsExist(err) {
		return act, "", err
	}
	name, err := writeNew(root, data)
	if err != nil {
		return act, "", err
	}
	list := []any{}
	for _, n := range p.Photos {
		list = append(list, n)
	}
	return catalog.Act{Action: event.Photo, Sets: []catalog.Set{
		{Shop: p.InShop, Target: event.Of(event.TablePiece, p.ID), Key: event.KeyPhotos, Value: append(list, name)},
	}}, filepath.Join(folder, filepath.FromSlash(name)), nil
}

// writeNew writes a photo under a name that is free.
func writeNew(root *os.Root, data []byte) (string, error) {
	for n := 1; n < 100_000; n++ {
		name := path.Join(photoFolder, fmt.Sprintf("%04d.jpg", n))
		f, err := root.OpenFile(filepath.FromSlash(name), os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
		if os.IsExist(err) {
			continue
		}
		if err != nil {
			return "", err
		}
		_, err = f.Write(data)
		if err == nil {
			err = f.Sync()
		}
		if err2 := f.Close(); err == nil {
			err = err2
		}
		return name, err
	}
	return "", fmt.Errorf("there are too many photos in %s", photoFolder)
}
