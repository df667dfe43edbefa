package command

import (
	"os"
	"testing"
)

// What the files hold must be what the models say now: an author who changes a
// model runs faultwalk probe --plant PLANT --levels again.
func TestLevelsAreThoseOfTheModels(t *testing.T) {
	t.Parallel()
	for _, plant := range []string{"millrace-large", "millrace-small", "millrace-spur", "millrace-volt-free"} {
		t.Run(plant, func(t *testing.T) {
			t.Parallel()
			o := standFlags{plant: plant}
			s, err := o.stood()
			if err != nil {
				t.Fatal(err)
			}
			want, err := levelsFile(s)
			if err != nil {
				t.Fatal(err)
			}
			file := "../../../trees/levels/" + plant + ".yaml"
			got, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			if string(got) != want {
				t.Errorf("%s is not what the model gives now; write it anew with: faultwalk probe --plant %s --levels", file, plant)
			}
		})
	}
}
