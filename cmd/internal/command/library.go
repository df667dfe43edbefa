package command

import (
	"fmt"
	"os"
	"path/filepath"

	"faultwalk/cmd/internal/keep"
	"faultwalk/engine/walk"
	"faultwalk/trees"
)

// places are where this person's files belong.
func (w World) places() keep.Places {
	return keep.Places{System: w.System, Home: w.Home, Env: w.Env}
}

// config reads the person's settings.
func (w World) config() (keep.Config, error) {
	path, err := w.places().ConfigPath()
	if err != nil {
		return keep.Config{}, err
	}
	return keep.ReadConfig(path)
}

// store is where jobs lie: the folder named, or the state folder.
func (w World) store(dir string) (keep.Store, error) {
	if dir != "" {
		abs, err := filepath.Abs(dir)
		return keep.Store{Dir: abs}, err
	}
	state, err := w.places().StateDir()
	return keep.Store{Dir: state}, err
}

// library is the trees and instruments a job is begun with. Without trees of
// one's own only the heads are read first; the rest while somebody thinks.
func (w World) library(own string, c keep.Config) (walk.Library, error) {
	lib := walk.Library{Kit: c.Kit, Build: build}
	if own == "" {
		set, problems := trees.EmbeddedHeads()
		if err := problems.Err(); err != nil {
			return lib, &exitError{ExitInternal, err}
		}
		go set.Whole()
		lib.Set = set
		return lib, nil
	}
	set, err := withOwn(own)
	lib.Set = set
	return lib, err
}

// withOwn lays the trees of a folder over the embedded ones.
func withOwn(dir string) (*trees.Set, error) {
	base, problems := trees.Embedded()
	if err := problems.Err(); err != nil {
		return nil, &exitError{ExitInternal, err}
	}
	if info, err := os.Stat(dir); err != nil || !info.IsDir() {
		return nil, usage("--trees %s: expected a folder with checks, causes, symptoms … in it", dir)
	}
	set, problems := trees.Overlay(base, os.DirFS(dir), dir)
	if err := problems.Err(); err != nil {
		return nil, &exitError{ExitFindings, fmt.Errorf("the trees of %s cannot be used:\n%w", dir, err)}
	}
	return set, nil
}
