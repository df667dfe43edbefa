package command

import (
	"context"
	"os"
	"os/signal"

	"faultwalk/cmd/internal/terminal"
)

// interrupts is Ctrl-C while long work is done and its outcome written: the work
// is given up at once, and what is being written is written to its last line.
type interrupts struct {
	came context.Context
	stop context.CancelFunc
}

func watchInterrupts() interrupts {
	came, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	return interrupts{came, stop}
}

// await does work and gives what it gives, or ErrInterrupted as soon as somebody
// presses Ctrl-C. Work that was given up goes on in the background until the
// program ends; its progress is shown no more.
func await[T any](i interrupts, p *progress, work func() (T, error)) (T, error) {
	type outcome struct {
		of  T
		err error
	}
	done := make(chan outcome, 1)
	go func() {
		of, err := work()
		done <- outcome{of, err}
	}()
	select {
	case o := <-done:
		p.wipe()
		return o.of, o.err
	case <-i.came.Done():
		p.wipe()
		var none T
		return none, terminal.ErrInterrupted
	}
}
