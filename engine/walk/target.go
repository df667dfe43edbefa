package walk

import (
	"strings"

	"faultwalk/trees"
)

// leads writes a target as it is recorded; empty for none.
func leads(t trees.Target) string {
	switch {
	case t.Go != "":
		return "go " + t.Go
	case len(t.Causes) > 0:
		var ids []string
		for _, c := range t.Causes {
			ids = append(ids, c.ID)
		}
		return "cause " + strings.Join(ids, " | ")
	case t.Refer != nil:
		return "refer " + t.Refer.ID
	case t.Pass != "":
		return "pass " + t.Pass
	}
	return ""
}
