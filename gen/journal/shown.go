package journal

import "slices"

// PhotoNames returns the names of all photos in the build's journals.
func (b *Build) PhotoNames() []Text {
	var names []Text
	add := func(v Text) {
		if v.Set {
			names = append(names, v)
		}
	}
	add(b.Front.Lead)
	add(b.Front.Repair.Photo)
	for _, c := range b.Front.Choices {
		for _, o := range c.Options {
			add(o.Photo)
		}
	}
	names = append(names, b.Body.PhotoNames()...)
	for _, s := range slices.Concat(b.Sittings, b.Drafts) {
		names = append(names, s.PhotoNames()...)
	}
	if b.Review != nil {
		names = append(names, b.Review.Body.PhotoNames()...)
	}
	return names
}

// PhotoNames returns the names of the photos that a sitting shows or keeps as
// proof.
func (s *Sitting) PhotoNames() []Text {
	var names []Text
	for i := range s.Front.Photos {
		names = append(names, s.Front.Photos[i].Files()...)
	}
	for _, r := range s.Front.Ready {
		if r.Photo.Set {
			names = append(names, r.Photo)
		}
	}
	return append(names, s.Body.PhotoNames()...)
}

// PhotoNames returns the names of the pictures between the words.
func (b *Body) PhotoNames() []Text {
	var names []Text
	if b != nil {
		for _, p := range b.Pictures() {
			if p.File.Set {
				names = append(names, p.File)
			}
		}
	}
	return names
}

// Bodies are the texts of the build.
func (b *Build) Bodies() []*Body {
	bodies := []*Body{b.Body}
	for _, s := range slices.Concat(b.Sittings, b.Drafts) {
		bodies = append(bodies, s.Body)
	}
	if b.Review != nil {
		bodies = append(bodies, b.Review.Body)
	}
	return bodies
}
