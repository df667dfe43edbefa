package vet_test

import (
	"testing"

	"faultwalk/measurements"
	"faultwalk/trees"
	"faultwalk/trees/vet"
)

func TestEmbeddedTreesAreClean(t *testing.T) {
	t.Parallel()
	set, problems := trees.Embedded()
	if err := problems.Err(); err != nil {
		t.Fatal(err)
	}
	r := vet.Vet(set, measurements.DefaultKit(), nil)
	if !r.Clean() {
		t.Error(r.Text(30))
	}
	t.Log(r.Summary())
}
