package terminal

import (
	"errors"
	"io"
	"strings"
	"unicode/utf8"
)

// errEntered ends a prompt whose answer is complete.
var errEntered = errors.New("entered")

// The keys promptui is given, as control characters.
const (
	keyLeft  = 2
	keyRight = 6
	keyBack  = 8
	keyDown  = 14
	keyUp    = 16
)

// keys stands between the terminal and promptui. Only keys that promptui and
// readline handle well pass: Delete would end the prompt, Ctrl-Z would stop the
// parent process, Ctrl-R and Ctrl-S would search a history that is not there,
// and left and right crash a select that found nothing. Every ending (Enter,
// Ctrl-C, Ctrl-D, a lost terminal) reaches promptui as the end of its input, so
// that none of its goroutines still paints when Run has returned.
type keys struct {
	next    func() (byte, error)
	list    bool // a select: up and down; otherwise a prompt: left and right
	text    []rune
	place   int   // where in text the next character goes
	touched bool  // a key has passed
	end     error // why the input ended
	pass    []byte
}

// Read gives promptui the next keys. Its only error is io.EOF; the cause is in
// end.
func (k *keys) Read(p []byte) (int, error) {
	for len(k.pass) == 0 && k.end == nil {
		k.end = k.take()
	}
	if len(k.pass) == 0 {
		return 0, io.EOF
	}
	n := copy(p, k.pass)
	k.pass = k.pass[n:]
	return n, nil
}

// Close does nothing: the terminal outlives the prompt.
func (k *keys) Close() error { return nil }

// typed is the text as it stands.
func (k *keys) typed() string { return strings.TrimSpace(string(k.text)) }

// take reads one key and decides what becomes of it.
func (k *keys) take() error {
	b, err := k.next()
	switch {
	case err != nil:
		return err
	case b == '\n':
		return errEntered
	case b == 3: // Ctrl-C
		return ErrInterrupted
	case b == 4: // Ctrl-D; in the middle of a text it would be a slip
		if len(k.text) == 0 {
			return ErrEnd
		}
	case b == 0x1b:
		return k.escape()
	case b == 8 || b == 127:
		k.erase()
	case b == '\t':
		k.insert(' ')
	case b == keyLeft || b == keyRight || b == keyUp || b == keyDown:
		k.move(b)
	case b >= ' ':
		return k.character(b)
	}
	return nil
}

// escape reads what follows an Escape: an arrow passes, any other sequence is
// dropped whole. An Escape pressed on its own takes nothing with it.
func (k *keys) escape() error {
	b, err := k.next()
	if err != nil {
		return err
	}
	if b != '[' && b != 'O' {
		return k.again(b)
	}
	opened := b
	for {
		if b, err = k.next(); err != nil {
			return err
		}
		switch {
		case b >= '0' && b <= '9' || b == ';' || b == '?':
			continue
		case opened == 'O' && (b < 'A' || b > 'S' || b == 'L'): // "OL" typed behind an Escape
			k.insert('O')
			return k.again(b)
		case b < ' ' || b == 127:
			return k.again(b)
		}
		k.arrow(b)
		return nil
	}
}

// again takes a byte that turned out to be a key of its own.
func (k *keys) again(b byte) error {
	next := k.next
	k.next = func() (byte, error) {
		k.next = next
		return b, nil
	}
	return k.take()
}

func (k *keys) arrow(final byte) {
	switch final {
	case 'A':
		k.move(keyUp)
	case 'B':
		k.move(keyDown)
	case 'C':
		k.move(keyRight)
	case 'D':
		k.move(keyLeft)
	}
}

func (k *keys) move(key byte) {
	switch {
	case k.list && (key == keyUp || key == keyDown):
		if !k.touched {
			key = keyBack // erases nothing and paints: the first row is marked
		}
	case !k.list && key == keyLeft && k.place > 0:
		k.place--
	case !k.list && key == keyRight && k.place < len(k.text):
		k.place++
	default:
		return
	}
	k.send(key)
}

func (k *keys) erase() {
	if k.place == 0 {
		return
	}
	k.text = append(k.text[:k.place-1], k.text[k.place:]...)
	k.place--
	k.send(keyBack)
}

// character completes a character of one to four bytes and inserts it.
func (k *keys) character(b byte) error {
	whole := []byte{b}
	for !utf8.FullRune(whole) {
		next, err := k.next()
		if err != nil {
			return err
		}
		if utf8.RuneStart(next) {
			return k.again(next)
		}
		whole = append(whole, next)
	}
	if r, _ := utf8.DecodeRune(whole); r != utf8.RuneError && plain(string(r)) != "" {
		k.insert(r)
	}
	return nil
}

func (k *keys) insert(r rune) {
	if len(k.text) >= longestLine/utf8.UTFMax {
		return
	}
	k.text = append(k.text[:k.place], append([]rune{r}, k.text[k.place:]...)...)
	k.place++
	k.send([]byte(string(r))...)
}

func (k *keys) send(key ...byte) {
	k.touched = true
	k.pass = append(k.pass, key...)
}
