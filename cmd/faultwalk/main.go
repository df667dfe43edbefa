// Command faultwalk takes a heat-pump service engineer from a symptom to a
// proven repair. See package command for what it can do.
package main

import (
	"os"

	"faultwalk/cmd/internal/command"
)

func main() {
	os.Exit(command.Main(os.Args[1:], command.OS()))
}
