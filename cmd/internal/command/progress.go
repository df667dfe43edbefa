package command

import (
	"fmt"
	"io"
	"os"
	"strings"
	"sync"

	"golang.org/x/term"
)

// progress counts on one line of a terminal what is being done, and wipes it at
// the end. Anywhere else nothing is shown.
type progress struct {
	doing string
	to    io.Writer // nil: shown nowhere
	lock  sync.Mutex
	shown int // columns of the line that stands there
	over  bool
}

func (w World) progress(doing string) *progress {
	f, ok := w.Err.(*os.File)
	if !ok || !term.IsTerminal(int(f.Fd())) || w.Env("TERM") == "dumb" {
		return &progress{doing: doing}
	}
	return &progress{doing: doing, to: f}
}

// count shows how much is done.
func (p *progress) count(done, total int) {
	p.lock.Lock()
	defer p.lock.Unlock()
	if p.to == nil || p.over || done == total {
		return
	}
	line := fmt.Sprintf("%s %d of %d", p.doing, done+1, total)
	fmt.Fprintf(p.to, "\r%-*s", p.shown, line)
	p.shown = max(p.shown, len(line))
}

// wipe takes the line away for good, with the ^C a terminal may have put there.
func (p *progress) wipe() {
	p.lock.Lock()
	defer p.lock.Unlock()
	if p.to != nil && !p.over && p.shown > 0 {
		fmt.Fprint(p.to, "\r"+strings.Repeat(" ", p.shown+len("^C"))+"\r")
	}
	p.over = true
}
