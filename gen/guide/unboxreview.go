package guide

import (
	"fmt"
	"io/fs"
	"path"
	"strings"
	"time"

	"spruelight/gen/journal"
	"spruelight/gen/tally"
)

// UnboxReview returns the file that starts the review of a build's kit, with
// the workshop's own criteria.
func UnboxReview(content fs.FS, slug string, today time.Time) ([]NewFile, error) {
	shop, _ := journal.Open(content)
	b, ok := shop.Build(slug)
	if !ok {
		return nil, shop.NoBuild(slug)
	}
	criteria := shop.Settings.Review.Criteria.Names()
	if len(criteria) == 0 {
		for _, c := range tally.Criteria {
			criteria = append(criteria, c.Name)
		}
	}
	var marks strings.Builder
	for _, name := range criteria {
		fmt.Fprintf(&marks, "  %s: not assessed\n", yamlText(name))
	}
	text := strings.NewReplacer("{day}", today.Format(time.DateOnly), "{marks}", marks.String()).Replace(newReview)
	return []NewFile{{path.Join(b.Dir, "review.md"), asWritten(content, path.Join(b.Dir, "build.md"), text)}}, nil
}

const newReview = `---
# How the kit came here stands under kit in build.md (obtained, from, price), and
# readers are told before anything else. Take the # and one space away from a
# line and write what is so.
date: {day}
# experience: the fourth boat on this bench, the first of this maker
# verdict: A sound kit that rewards careful dry fitting
# buy it if: [you want room for lights]
# leave it if: [you build straight from the box]
# needs besides: [lead weight, 0.3 mm rod]

# A mark wants its reason, like fit: {mark: 7, why: "two gaps needed filler"}.
# What is not assessed stays so, and never counts as nought.
marks:
{marks}
# What is wrong with the kit itself: flash, sink mark, ejector-pin mark, short
# shot, warp, misalignment, gap or step, and whether it shows on the model.
# faults:
#   - {kind: sink mark, part: hull half to port, size: 0.4 mm, shows: no, note: filled}

# Below the next line comes your text: what is in the box, how it went together,
# what it is like to light.
---

`
