package page

import (
	"bytes"
	"crypto/sha256"
	"encoding/base64"
)

const (
	dataOpen  = `<script type="application/ld+json">`
	dataClose = `</script>`
	policy    = `script-src 'self'`
)

// admitData names a page's block of structured data in the page's own policy
// by its hash (Content Security Policy Level 3, section 2.3.1). Browsers do not
// run such a block, yet checkers ask for its hash.
func admitData(page []byte) []byte {
	at := bytes.Index(page, []byte(dataOpen))
	if at < 0 {
		return page
	}
	block := page[at+len(dataOpen):]
	end := bytes.Index(block, []byte(dataClose))
	if end < 0 {
		return page
	}
	sum := sha256.Sum256(block[:end])
	return bytes.Replace(page, []byte(policy), []byte(policy+` 'sha256-`+base64.StdEncoding.EncodeToString(sum[:])+`'`), 1)
}
