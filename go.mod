module faultwalk

go 1.26.0

require (
	github.com/chzyer/readline v1.5.1
	github.com/creack/pty v1.1.24
	github.com/expr-lang/expr v1.17.8
	github.com/google/go-cmp v0.7.0
	github.com/hinshun/vt10x v0.0.0-20220301184237-5011da428d02
	github.com/manifoldco/promptui v0.9.0
	github.com/mattn/go-runewidth v0.0.31
	github.com/rogpeppe/go-internal v1.16.0
	github.com/spf13/cobra v1.10.2
	github.com/spf13/pflag v1.0.9
	golang.org/x/sys v0.50.0
	golang.org/x/term v0.48.0
	gopkg.in/yaml.v3 v3.0.1
	pgregory.net/rapid v1.3.0
)

require (
	github.com/clipperhouse/uax29/v2 v2.2.0 // indirect
	github.com/inconshreveable/mousetrap v1.1.0 // indirect
	golang.org/x/tools v0.26.0 // indirect
)
