package terminal

import "strings"

// readLine shows the prompt and gives the next line that is no remark. A remark
// begins with "#" and is shown as it is. From a pipe or a file the line is shown
// behind its prompt, so that what comes out reads like a session.
func (f *Face) readLine(prompt string) (string, error) {
	stop, done := f.stops()
	defer done()
	for {
		if !f.ahead {
			f.write(prompt)
		}
		if err := f.out.err(); err != nil {
			return "", err
		}
		typed, err := f.in.line(stop)
		remark := err == nil && strings.HasPrefix(typed, "#")
		if f.ahead && !remark {
			f.write(prompt)
		}
		if f.echo || err != nil {
			f.write(typed + "\n")
		}
		if err != nil || !remark {
			return typed, err
		}
	}
}

// pickLine takes one line as the answer to a choice; why is empty if it was one.
func (f *Face) pickLine(options, commands []Option) (choice Choice, why string, err error) {
	typed, err := f.readLine(choosePrompt)
	if err != nil {
		return Choice{}, "", err
	}
	choice, why = find(typed, options, commands)
	return choice, why, nil
}
