package journal

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
	for _, p := range b.Body.Pictures() {
		add(p.File)
	}
	for _, s := range b.Sittings {
		for _, p := range s.Front.Photos {
			for _, file := range p.Files() {
				add(file)
			}
		}
		for _, r := range s.Front.Ready {
			add(r.Photo)
		}
		for _, p := range s.Body.Pictures() {
			add(p.File)
		}
	}
	if b.Review != nil {
		for _, p := range b.Review.Body.Pictures() {
			add(p.File)
		}
	}
	return names
}

// PhotoNames returns the names of the photos that a sitting shows.
func (s *Sitting) PhotoNames() []string {
	names := s.Body.PhotoNames()
	for _, p := range s.Front.Photos {
		for _, file := range p.Files() {
			names = append(names, file.V)
		}
	}
	return names
}

// PhotoNames returns the names of the pictures between the words.
func (b *Body) PhotoNames() []string {
	var names []string
	if b != nil {
		for _, p := range b.Pictures() {
			names = append(names, p.File.V)
		}
	}
	return names
}

// Bodies are the texts of the build.
func (b *Build) Bodies() []*Body {
	bodies := []*Body{b.Body}
	for _, s := range b.Sittings {
		bodies = append(bodies, s.Body)
	}
	if b.Review != nil {
		bodies = append(bodies, b.Review.Body)
	}
	return bodies
}
