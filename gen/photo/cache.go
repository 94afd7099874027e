package photo

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"sync"
	"time"

	"golang.org/x/sync/singleflight"
)

// Cache keeps what was made of photos, so that a photo is worked on once.
//
// Three conditions make it safe. An entry never changes: its name is the hash
// of the photo's bytes and of the recipe, which includes the version of the
// encoder. An entry depends on that one photo and on nothing else. Entries are
// written beside their place and renamed into it, so that no process sees half
// of one. The folder may therefore be shared by processes and deleted at any
// time; what is missing or damaged is made again.
//
// A photo whose size and time are those of the last run is not read at all.
type Cache struct {
	store store
	spare memoryStore // what the folder did not take
	most  int64
	index string // path of the index, "" in memory

	flight singleflight.Group
	now    func() time.Time

	mu   sync.Mutex
	full error           // why the folder took no more
	seen map[string]seen // photos as the index has them, by name
	used map[string]seen // photos of this session
	kept map[string]bool // entries of this session
}

// DefaultCacheBytes is how large a cache grows where nothing else is asked for.
const DefaultCacheBytes = 2 << 30

// OpenCache opens the cache in a folder, which is made where it is missing.
// The workshop is any text that distinguishes the trees whose photos share the
// cache: the absolute path of the workshop. Of more than maxBytes the entries
// used longest ago are removed by Flush, but none that was asked for since the
// cache was opened; zero stands for DefaultCacheBytes.
func OpenCache(folder, workshop string, maxBytes int64) (*Cache, error) {
	s, err := openFolder(folder)
	if err != nil {
		return nil, fmt.Errorf("photo cache: %w", err)
	}
	c := newCache(s, maxBytes)
	c.index = indexPath(folder, workshop)
	c.seen = readIndex(c.index)
	return c, nil
}

// MemoryCache returns a cache that lives in memory and is gone with it.
func MemoryCache() *Cache { return newCache(&memoryStore{}, 0) }

func newCache(s store, maxBytes int64) *Cache {
	if maxBytes <= 0 {
		maxBytes = DefaultCacheBytes
	}
	return &Cache{store: s, most: maxBytes, now: time.Now,
		seen: map[string]seen{}, used: map[string]seen{}, kept: map[string]bool{}}
}

// Make returns the renditions of a photo, from the cache where it has them.
// An error that is the photo's fault is a *Problem.
func (c *Cache) Make(ctx context.Context, fsys fs.FS, name string, recipe Recipe) (Set, error) {
	if err := recipe.Check(); err != nil {
		return Set{}, err
	}
	stat, err := fs.Stat(fsys, name)
	if err != nil {
		return Set{}, unopened(err)
	}
	if err := checkFile(stat, recipe.Limits); err != nil {
		return Set{}, err
	}
	job := job{c, ctx, fsys, name, recipe}
	if content, ok := c.recall(name, stat); ok {
		if set, err := job.reuse(content); err == nil {
			return set, nil
		}
	}
	return job.read(stat)
}

// job is one call of Make.
type job struct {
	cache  *Cache
	ctx    context.Context
	fsys   fs.FS
	name   string
	recipe Recipe
}

// entry names the entry of a photo's content made by the job's recipe.
func (j job) entry(content string) string { return hash([]byte(content + "\n" + j.recipe.ID())) }

// read reads the photo, and makes its renditions where the cache has none.
func (j job) read(stat fs.FileInfo) (Set, error) {
	data, err := readPhoto(j.fsys, j.name, j.recipe.Limits)
	if err != nil {
		return Set{}, err
	}
	content := hash(data)
	j.cache.remember(j.name, stat, content)
	if set, err := j.reuse(content); err == nil {
		return set, nil
	}
	// Two workers with the same picture under two names make it once.
	made := false
	_, err, _ = j.cache.flight.Do(j.entry(content), func() (any, error) {
		if _, err := j.reuse(content); err == nil { // meanwhile the other has
			return nil, nil
		}
		made = true
		return nil, j.make(data, content)
	})
	if err != nil {
		return Set{}, err
	}
	set, err := j.reuse(content)
	set.Reused = !made
	return set, err
}

// tries is how often a photo is read that is still being copied.
const tries = 3

// readPhoto reads a photo whole, as it was at one moment: one whose size or time
// changes meanwhile is read again.
func readPhoto(fsys fs.FS, name string, limits Limits) ([]byte, error) {
	for range tries {
		data, steady, err := readOnce(fsys, name, limits)
		if err != nil || steady {
			return data, err
		}
	}
	return nil, problem(RuleUnreadable, "run again once the program that writes it has ended", "is being written while it is read")
}

func readOnce(fsys fs.FS, name string, limits Limits) (data []byte, steady bool, err error) {
	f, err := fsys.Open(name)
	if err != nil {
		return nil, false, unopened(err)
	}
	defer f.Close()
	before, err := f.Stat()
	if err != nil {
		return nil, false, unopened(err)
	}
	if err := checkFile(before, limits); err != nil {
		return nil, false, err
	}
	data = make([]byte, before.Size())
	if _, err := io.ReadFull(f, data); err == io.ErrUnexpectedEOF || err == io.EOF {
		return nil, false, nil // it shrank
	} else if err != nil {
		return nil, false, unopened(err)
	}
	after, err := f.Stat()
	if err != nil {
		return nil, false, unopened(err)
	}
	return data, after.Size() == before.Size() && after.ModTime().Equal(before.ModTime()), nil
}

// make makes the renditions and stores them.
func (j job) make(data []byte, content string) error {
	set, renditions, err := produce(j.ctx, data, j.recipe)
	if err != nil {
		return err
	}
	set.Content = content
	entry, err := pack(set, renditions)
	if err != nil {
		return err
	}
	return j.cache.put(j.entry(content), entry)
}

// reuse returns what the cache has, or an error where it has nothing sound.
func (j job) reuse(content string) (Set, error) {
	entry := j.entry(content)
	d, begin, err := j.cache.describe(entry)
	if err != nil {
		return Set{}, err
	}
	if h := (header{size: d.Info.Stored}); h.checkSize(j.recipe.Limits) != nil {
		return Set{}, h.checkSize(j.recipe.Limits) // the limit was lowered since
	}
	j.cache.keep(entry)
	set := d.set()
	for _, s := range d.Renditions {
		set.Renditions = append(set.Renditions, Rendition{Size: s.Size, Format: s.Format, Bytes: s.Bytes, Hash: s.Hash,
			read: func() ([]byte, error) { return j.fetch(content, begin, s) }})
	}
	return set, nil
}

// fetch returns the bytes of a rendition. Where the entry was damaged or
// removed since, the photo is worked on once more.
func (j job) fetch(content string, begin int64, s stored) ([]byte, error) {
	entry := j.entry(content)
	b, err := j.cache.load(entry, begin+s.Offset, s.Bytes)
	if err == nil && hash(b) == s.Hash {
		return b, nil
	}
	j.cache.store.remove(entry)
	j.cache.spare.remove(entry)
	data, err := readPhoto(j.fsys, j.name, j.recipe.Limits)
	if err != nil {
		return nil, err
	}
	if hash(data) != content {
		return nil, fmt.Errorf("photo %q changed during the run", j.name)
	}
	if err := j.make(data, content); err != nil {
		return nil, err
	}
	if b, err = j.cache.load(entry, begin+s.Offset, s.Bytes); err != nil {
		return nil, fmt.Errorf("photo cache: %w", err)
	}
	if hash(b) != s.Hash {
		return nil, errors.New("photo cache: the folder does not keep what is written to it")
	}
	return b, nil
}

// recall returns the content of a photo that looks as it did in the last run.
func (c *Cache) recall(name string, stat fs.FileInfo) (string, bool) {
	c.mu.Lock()
	defer c.mu.Unlock()
	s, ok := c.used[name]
	if !ok {
		s, ok = c.seen[name]
	}
	if !ok || s.Size != stat.Size() || s.Modified != stat.ModTime().UnixNano() {
		return "", false
	}
	c.used[name] = s
	return s.Content, true
}

// settled is how old a photo's time must be before it is trusted: a file that
// is written twice within one tick of a file system's clock has the same size
// and time with other content. FAT counts in steps of 2 s.
const settled = 3 * time.Second

func (c *Cache) remember(name string, stat fs.FileInfo, content string) {
	c.mu.Lock()
	defer c.mu.Unlock()
	delete(c.used, name)
	if c.now().Sub(stat.ModTime()) > settled {
		c.used[name] = seen{stat.Size(), stat.ModTime().UnixNano(), content}
	}
}

func (c *Cache) keep(entry string) {
	c.mu.Lock()
	defer c.mu.Unlock()
	c.kept[entry] = true
}

// put stores an entry. A disk that is full or must not be written to is no
// reason to stop: the entry then stays in memory, and Flush says so.
func (c *Cache) put(entry string, b []byte) error {
	err := c.store.put(entry, b)
	if err == nil {
		return nil
	}
	c.mu.Lock()
	c.full = err
	c.mu.Unlock()
	return c.spare.put(entry, b)
}

func (c *Cache) open(entry string) (content, int64, error) {
	f, size, err := c.store.open(entry)
	if err != nil {
		return c.spare.open(entry)
	}
	return f, size, nil
}

// describe reads the description of an entry and marks it as used.
func (c *Cache) describe(entry string) (description, int64, error) {
	f, size, err := c.open(entry)
	if err != nil {
		return description{}, 0, err
	}
	defer f.Close()
	d, begin, err := unpack(f, size)
	if err == nil {
		c.store.touch(entry, c.now())
	}
	return d, begin, err
}

// load reads n bytes of an entry.
func (c *Cache) load(entry string, offset, n int64) ([]byte, error) {
	f, size, err := c.open(entry)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	if n < 0 || offset < 0 || offset+n > size {
		return nil, errDamagedEntry
	}
	b := make([]byte, n)
	_, err = f.ReadAt(b, offset)
	if err == io.EOF {
		err = nil
	}
	return b, err
}

// Flush writes down which photos were seen and removes the entries used longest
// ago until the cache is within its bound. What this session asked for stays,
// since its renditions may not be read yet, and a bound that photos of one
// workshop exceed would have them all made anew by every run. Call it once all
// photos were asked for. An error says why results of this run were not kept;
// they are sound all the same.
func (c *Cache) Flush() error {
	c.mu.Lock()
	defer c.mu.Unlock()
	err := c.full
	if c.index != "" && len(c.used) > 0 && err == nil {
		err = writeIndex(c.index, c.used)
	}
	if err == nil {
		err = c.store.prune(c.most, c.kept, c.now())
	}
	c.full = nil
	if err != nil {
		return fmt.Errorf("photo cache: %w", err)
	}
	return nil
}
