package gen

import (
	"context"
	"sync"
	"sync/atomic"

	"spruelight/gen/source"
)

// each calls do for every item on a bounded number of workers and adds what
// they find, in the order of the items. It stops early when ctx ends. This is
// the only place of the pipeline that starts goroutines.
func each[T any](ctx context.Context, workers int, items []T, do func(T) source.Findings, found *source.Findings) {
	slots := make([]source.Findings, len(items))
	var next atomic.Int64
	var group sync.WaitGroup
	for range min(workers, len(items)) {
		group.Go(func() {
			for ctx.Err() == nil {
				i := int(next.Add(1)) - 1
				if i >= len(items) {
					return
				}
				slots[i] = do(items[i])
			}
		})
	}
	group.Wait()
	for _, slot := range slots {
		found.Add(slot...)
	}
}
