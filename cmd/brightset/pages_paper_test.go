package main

import (
	"bytes"
	"context"
	"encoding/xml"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"brightset/testdata/campaign"

	"github.com/chromedp/chromedp"
)

// awkward are names that would do harm or run over where a page doesn't see to it: long
// words, other directions of writing, line ends and tabs, quotes, and what looks like HTML.
var awkward = []string{
	strings.Repeat("unbroken", 16), "חישוק פנס שמאלי", "مقبض الباب", "two\\nlines", "a\\ttab", `\"quoted\" 'twice'`,
	"<b>bold</b> & <script>alert(1)</script>", "</table></main>", "{{.}} ${x} %s", "left headlamp rim, the thin one",
	"é̂̃̄ stacked", "12.345,67",
}

// awkwardJob writes a random job of so many slots, whose pieces all go to one plater, with
// names out of awkward, no photos, and all there is to say about each piece.
func awkwardJob(seed uint64, slots int) string {
	r := rand.New(rand.NewPCG(seed, 23))
	name := func(n int) string { return fmt.Sprintf("%s %d", awkward[r.IntN(len(awkward))], n) }
	var b strings.Builder
	fmt.Fprintf(&b, "[job]\ntitle = \"%s\"\nstart = 2031-01-01\ntarget = \"nice\"\nwithin_days = 200\n", name(0))
	fmt.Fprintf(&b, "[quote]\nfor = \"%s\"\nby = \"%s\"\nplating = 0.15\ntax = 0.07\ndeposit = 0.4\n", name(0), name(1))
	fmt.Fprintf(&b, "[plater.p]\nname = \"%s\"\nminimum = \"90.00\"\nfreight = \"10.00\"\ndays = 30\nhourly = \"50.00\"\n",
		name(0))
	b.WriteString("[plater.p.level.show]\nrate = {other = \"41.37\"}\ngrade = {other = 95}\n")
	for i := range slots {
		fmt.Fprintf(&b, "[slot.s%d]\nname = \"%s\"\narea = \"%d.5 dm2\"\nservice = \"severe\"\nquantity = %d\n", i, name(i),
			1+r.IntN(40), 1+r.IntN(12)/11)
		fmt.Fprintf(&b, "[piece.p%d]\nname = \"%s\"\ntag = \"T%d\"\nfits = [\"s%d\"]\nkind = \"original\"\nquantity = 2\n", i,
			name(i), 1000+i, i)
		fmt.Fprintf(&b, "metal = \"%s\"\nfitted = %t\n", []string{"brass", "steel"}[r.IntN(2)], r.IntN(5) > 0 || i == 0)
		fmt.Fprintf(&b, "marks = \"%s\"\nprotect = \"%s\"\nhardware = [\"%s\"]\n", name(i), name(i),
			strings.NewReplacer(`\n`, " ", `\t`, " ").Replace(name(i)))
		for k, defect := range []string{"pits", "scratches", "dent"}[:1+r.IntN(3)] {
			fmt.Fprintf(&b, "[piece.p%d.finding.f%d]\ndefect = \"%s\"\n", i, k, defect)
		}
	}
	return b.String()
}

// TestPaperOfAwkwardJobs prints every sheet of ten random jobs, on A4 or on letter, and those of
// one with 40 pieces for one plater on both, and reads the print back: numbered pages, repeated
// heads, nothing beside the paper, no tag and no sum missing or taken apart, and no colour.
func TestPaperOfAwkwardJobs(t *testing.T) {
	needBrowser(t)
	opts := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.NoSandbox, chromedp.ExecPath("chromium"))
	alloc, stop := chromedp.NewExecAllocator(context.Background(), opts...)
	defer stop()
	ctx, cancel := chromedp.NewContext(alloc)
	defer cancel()
	ctx, end := context.WithTimeout(ctx, 10*time.Minute)
	defer end()
	printer := &printer{t, ctx, t.TempDir()}
	for seed := range uint64(campaign.Cases(2, 10)) {
		slots := 1 + int(seed)*2
		if seed == 0 {
			slots = 40
		}
		dir := t.TempDir()
		job := filepath.Join(dir, "job.toml")
		writeTo(t, job, awkwardJob(seed, slots))
		out := filepath.Join(dir, "o")
		code, _, errs := brightset("orders", job, "--out", out, "--spec", "--time-limit", "20s")
		if code != exitAnswered && code != exitUnproven {
			t.Fatal(code, errs)
		}
		files, err := os.ReadDir(out)
		if err != nil || len(files) < 5 {
			t.Fatal(len(files), err)
		}
		for _, f := range files {
			path := filepath.Join(out, f.Name())
			if printer.check(path, paperSizes[seed%2]); seed == 0 {
				printer.check(path, paperSizes[1])
			}
		}
	}
}

type paperSize struct {
	name  string
	paper chromedp.PaperSize
}

var paperSizes = [2]paperSize{{"A4", chromedp.PaperA4}, {"letter", chromedp.PaperLetter}}

// printer prints pages in one browser.
type printer struct {
	*testing.T
	ctx context.Context
	dir string
}

// word is a word on a page of paper and where it stands, in points.
type word struct {
	Left   float64 `xml:"xMin,attr"`
	Top    float64 `xml:"yMin,attr"`
	Right  float64 `xml:"xMax,attr"`
	Bottom float64 `xml:"yMax,attr"`
	Text   string  `xml:",chardata"`
}

// printedLeaf is one page of paper as it was printed.
type printedLeaf struct {
	Width  float64 `xml:"width,attr"`
	Height float64 `xml:"height,attr"`
	Words  []word  `xml:"word"`
}

// check prints a page on a size of paper and reads it.
func (p *printer) check(path string, size paperSize) {
	p.Helper()
	text, err := os.ReadFile(path)
	if err != nil {
		p.Fatal(err)
	}
	pdf := p.print(path, size.paper)
	called := fmt.Sprintf("%s on %s", filepath.Base(path), size.name)
	p.sheets(called, string(text), p.read(pdf))
	p.blackAndWhite(called, pdf)
}

// print gives the file that a page is printed to. Cards keep their own size.
func (p *printer) print(path string, size chromedp.PaperSize) string {
	p.Helper()
	if _, err := chromedp.Run(p.ctx, chromedp.Navigate("file://"+path)); err != nil {
		p.Fatal(err)
	}
	data, err := chromedp.Run(p.ctx, chromedp.PrintToPDF(chromedp.PDFPaper(size), chromedp.PDFPreferCSSPageSize()))
	if err != nil {
		p.Fatal(err)
	}
	pdf := filepath.Join(p.dir, "page.pdf")
	if err := os.WriteFile(pdf, data, 0o600); err != nil {
		p.Fatal(err)
	}
	return pdf
}

// read gives the words of every page of paper.
func (p *printer) read(pdf string) []printedLeaf {
	p.Helper()
	out, err := exec.Command("pdftotext", "-bbox", pdf, "-").Output()
	if err != nil {
		p.Fatal(err)
	}
	var doc struct {
		Sheets []printedLeaf `xml:"body>doc>page"`
	}
	d := xml.NewDecoder(bytes.NewReader(out))
	d.Strict = false
	d.Entity = xml.HTMLEntity
	if err := d.Decode(&doc); err != nil || len(doc.Sheets) == 0 {
		p.Fatal(len(doc.Sheets), err)
	}
	return doc.Sheets
}

var (
	sumCell = regexp.MustCompile(`<td class="num"><bdi>([0-9.,]+)`)
	tagCell = regexp.MustCompile(`<td class="tight"><bdi>(T[0-9]+)`)
	headRow = regexp.MustCompile(`<th scope="col"[^>]*>([^<]+)</th>`)
)

func (p *printer) sheets(called, html string, sheets []printedLeaf) {
	p.Helper()
	var all []string
	for n, s := range sheets {
		var words []string
		for _, w := range s.Words {
			words = append(words, w.Text)
			if w.Left < 0 || w.Top < 0 || w.Right > s.Width+0.5 || w.Bottom > s.Height+0.5 {
				p.Errorf("%s: %q stands at %.0f to %.0f, %.0f to %.0f of %.0f by %.0f", called, w.Text, w.Left, w.Right, w.Top,
					w.Bottom, s.Width, s.Height)
			}
		}
		line := strings.Join(words, " ")
		if !strings.Contains(line, fmt.Sprintf("page %d of %d", n+1, len(sheets))) {
			p.Errorf("%s: page %d of %d is not numbered: %s", called, n+1, len(sheets), line)
		}
		head := headRow.FindStringSubmatch(html)
		rows := slices.ContainsFunc(words, func(w string) bool { return strings.HasPrefix(w, "T1") && len(w) == 5 })
		if rows && strings.Contains(called, "plater") && !slices.Contains(words, head[1]) {
			p.Errorf("%s: page %d has rows and no head: %s", called, n+1, line)
		}
		all = append(all, words...)
	}
	for _, cells := range [][][]string{sumCell.FindAllStringSubmatch(html, -1), tagCell.FindAllStringSubmatch(html, -1)} {
		for _, cell := range cells {
			if !slices.Contains(all, cell[1]) {
				p.Errorf("%s: %q is cut off or taken apart", called, cell[1])
			}
		}
	}
}

// blackAndWhite draws every page small and looks for a colour.
func (p *printer) blackAndWhite(called, pdf string) {
	p.Helper()
	out, err := exec.Command("pdftoppm", "-r", "20", pdf).Output()
	if err != nil {
		p.Fatal(err)
	}
	for len(out) > 0 {
		var width, height, most, n int
		if _, err := fmt.Fscanf(bytes.NewReader(out), "P6\n%d %d\n%d\n", &width, &height, &most); err != nil {
			p.Fatal(err)
		}
		n = len(fmt.Sprintf("P6\n%d %d\n%d\n", width, height, most))
		for pixels := out[n : n+3*width*height]; len(pixels) > 0; pixels = pixels[3:] {
			if pixels[0] != pixels[1] || pixels[1] != pixels[2] {
				p.Errorf("%s is coloured: %v", called, pixels[:3])
				return
			}
		}
		out = out[n+3*width*height:]
	}
}
