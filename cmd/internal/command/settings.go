package command

import (
	"fmt"

	"github.com/spf13/cobra"

	"faultwalk/cmd/internal/keep"
)

// newSettings writes a first config file and says where it lies.
func newSettings(w World) *cobra.Command {
	return &cobra.Command{
		Use:   "settings",
		Short: "Say where your settings lie: your meters, your name, your jurisdiction",
		Long: `Says where your settings lie. If there is no file yet it writes one, all
remarks, that explains each setting and shows the kit of instruments that is
used without it. A file that is there is only checked, never changed.`,
		Args: cobra.NoArgs,
		RunE: func(c *cobra.Command, _ []string) error {
			path, err := w.places().ConfigPath()
			if err != nil {
				return err
			}
			written, err := keep.WriteConfig(path)
			if err != nil {
				return err
			}
			if written {
				fmt.Fprintln(c.OutOrStdout(), path+" was written: take the # off what you want to change.")
				return nil
			}
			config, err := keep.ReadConfig(path)
			if err != nil {
				return err
			}
			whose := "the default kit"
			if config.OwnKit {
				whose = "your own kit"
			}
			fmt.Fprintf(c.OutOrStdout(), "%s: %s of %d instruments, jurisdiction %s\n", path, whose, len(config.Kit.Instruments), config.Jurisdiction)
			return nil
		},
	}
}
