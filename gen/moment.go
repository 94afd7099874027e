package gen

import (
	"time"
)

// now is the moment of the run in the workshop's time zone.
func (r *run) now() time.Time {
	return r.shop.Clock(r.env.Moment, r.env.Wall)
}

// today is the run's calendar day, at midnight UTC as all days are.
func (r *run) today() time.Time {
	y, m, d := r.now().Date()
	return time.Date(y, m, d, 0, 0, 0, 0, time.UTC)
}

// until returns the moment at which a site that was just made changes by
// itself, as clocks run on, embargoes end and days pass; the moment of the run
// where that is at once.
func (r *run) until() time.Time {
	if r.env.Wall {
		return time.Date(9999, 1, 1, 0, 0, 0, 0, time.UTC)
	}
	now := r.now()
	y, m, d := now.Date()
	until := time.Date(y, m, d+1, 0, 0, 0, 0, now.Location())
	for _, w := range r.works {
		if ends := w.finish.Until; !ends.IsZero() && ends.Before(until) {
			until = ends
		}
	}
	for _, ends := range r.hidden.Ends {
		if ends.Before(until) {
			until = ends
		}
	}
	return until
}
