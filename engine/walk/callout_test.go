package walk_test

import (
	"strings"
	"testing"
)

func TestX(t *testing.T) {
	says := engineer("millrace-small", "cylinder-stays-cold")
	for k, v := range map[string]string{
		"screen-lives": "lit", "hot-water-settings": "wanted", "tap-against-screen": "both-cold", "hot-water-demand": "heating-water",
		"legs": "radiator-leg", "head-seat of diverter": "seated", "resting-place of diverter": "rests-heating", "travel of diverter": "silent",
		"box-inside of diverter-box":                           "sound",
		"called-neutral at diverter-neutral calling hot-water": "0.4",
		"driven at diverter-live calling hot-water":            "239.5",
		"driven at diverter-switch calling hot-water:ln":       "239.1",
		"driven at diverter-switch-wire calling hot-water:ln":  "0.3",
		"driven at diverter-switch-wire calling hot-water:le":  "0.7",
		"core-continuity of switch-wire":                       "OL",
	} {
		says[k] = v
	}
	p := play(t, says)
	p.after = map[string]string{"driven at diverter-switch-wire calling hot-water:ln": "239", "core-continuity of switch-wire": "0.2", "cylinder-warms": "rises"}
	defer func() { t.Log(strings.Join(p.seen, "\n"), strings.Join(p.said, "\n")) }()
	p.run()
	t.Log(p.closed(), kinds(p.job.Events()))
}
