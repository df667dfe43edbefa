package trees

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"path"
	"strings"

	"faultwalk/trees/spelling"
	"faultwalk/trees/strict"
)

// Layer is the files of one origin, by path inside it ("checks/mains.yaml").
// Name is where they are from, for messages: "trees", or the folder typed.
type Layer struct {
	Name  string            `json:"name"`
	Files map[string]string `json:"files"`
}

// named gives the path of a file as a person would open it.
func (l Layer) named(file string) string { return path.Join(l.Name, file) }

// Limits of one layer: trees from outside are hostile.
const (
	maxFiles = 1000
	maxFile  = 4 << 20  // bytes
	maxTotal = 16 << 20 // bytes
)

func problemAt(pos strict.Pos, format string, args ...any) strict.Problem {
	return strict.Problem{File: pos.File, Line: pos.Line, Col: pos.Col, Message: fmt.Sprintf(format, args...)}
}

// gather reads the files of a tree set within the limits. Only plain files
// ending in .yaml inside the known folders are read; names that begin with a
// dot, and files at the top that are no YAML, are passed over.
func gather(fsys fs.FS, name string) (Layer, strict.Problems) {
	g := &gathering{fsys: fsys, layer: Layer{Name: name, Files: map[string]string{}}}
	for _, e := range g.entries(".") {
		switch {
		case strings.HasPrefix(e.Name(), "."):
		case e.IsDir():
			g.folder(e.Name())
		case strings.HasSuffix(e.Name(), ".yaml") || strings.HasSuffix(e.Name(), ".yml"):
			g.problem(e.Name(), "a file at the top is not read; expected it in one of the folders %s", spelling.Quoted(folderNames()))
		}
	}
	return g.layer, g.problems
}

type gathering struct {
	fsys     fs.FS
	layer    Layer
	total    int
	full     bool
	problems strict.Problems
}

func folderNames() []string {
	var names []string
	for name := range folders() {
		names = append(names, name)
	}
	return names
}

func (g *gathering) problem(file, format string, args ...any) {
	g.problems = append(g.problems, problemAt(strict.Pos{File: g.layer.named(file), Line: 1, Col: 1}, format, args...))
}

// entries lists a folder, never more of it than may be read.
func (g *gathering) entries(folder string) []fs.DirEntry {
	f, err := g.fsys.Open(folder)
	if err != nil {
		g.problem(folder, "cannot be read: %v", err)
		return nil
	}
	defer f.Close()
	dir, ok := f.(fs.ReadDirFile)
	if !ok {
		g.problem(folder, "is a file; expected a folder")
		return nil
	}
	all, err := dir.ReadDir(maxFiles + 1)
	switch {
	case len(all) > maxFiles:
		g.problem(folder, "the folder holds more than %d files; expected at most that", maxFiles)
		return nil
	case err != nil && !errors.Is(err, io.EOF):
		g.problem(folder, "cannot be read: %v", err)
	}
	return all
}

// folder reads the files of one folder.
func (g *gathering) folder(name string) {
	if _, known := folders()[name]; !known {
		g.problem(name, "the folder is none of a tree set; expected one of %s%s", spelling.Quoted(folderNames()),
			spelling.DidYouMean(name, folderNames()))
		return
	}
	for _, e := range g.entries(name) {
		file := name + "/" + e.Name()
		switch {
		case strings.HasPrefix(e.Name(), "."):
		case e.IsDir():
			g.problem(file, "is a folder inside %q; expected files only", name)
		case !e.Type().IsRegular():
			g.problem(file, "is no plain file; expected one, no link or device")
		case strings.HasSuffix(e.Name(), ".yml"):
			g.problem(file, "ends in .yml; expected .yaml")
		case strings.HasSuffix(e.Name(), ".yaml"):
			g.file(file)
		}
	}
}
