package terminal

import (
	"fmt"
	"io"
	"sync"
)

// sink keeps the first error of writing and writes nothing after it, so that a
// lost terminal ends the next question and not each line shown before it.
// promptui writes from a goroutine while another reads keys.
type sink struct {
	w    io.Writer
	lock sync.Mutex
	lost error
}

func (s *sink) Write(p []byte) (int, error) {
	s.lock.Lock()
	defer s.lock.Unlock()
	if s.lost != nil {
		return 0, s.lost
	}
	n, err := s.w.Write(p)
	if err != nil {
		s.lost = fmt.Errorf("showing the job: %w", err)
	}
	return n, s.lost
}

func (s *sink) err() error {
	s.lock.Lock()
	defer s.lock.Unlock()
	return s.lost
}
