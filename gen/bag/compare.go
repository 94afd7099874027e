package bag

import (
	"slices"
	"strings"
	"unicode/utf8"

	"spruelight/gen/source"
)

// comparePayload holds the payload manifests against the payload, each way.
func (c *checker) comparePayload() {
	lists := map[string]int{} // how many manifests list a file
	for _, m := range c.payload {
		here := map[string]int{}
		for _, e := range m.entries {
			c.comparePayloadEntry(m, e, here)
		}
		for name := range here {
			lists[name]++
		}
	}
	for _, name := range sortedKeys(c.files) {
		if !strings.HasPrefix(name, dataFolder) || len(c.payload) == 0 {
			continue
		}
		switch n := lists[name]; {
		case n == 0:
			c.fault(Extra, name, "is in the payload, but no manifest lists it")
		case n < len(c.payload) && c.decl.strict:
			c.fault(Extra, name, "is listed in %d of %d payload manifests, not in all", n, len(c.payload))
		}
	}
}

// compareFetch asks that every file to be fetched is in every payload manifest.
func (c *checker) compareFetch() {
	for _, m := range c.payload {
		listed := map[string]bool{}
		for _, e := range m.entries {
			listed[e.path] = true
		}
		for _, p := range sortedKeys(c.fetch) {
			if !listed[p] {
				c.at(Fetch, fetchFile, c.fetch[p].line, "lists %s, which %s does not", show(p), m.file)
			}
		}
	}
}

func (c *checker) comparePayloadEntry(m manifest, e entry, here map[string]int) {
	if !strings.HasPrefix(e.path, dataFolder) {
		c.at(Manifest, m.file, e.line, "lists %s, which is not in the payload folder", show(e.path))
		return
	}
	name, there := c.resolve(e.path)
	if !there {
		c.missing(m.file, e)
		return
	}
	if first := here[name]; first > 0 {
		kind := Duplicate
		if slices.ContainsFunc(m.entries, func(other entry) bool { return other.line == first && other.sum == e.sum }) {
			kind = Advice // the same said twice
		}
		c.at(kind, m.file, e.line, "lists %s again under another form of its letters, after line %d", show(e.path), first)
	}
	here[name] = e.line
	if name != e.path {
		c.at(Advice, m.file, e.line, "writes %s in another form of its letters (Unicode normalization) than the bag has", show(e.path))
	}
}

func (c *checker) missing(file string, e entry) {
	if c.dirs[e.path] {
		c.at(Manifest, file, e.line, "lists %s, which is a folder", show(e.path))
		return
	}
	if w, ok := c.fetch[e.path]; ok {
		c.fault(Fetch, e.path, "is still to be fetched from %s", shorten(w.url))
		return
	}
	c.fault(Missing, e.path, "is listed in %s, but not there", file)
}

// compareTags holds the tag manifests against the tag files.
func (c *checker) compareTags() {
	for _, m := range c.tags {
		here := map[string]bool{}
		for _, e := range m.entries {
			_, tag, isManifest := manifestName(e.path)
			switch name, there := c.resolve(e.path); {
			case strings.HasPrefix(e.path, dataFolder):
				c.at(Manifest, m.file, e.line, "lists %s, a payload file, which a tag manifest must not", show(e.path))
			case isManifest && tag:
				c.at(Manifest, m.file, e.line, "lists %s, a tag manifest, which a tag manifest must not", show(e.path))
			case !there:
				c.missing(m.file, e)
			default:
				here[name] = true
			}
		}
		c.compareTagManifest(m, here)
	}
}

func (c *checker) compareTagManifest(m manifest, here map[string]bool) {
	for _, name := range sortedKeys(c.files) {
		_, tag, isManifest := manifestName(name)
		switch {
		case here[name] || strings.HasPrefix(name, dataFolder) || isManifest && tag:
		case isManifest && c.decl.strict:
			c.fault(Manifest, m.file, "does not list %s, as a tag manifest must", name)
		default:
			c.fault(Advice, m.file, "does not list %s, which is unprotected then", show(name))
		}
	}
	for _, p := range c.payload {
		if p.algorithm == m.algorithm {
			return
		}
	}
	c.fault(Advice, m.file, "uses an algorithm that no payload manifest uses")
}

// adviseOnNames warns of names that other systems cannot store, or store as one
// (section 6.1.1). The bag is valid all the same.
func (c *checker) adviseOnNames() {
	var paths source.Paths
	for _, name := range sortedKeys(c.files) {
		if !utf8.ValidString(name) {
			continue
		}
		if err := paths.Add(name); err != nil {
			c.fault(Advice, name, "restoring it needs care: %s", oneLine(err))
		}
	}
}
