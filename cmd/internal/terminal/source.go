package terminal

import (
	"fmt"
	"io"
	"os"
	"strings"
)

// longestLine is the most bytes one answer may have, as in a terminal's own
// line editing (N_TTY_BUF_SIZE, 4096).
const longestLine = 4096

// source hands out what is typed, byte by byte, and lets go of a wait when the
// process is told to stop. All questions share it, so what was pasted behind an
// answer is there for the next; on a terminal it asks for one byte at a time, so
// that what is pasted behind the last is left to the shell. Line ends of any
// kind come out as '\n'.
type source struct {
	lines, keys           io.Reader // the same terminal, cooked and raw
	lineSize, keySize     int       // bytes asked for at once
	got                   chan piece
	waiting, afterCR, any bool
	rest                  []byte
}

type piece struct {
	bytes []byte
	err   error
}

func newSource(r io.Reader, size int) *source {
	return &source{lines: r, lineSize: size, got: make(chan piece, 1)}
}

// line gives the next line without its end. A last line without an end counts.
func (s *source) line(stop <-chan os.Signal) (string, error) {
	var typed []byte
	for {
		b, err := s.next(s.lines, s.lineSize, stop)
		switch {
		case err == ErrEnd && len(typed) > 0, err == nil && b == '\n':
			return s.text(typed), nil
		case err != nil:
			return "", err
		case len(typed) <= longestLine:
			typed = append(typed, b)
		}
	}
}

// text is what was typed as words that can be shown again. Only a byte order
// mark at the very beginning is taken for one.
func (s *source) text(typed []byte) string {
	words := strings.ToValidUTF8(string(typed), "\uFFFD")
	if !s.any {
		words = strings.TrimPrefix(words, "\uFEFF")
	}
	s.any = true
	return strings.TrimSpace(plain(words))
}

// key gives the next byte of a terminal in raw mode.
func (s *source) key(stop <-chan os.Signal) (byte, error) {
	return s.next(s.keys, s.keySize, stop)
}

func (s *source) next(r io.Reader, size int, stop <-chan os.Signal) (byte, error) {
	for {
		for len(s.rest) == 0 {
			if err := s.fill(r, size, stop); err != nil {
				return 0, err
			}
		}
		b := s.rest[0]
		s.rest = s.rest[1:]
		skip := b == '\n' && s.afterCR
		s.afterCR = b == '\r'
		switch {
		case skip:
		case b == '\r':
			return '\n', nil
		default:
			return b, nil
		}
	}
}

// fill waits for more. A read that was given up is still under way: what it
// brings is the beginning of the next answer.
func (s *source) fill(r io.Reader, size int, stop <-chan os.Signal) error {
	if !s.waiting {
		s.waiting = true
		go func() { s.got <- fetch(r, size) }()
	}
	select {
	case <-stop:
		return ErrInterrupted
	case p := <-s.got:
		s.waiting = false
		s.rest = p.bytes
		return p.err
	}
}

// fetch reads once; an error that came with bytes will come again without.
func fetch(r io.Reader, size int) piece {
	buf := make([]byte, size)
	for range 100 {
		n, err := r.Read(buf)
		switch {
		case n > 0:
			return piece{bytes: buf[:n]}
		case err == io.EOF:
			return piece{err: ErrEnd}
		case err != nil:
			return piece{err: fmt.Errorf("reading the answer: %w", err)}
		}
	}
	return piece{err: fmt.Errorf("reading the answer: %w", io.ErrNoProgress)}
}
