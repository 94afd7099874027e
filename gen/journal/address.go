package journal

import (
	"net/url"
	"strings"

	"spruelight/gen/source"
)

var ruleScheme = &source.Rule{Name: "link-scheme", Severity: source.Stop, Source: "RFC 3986",
	Reason: "Only web, mail and relative links are safe to publish.",
	Keys:   source.NoKey}

// checkAddress holds a web address against what may be published: http or
// https, a host, and nothing that a page or a feed would have to bend.
func checkAddress(address Text) source.Findings {
	if !address.Set {
		return nil
	}
	scheme, absolute := Scheme(address.V)
	switch {
	case absolute && scheme != "http" && scheme != "https":
		return source.Findings{ruleScheme.At(address.At, "write an address that begins with https:// or http://",
			"addresses of scheme %q are not published", scheme)}
	case !absolute:
		return source.Findings{ruleValue.At(address.At, "write it in full, like https://bench.example/", "%q is no web address", address.V)}
	}
	u, err := url.Parse(address.V)
	if err != nil || u.Host == "" || u.User != nil || strings.ContainsAny(address.V, " \t\r\n\"'<>\\^`{|}") {
		return source.Findings{ruleValue.At(address.At, "write it in full, like https://bench.example/", "%q is no web address", address.V)}
	}
	return nil
}

// checkHome holds the site's own address: pages are put behind it.
func checkHome(address Text) source.Findings {
	found := checkAddress(address)
	if found == nil && strings.ContainsAny(address.V, "?#") {
		found.Add(ruleValue.At(address.At, "leave out what follows ? or #", "%q cannot be the beginning of other addresses", address.V))
	}
	return found
}
