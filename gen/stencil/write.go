package stencil

import (
	"bytes"
	"strings"
)

// writer writes a text whose escaping is plain, or reports that it is not.
type writer func(out *bytes.Buffer, text string) bool

// writeHTML writes a text as html/template writes it between tags and in quoted
// attributes.
func writeHTML(out *bytes.Buffer, text string) bool {
	last := 0
	for i := range len(text) {
		if with := inHTML[text[i]]; with != "" {
			out.WriteString(text[last:i])
			out.WriteString(with)
			last = i + 1
		}
	}
	out.WriteString(text[last:])
	return true
}

// inHTML is what html/template writes for a byte; "" for the byte itself.
var inHTML = [256]string{0: "\uFFFD", '"': "&#34;", '&': "&amp;", '\'': "&#39;", '+': "&#43;", '<': "&lt;", '>': "&gt;"}

// writeAddress writes an address of plain characters that html/template lets pass.
func writeAddress(out *bytes.Buffer, text string) bool {
	if strings.Contains(text, ":") && !strings.HasPrefix(text, "https://") && !strings.HasPrefix(text, "http://") {
		return false
	}
	return writeTrusted(out, text)
}

// writeTrusted writes an address of plain characters, whatever its scheme.
func writeTrusted(out *bytes.Buffer, text string) bool {
	for i := range len(text) {
		if !inAddress[text[i]] {
			return false
		}
	}
	return writeHTML(out, text)
}

// inAddress are the unreserved and the reserved characters of an address that
// have no brackets or quotes (RFC 3986, 2.2 and 2.3).
var inAddress = func() (plain [256]bool) {
	for _, c := range []byte("ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-._~:/?#@!$&*+,;=") {
		plain[c] = true
	}
	return plain
}()
