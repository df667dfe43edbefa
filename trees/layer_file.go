package trees

import "io"

// file reads one file unless a limit is met.
func (g *gathering) file(file string) {
	switch {
	case g.full:
		return
	case len(g.layer.Files) == maxFiles:
		g.full = true
		g.problem(file, "more than %d files; this one and the rest are not read", maxFiles)
		return
	}
	f, err := g.fsys.Open(file)
	if err != nil {
		g.problem(file, "cannot be read: %v", err)
		return
	}
	defer f.Close()
	text, err := io.ReadAll(io.LimitReader(f, maxFile+1))
	switch {
	case err != nil:
		g.problem(file, "cannot be read: %v", err)
	case len(text) > maxFile:
		g.problem(file, "has more than %d bytes; expected at most that", maxFile)
	case g.total+len(text) > maxTotal:
		g.full = true
		g.problem(file, "with this file the trees have more than %d bytes; this one and the rest are not read", maxTotal)
	default:
		g.total += len(text)
		g.layer.Files[file] = string(text)
	}
}
