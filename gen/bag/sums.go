package bag

import (
	"crypto/md5"
	"crypto/sha1"
	"crypto/sha256"
	"crypto/sha512"
	"encoding/hex"
	"hash"
	"io"
	"maps"
	"slices"
)

// algorithms are the checksums known, by their names in manifests (section
// 2.4). MD5 and SHA-1 are read only: they no longer protect against intent.
var algorithms = map[string]func() hash.Hash{
	"md5": md5.New, "sha1": sha1.New,
	"sha224": sha256.New224, "sha256": sha256.New, "sha384": sha512.New384, "sha512": sha512.New,
}

// strength orders algorithms, the best first.
var strength = []string{"sha512", "sha384", "sha256", "sha224", "sha1", "md5"}

func writable(algorithm string) bool { return algorithm == "sha256" || algorithm == "sha512" }

// sumAll reads to the end and returns the length and each of the checksums.
func sumAll(r io.Reader, names []string) (int64, map[string]string, error) {
	hashes := map[string]hash.Hash{}
	var to []io.Writer
	for _, name := range names {
		hashes[name] = algorithms[name]()
		to = append(to, hashes[name])
	}
	n, err := io.Copy(io.MultiWriter(to...), r)
	sums := map[string]string{}
	for name, h := range hashes {
		sums[name] = hex.EncodeToString(h.Sum(nil))
	}
	return n, sums, err
}

func sortedKeys[V any](m map[string]V) []string { return slices.Sorted(maps.Keys(m)) }
