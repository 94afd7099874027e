package bag

import (
	"context"
	"fmt"
	"io"
	"io/fs"
	"slices"
	"strings"

	"spruelight/gen/source"
)

// Check verifies the bag in a folder or zip file. What is wrong with the bag is
// in the report; the error is for a bag that cannot be reached or read, and for
// ctx.
func Check(ctx context.Context, name string) (Report, error) {
	s, err := openStore(name)
	if err != nil {
		return Report{}, err
	}
	defer s.close()
	c, err := examine(ctx, s)
	return c.rep, err
}

// Info returns what bag-info.txt of the bag in a folder or zip file says, without
// checking the bag; nil where it says nothing that can be read.
func Info(name string) ([]Tag, error) {
	s, err := openStore(name)
	if err != nil {
		return nil, err
	}
	defer s.close()
	c := &checker{store: s}
	c.readDeclaration()
	c.readInfo()
	return c.rep.Info, nil
}

// checker holds what has been learned of a bag so far.
type checker struct {
	*store
	decl     declaration
	rep      Report
	payload  []manifest
	tags     []manifest
	fetch    map[string]wanted
	dirs     map[string]bool   // folders with files in them
	composed map[string]string // composed path to the path in the bag
}

// manifest is one manifest with the files that it lists, as they are called in
// the bag.
type manifest struct {
	file      string
	algorithm string
	entries   []entry
}

// examine checks a bag and returns all that was learned of it.
func examine(ctx context.Context, s *store) (*checker, error) {
	c := &checker{store: s, dirs: s.folders(), fetch: map[string]wanted{}, composed: map[string]string{}}
	for _, p := range sortedKeys(s.files) {
		c.composed[source.Compose(p)] = p
	}
	c.readDeclaration()
	c.readPayload()
	c.readFetch()
	c.readManifests()
	c.readInfo()
	if err := c.verify(ctx); err != nil {
		return &checker{}, err
	}
	c.comparePayload()
	c.compareFetch()
	c.compareTags()
	c.adviseOnNames()
	c.rep.settle(c.faults)
	return c, nil
}

// at adds a fault with its line.
func (c *checker) at(kind Kind, file string, line int, format string, args ...any) {
	c.faults = append(c.faults, Fault{kind, file, line, fmt.Sprintf(format, args...)})
}

// tagFile reads a tag file; ok is false where it is not there or, which is
// reported, cannot be read.
func (c *checker) tagFile(name string) (data []byte, ok bool) {
	size, there := c.files[name]
	if !there {
		return nil, false
	}
	if size > maxTagFile {
		c.fault(Limit, name, "has %d bytes, more than the %d that a tag file may have here", size, maxTagFile)
		return nil, false
	}
	r, err := c.open(name)
	if err == nil {
		defer r.Close()
		data, err = io.ReadAll(io.LimitReader(r, maxTagFile))
	}
	if err != nil {
		c.fault(Container, name, "cannot be read: %v", bare(err))
	}
	return data, err == nil
}

func bare(err error) error {
	if p, ok := err.(*fs.PathError); ok {
		return p.Err
	}
	return err
}

// text reads a tag file in the declared encoding.
func (c *checker) text(name string) (text string, ok bool) {
	data, ok := c.tagFile(name)
	if !ok {
		return "", false
	}
	text, err := decode(data, c.decl.encoding)
	if err != nil {
		c.fault(Encoding, name, "%v", err)
		return "", false
	}
	if !isEnded(text) {
		c.fault(Advice, name, "the last line is not ended")
	}
	return text, true
}

func (c *checker) readDeclaration() {
	c.decl = declaration{encoding: "UTF-8", strict: true}
	data, ok := c.tagFile(declarationFile)
	if _, there := c.files[declarationFile]; !there {
		c.fault(Declaration, declarationFile, "is missing, so this is not a bag")
	}
	if !ok {
		return
	}
	var faults []Fault
	c.decl, faults = parseDeclaration(data)
	c.faults = append(c.faults, faults...)
	c.rep.Version = c.decl.version
	if !strings.EqualFold(c.decl.encoding, "UTF-8") {
		c.fault(Advice, declarationFile, "the encoding is %s; UTF-8 is recommended", show(c.decl.encoding))
	}
}

func (c *checker) readPayload() {
	if !c.data {
		c.fault(Payload, dataFolder, "the payload folder is missing")
	}
	for p, size := range c.files {
		if strings.HasPrefix(p, dataFolder) {
			c.rep.Files++
			c.rep.Bytes += size
		}
	}
}

func (c *checker) readFetch() {
	text, ok := c.text(fetchFile)
	if !ok {
		return
	}
	files, faults := parseFetch(text, c.decl.strict)
	c.faults = append(c.faults, faults...)
	for _, w := range files {
		c.fetch[w.path] = w
		if size, there := c.files[w.path]; there && w.length >= 0 && size != w.length {
			c.at(Advice, fetchFile, w.line, "gives %d bytes for %s, which has %d", w.length, show(w.path), size)
		}
	}
}

// readManifests finds and reads the manifests at the top of the bag.
func (c *checker) readManifests() {
	for _, name := range sortedKeys(c.files) {
		if algorithm, tag, ok := manifestName(name); ok {
			c.readManifest(manifest{file: name, algorithm: algorithm}, tag)
		} else if nearManifest.MatchString(name) && !strings.Contains(name, "/") {
			c.fault(Manifest, name, "is named like a manifest, but an algorithm is written in lower-case letters and digits only")
		}
	}
	if len(c.payload) == 0 {
		c.fault(Manifest, "", "has no payload manifest (manifest-sha512.txt)")
	}
	for _, m := range c.payload {
		c.rep.Algorithms = append(c.rep.Algorithms, m.algorithm)
	}
}

func (c *checker) readManifest(m manifest, tag bool) {
	list := &c.payload
	if tag {
		list = &c.tags
	}
	if len(*list) == maxLists {
		c.fault(Limit, m.file, "is one manifest too many; %d of a kind are read", maxLists)
		return
	}
	digits := 0
	if make, known := algorithms[m.algorithm]; known {
		digits = 2 * make().Size()
	} else {
		c.fault(Algorithm, m.file, "the checksum algorithm %q is not known to this program, so the files cannot be verified by it", m.algorithm)
	}
	if text, ok := c.text(m.file); ok {
		var faults []Fault
		m.entries, faults = parseManifest(m.file, text, digits, c.decl.strict)
		c.faults = append(c.faults, faults...)
		for i := range m.entries {
			c.readLoosely(&m.entries[i])
		}
	}
	*list = append(*list, m)
}

// readLoosely takes a path as it is written where a file has that very name and
// none the decoded one: before version 1.0 a percent sign had no code.
func (c *checker) readLoosely(e *entry) {
	_, decoded := c.files[e.path]
	if _, written := c.files[e.raw]; !c.decl.strict && !decoded && written && strings.HasPrefix(e.raw, dataFolder) {
		e.path = e.raw
	}
}

// formerInfo is what bag-info.txt was called up to version 0.95.
const formerInfo = "package-info.txt"

func (c *checker) readInfo() {
	text, ok := c.text(infoFile)
	if !ok && slices.Contains(earlier[:3], c.decl.version) {
		text, ok = c.text(formerInfo)
	}
	if !ok {
		return
	}
	tags, faults := parseInfo(text, c.decl.strict)
	c.rep.Info = tags
	c.faults = append(append(c.faults, faults...), checkInfo(tags, c.rep.Bytes, c.rep.Files)...)
}

// resolve finds the file of the bag that a manifest means. Names may have been
// composed or decomposed on their way through another system (section 6.1.1.3).
func (c *checker) resolve(p string) (name string, there bool) {
	if _, ok := c.files[p]; ok {
		return p, true
	}
	name, there = c.composed[source.Compose(p)]
	return name, there
}

// claim is what one line of a manifest says of a file.
type claim struct {
	entry
	manifest manifest
}

// verify reads every listed file once and compares all its checksums.
func (c *checker) verify(ctx context.Context) error {
	claims := map[string][]claim{}
	for _, m := range slices.Concat(c.payload, c.tags) {
		if algorithms[m.algorithm] == nil {
			continue
		}
		for _, e := range m.entries {
			if name, there := c.resolve(e.path); there {
				claims[name] = append(claims[name], claim{e, m})
			}
		}
	}
	for _, name := range sortedKeys(claims) {
		if ctx.Err() != nil {
			return context.Cause(ctx)
		}
		c.verifyFile(name, claims[name])
	}
	return nil
}

func (c *checker) verifyFile(name string, claims []claim) {
	var names []string
	for _, cl := range claims {
		if !slices.Contains(names, cl.manifest.algorithm) {
			names = append(names, cl.manifest.algorithm)
		}
	}
	sums, err := c.sums(name, names)
	if err != nil {
		c.fault(Changed, name, "cannot be read to its end: %v", bare(err))
		return
	}
	for _, cl := range claims {
		if sums[cl.manifest.algorithm] != cl.sum {
			c.fault(Changed, name, "its %s checksum is not the one in %s, line %d", cl.manifest.algorithm, cl.manifest.file, cl.line)
		}
	}
}

func (c *checker) sums(name string, algorithms []string) (map[string]string, error) {
	r, err := c.open(name)
	if err != nil {
		return nil, err
	}
	defer r.Close()
	n, sums, err := sumAll(r, algorithms)
	if err == nil && n != c.files[name] {
		err = fmt.Errorf("it has %d bytes, not %d", n, c.files[name])
	}
	return sums, err
}
