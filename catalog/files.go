package catalog

import (
	"embed"
	"fmt"
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
		l.include(l.shop)
		if s := l.shop.peek("shop"); s != nil {
			l.include(s)
		}
		last = append([]*document{shop}, last...)
	}
	if l.job != nil {
		l.include(l.job)
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
			return nil
		}
		name, _ = at.m["shop"].(string)
		complain = func(message, hint string) { at.wrong("shop", message, hint) }
	}
	if name == "" {
		return nil
	}
	l.state.Shop.File = job.beside(name)
	shop, _ := l.open(l.state.Shop.File, ShopTable, complain)
	return shop
}

// plainShop finds the line that names the shop's file.
var plainShop = regexp.MustCompile(`(?m)^[ \t]*shop[ \t]*=[ \t]*"([^"\\\n]+)"`)

func guessShop(src string) string {
	if m := plainShop.FindStringSubmatch(src); m != nil {
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
	if l.opened[full] {
		complain("this file is read already", "each file is read once; name another or leave this out")
		return nil, ""
	}
	l.opened[full] = true
	src, problem := readSource(path)
	if problem != nil {
		l.partial = true
		if problem.Line > 0 {
			problem.File = path
			l.list = append(l.list, ranked{d.rank, *problem})
		} else {
			complain(problem.Message, problem.Hint)
		}
		return nil, ""
	}
	if !l.decode(d, src) {
		l.partial = true
		return nil, src
	}
	return d, src
}

// include decodes the files a file includes, each before those that follow it.
func (l *loader) include(t *table) {
	for i, name := range t.texts("include") {
		if name == "" {
			continue
		}
		d, _ := l.open(t.doc.beside(name), Learned, func(message, hint string) { t.wrongItem("include", i, message, hint) })
		if d == nil {
			continue
		}
		sub := l.rootTable(d)
		l.include(sub)
		l.layers = append(l.layers, d)
		l.others = append(l.others, sub)
	}
}
