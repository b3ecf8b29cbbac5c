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
	small, mark, err := s.thumbs.of(r, d.State.PhotoFolder(p), filepath.FromSlash(p.Photos[n]))
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
	if small, err = page.Shrink(data, 2000); err != nil {
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
	d, err := s.asShown(r)
	if err == nil {
		err = s.keepPhoto(d, r.FormValue("piece"), small)
	}
	if err != nil {
		s.refuse(w, r, err)
		return
	}
	http.Redirect(w, r, back(r.FormValue("back")), http.StatusSeeOther)
}

// takePiece writes down a piece that no file names, with its photo where there is one.
func (s *Server) takePiece(w http.ResponseWriter, r *http.Request) {
	small, ok := s.incoming(w, r, false)
	if !ok {
		return
	}
	s.writing.Lock()
	defer s.writing.Unlock()
	d, err := s.asShown(r)
	if err != nil {
		s.refuse(w, r, err)
		return
	}
	f := facts(r.PostForm)
	f.Target = newName(d.State, event.New, "")
	a, _ := record.Find(string(event.New))
	deed, err := a.Deed(d, f)
	if err == nil {
		_, err = d.Record(deed)
	}
	if err == nil && small != nil {
		if d, err = s.recorder(); err == nil {
			err = s.keepPhoto(d, f.Target, small)
		}
		if err != nil {
			err = fmt.Errorf("the piece is written down, its photo is not: %w", err)
		}
	}
	if err != nil {
		s.refuse(w, r, err)
		return
	}
	http.Redirect(w, r, back(r.FormValue("back")), http.StatusSeeOther)
}

func (s *Server) keepPhoto(d *catalog.Recorder, id string, data []byte) error {
	i, ok := d.State.FindPiece(id)
	if !ok {
		return fmt.Errorf("no piece is called %q", id)
	}
	p := &d.State.Pieces[i]
	root, err := os.OpenRoot(d.State.PhotoFolder(p))
	if err != nil {
		return err
	}
	defer root.Close()
	if err := root.Mkdir(photoFolder, 0o777); err != nil && !os.IsExist(err) {
		return err
	}
	name, err := writeNew(root, data)
	if err != nil {
		return err
	}
	list := []any{}
	for _, n := range p.Photos {
		list = append(list, n)
	}
	_, err = d.Record(catalog.Act{Action: event.Photo, Sets: []catalog.Set{
		{Shop: p.InShop, Target: event.Of(event.TablePiece, p.ID), Key: event.KeyPhotos, Value: append(list, name)},
	}})
	if err != nil {
		root.Remove(filepath.FromSlash(name))
	}
	return err
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
