package catalog

import (
	"embed"
	"fmt"
	"maps"
	"path/filepath"
	"regexp"
	"slices"
	"sync"
)

//go:embed tables/*.toml
var embedded embed.FS

// builtIn are the files of starting values, in the order they are laid.
var builtIn = []string{"defaults", "words", "metals", "works", "defects", "targets"}

// startingLayers decodes the starting values, once: they never change.
var startingLayers = sync.OnceValue(func() []*document {
	l := newLoader(Options{})
	for i, name := range builtIn {
		file := "tables/" + name + ".toml"
		src, err := embedded.ReadFile(file)
		d := &document{file: file, source: StartingValue, rank: 1_000_000 + i}
		if err != nil || !l.decode(d, string(src)) {
			panic(fmt.Sprintf("the built-in %s is broken: %v %v", file, err, l.mistakes()))
		}
		l.layers = append(l.layers, d)
	}
	return l.layers
})

// openFiles decodes all files of a job. The order of the layers is built-in,
// included, the shop's, the job's.
func (l *loader) openFiles(path string) {
	l.layers = slices.Clone(startingLayers())
	var last []*document
	l.state.Job.File = path
	job, src := l.open(path, JobFile, nil)
	shopName := ""
	if job != nil {
		l.job = l.rootTable(job)
		last = append(last, job)
	} else {
		shopName = guessShop(src)
		job = &document{file: path, dir: filepath.Dir(path)}
	}
	shop := l.openShop(job, shopName)
	if shop != nil {
		l.shop = l.rootTable(shop)
		l.include(l.shop, false)
		if s := l.shop.peek("shop"); s != nil {
			l.include(s, false)
		}
		last = append([]*document{shop}, last...)
	}
	if l.job != nil {
		l.include(l.job, true)
		l.includeMore()
	}
	l.layers = append(l.layers, last...)
}

// openShop decodes the shop's file that the job names, or, where the job's file
// can't be read, the one it seems to name.
func (l *loader) openShop(job *document, guessed string) *document {
	name := guessed
	var complain func(message, hint string)
	if l.job != nil {
		at := l.job.peek("job")
		if at == nil {
			return nil // readJob reports it
		}
		name = at.shopName()
		complain = func(message, hint string) { at.wrong("shop", message, hint) }
	}
	if name == "" {
		return nil
	}
	l.state.Shop.File = job.beside(name)
	shop, _ := l.open(l.state.Shop.File, ShopTable, complain)
	return shop
}

// shopName reads which file is the shop's; "" where there is none, or where what is
// written can't be its name, which is reported here: nobody else would.
func (t *table) shopName() string {
	before := len(t.l.list)
	name := t.exactly("shop")
	if v, there := t.m["shop"]; there && v == "" {
		t.wrong("shop", "the name of the shop's file is empty", `write shop = "shop.toml", or leave the key out`)
	}
	if len(t.l.list) > before {
		t.l.partial = true
	}
	return name
}

// plainShop finds the line that names the shop's file.
var plainShop = regexp.MustCompile(`(?m)^[ \t]*shop[ \t]*=[ \t]*"([^"\\\n]+)"`)

func guessShop(src string) string {
	if m := plainShop.FindStringSubmatch(src); m != nil && exact.without(m[1]) == m[1] {
		return m[1]
	}
	return ""
}

// peek reads a table below this one without reporting anything.
func (t *table) peek(key string) *table {
	if m, ok := t.m[key].(map[string]any); ok {
		return &table{l: t.l, doc: t.doc, path: t.pathOf(key), what: key, id: key, m: m, source: t.source}
	}
	return nil
}

// open reads and decodes one file. Where it can't be read at all, the mistake
// goes to complain, which knows where the file is named; without it, to the
// file itself. The source comes back even if it can't be decoded.
func (l *loader) open(path string, source Source, complain func(message, hint string)) (*document, string) {
	d := &document{file: path, source: source, rank: len(l.opened)}
	l.ranks[path] = d.rank
	if complain == nil {
		complain = func(message, hint string) { l.mistake(d, span{}, message, hint) }
	} else {
		inFile := complain
		complain = func(message, hint string) { inFile(fmt.Sprintf("%q: %s", path, message), hint) }
	}
	full, err := filepath.Abs(path)
	if err != nil {
		full = path
	}
	if l.isOpened(full) {
		l.partial = true // another one was meant
		complain("this file is read already", "each file is read once; name another or leave this out")
		return nil, ""
	}
	l.opened[full] = true
	if l.full {
		return nil, "" // reported
	}
	src, problem := l.read(path)
	if problem != nil {
		l.partial = true
		if problem.Line > 0 {
			problem.File = path
			l.list = append(l.list, ranked{d.rank, *problem})
		} else {
			complain(problem.Message, foreign(path, problem.Hint))
		}
		return nil, ""
	}
	if !l.room(len(src)) {
		l.tooMuch(func() { complain(tooLargeTogether, makeRoom) })
		return nil, ""
	}
	l.looks.saw(src, func() string {
		src, problem := l.read(path)
		if problem != nil {
			return problem.Message
		}
		return src
	})
	l.seen(path, []byte(src))
	if !l.decode(d, src) {
		l.partial = true
		return nil, src
	}
	return d, src
}

// include decodes the files a file includes, each before those that follow it.
// Those of the job's file may hold pieces.
func (l *loader) include(t *table, ofJob bool) {
	for i, name := range t.texts("include") {
		if name == "" { // reported as it was read
			l.partial = true
			continue
		}
		path := l.opt.instead(t.doc.beside(name))
		d, _ := l.open(path, Learned, func(message, hint string) { t.wrongItem("include", i, message, hint) })
		if d == nil {
			continue
		}
		l.included(d, ofJob)
	}
}

// included takes a file that was included in.
func (l *loader) included(d *document, ofJob bool) {
	if _, has := d.root["piece"]; has && ofJob {
		d.source = JobFile
	}
	sub := l.rootTable(d)
	l.include(sub, ofJob)
	if ofJob {
		l.parts = append(l.parts, sub)
	}
	l.layers = append(l.layers, d)
	l.others = append(l.others, sub)
}

// includeMore reads the files of Options.Include that the job doesn't include.
func (l *loader) includeMore() {
	for _, path := range slices.Sorted(maps.Values(l.opt.Include)) {
		full, err := filepath.Abs(path)
		if err != nil || l.isOpened(full) {
			continue
		}
		if d, _ := l.open(path, Learned, nil); d != nil {
			l.included(d, true)
		}
	}
}

// Includes gives the list include of a job's file as it stands there; nothing
// if the file can't be read.
func Includes(job string) []string {
	l := newLoader(Options{})
	d, _ := l.open(job, JobFile, nil)
	if d == nil {
		return nil
	}
	return l.rootTable(d).texts("include")
}

// tooMuch ends the reading of files: what is too much is said once.
func (l *loader) tooMuch(say func()) {
	if l.partial = true; !l.full {
		l.full = true
		say()
	}
}

// room says whether the files of the job may be larger by so many bytes.
func (l *loader) room(bytes int) bool {
	l.size += int64(bytes)
	return l.size <= maxAllSize
}

var tooLargeTogether = fmt.Sprintf("with it the files of this job are larger than %d MiB together", maxAllSize>>20)

const makeRoom = "check that these are the right files; include less, and keep photos and notes beside them"
