package hostile

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"golang.org/x/net/html"
)

// Runs reads a page or a part of one as a browser does and lists what in it
// could run, load something from elsewhere or lead out by a scheme other than
// http, https and mailto. What the page's own theme may hold is not listed:
// scripts from the site itself, structured data, its search form, and a
// drawing's style sheet that reaches nowhere.
func Runs(page []byte) []string {
	doc, err := html.Parse(bytes.NewReader(page))
	if err != nil {
		return []string{err.Error()}
	}
	list := runs(doc)
	// Read, written and read again, markup may change its meaning.
	var again bytes.Buffer
	if err := html.Render(&again, doc); err != nil {
		return append(list, err.Error())
	}
	second, err := html.Parse(&again)
	if err != nil {
		return append(list, err.Error())
	}
	for _, r := range runs(second) {
		list = append(list, "read again: "+r)
	}
	return list
}

func runs(doc *html.Node) []string {
	var list []string
	for n := range doc.Descendants() {
		if n.Type == html.ElementNode {
			list = append(list, runsIn(n)...)
		}
	}
	return list
}

// active are elements that run, load or reroute whatever their attributes say.
var active = strings.Fields(`iframe frame frameset object embed applet base portal template noscript foreignobject
	animate animatetransform animatemotion set image feimage handler plaintext xmp listing isindex keygen`)

func runsIn(n *html.Node) []string {
	var list []string
	name := strings.ToLower(n.Data)
	if slices.Contains(active, name) {
		list = append(list, "<"+name+">")
	}
	if name == "script" && attr(n, "type") != "application/ld+json" && (attr(n, "src") == "" || n.FirstChild != nil) {
		list = append(list, "a script of its own")
	}
	if name == "style" && (n.Namespace != "svg" || reaches(n)) {
		list = append(list, "<style>")
	}
	if name == "form" && (attr(n, "role") != "search" || attr(n, "action") != "") {
		list = append(list, "<form>")
	}
	if name == "meta" && strings.EqualFold(attr(n, "http-equiv"), "refresh") {
		list = append(list, "a redirection")
	}
	for _, a := range n.Attr {
		key := strings.ToLower(a.Key)
		switch {
		case strings.HasPrefix(key, "on"), key == "style", key == "srcdoc", key == "formaction", key == "ping", key == "background":
			list = append(list, fmt.Sprintf("<%s %s=%q>", name, key, a.Val))
		case key == "href" || key == "src" || key == "action" || key == "data" || key == "poster" || key == "srcset" || key == "cite":
			if fault := leads(name, key, a.Val); fault != "" {
				list = append(list, fmt.Sprintf("<%s %s=%q>: %s", name, key, a.Val, fault))
			}
		}
	}
	return list
}

// reaches reports whether a drawing's style sheet loads or runs anything.
func reaches(style *html.Node) bool {
	for n := range style.Descendants() {
		text := strings.ToLower(strings.ReplaceAll(n.Data, "url(#", ""))
		for _, sign := range []string{"url(", "@import", "expression(", `\\`, "src("} {
			if strings.Contains(text, sign) {
				return true
			}
		}
	}
	return false
}

func attr(n *html.Node, key string) string {
	for _, a := range n.Attr {
		if a.Key == key {
			return a.Val
		}
	}
	return ""
}

// leads says what is wrong with an address. Browsers drop tabs and line ends
// anywhere in it and blanks and controls before it (WHATWG URL, 4.4).
func leads(element, key, address string) string {
	clean := strings.NewReplacer("\t", "", "\n", "", "\r", "").Replace(address)
	clean = strings.ToLower(strings.TrimLeftFunc(clean, func(r rune) bool { return r <= ' ' }))
	scheme, _, absolute := strings.Cut(clean, ":")
	absolute = absolute && !strings.ContainsAny(scheme, "/?#") && scheme != ""
	link := element == "a" || element == "link" && key == "href"
	switch {
	case strings.HasPrefix(strings.ReplaceAll(clean, `\`, "/"), "//"):
		return "another host"
	case !absolute, scheme == "mailto" && link, (scheme == "http" || scheme == "https") && link:
		return ""
	case element == "img" && strings.HasPrefix(clean, "data:image/") && !strings.HasPrefix(clean, "data:image/svg"):
		return ""
	}
	return "scheme " + scheme
}

// NotXML says why a text is not well-formed XML, "" where it is.
func NotXML(text []byte) string {
	d := xml.NewDecoder(bytes.NewReader(text))
	for {
		_, err := d.Token()
		if errors.Is(err, io.EOF) {
			return ""
		}
		if err != nil {
			return err.Error()
		}
	}
}
