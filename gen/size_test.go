package gen_test

import (
	"context"
	"fmt"
	"os"
	"testing"

	"spruelight/gen"
	"spruelight/gen/photo"
	"spruelight/testdata/bigshop"
	"spruelight/themes"
)

// BenchmarkWorkshop measures a whole run over synthetic workshops with warm
// photos, by their number of builds.
func BenchmarkWorkshop(b *testing.B) {
	for _, builds := range []int{10, 100} {
		b.Run(fmt.Sprintf("builds=%d", builds), func(b *testing.B) {
			dir := b.TempDir()
			if err := bigshop.Write(dir, bigshop.Size{Builds: builds, Sittings: 10, Photos: 1, Alike: true}); err != nil {
				b.Fatal(err)
			}
			cache, err := photo.OpenCache(b.TempDir(), dir, photo.DefaultCacheBytes)
			if err != nil {
				b.Fatal(err)
			}
			env := gen.Env{Content: os.DirFS(dir), Themes: themes.FS, Moment: moment, Photos: cache, Version: "test"}
			if _, err := gen.Gather(context.Background(), env); err != nil {
				b.Fatal(err)
			}
			for b.Loop() {
				res, err := gen.Gather(context.Background(), env)
				if err != nil || res.Counts.Made > 0 {
					b.Fatal(err, res.Counts)
				}
			}
		})
	}
}
