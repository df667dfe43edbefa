package trees

import "embed"

// FS holds the embedded trees: one folder for each kind of file.
//
//go:embed */*.yaml
var FS embed.FS
