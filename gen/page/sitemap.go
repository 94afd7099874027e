package page

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"time"
)

// mostURLs is the largest number of pages one site map may list (sitemaps.org
// protocol 0.9).
const mostURLs = 50_000

// SiteMap writes sitemap.xml for the sheets. It needs the workshop's address;
// without one it returns nil.
func SiteMap(site *Site, sheets []*Sheet) []byte {
	if site.Address == "" {
		return nil
	}
	var out bytes.Buffer
	out.WriteString(xml.Header + `<urlset xmlns="http://www.sitemaps.org/schemas/sitemap/0.9">` + "\n")
	view := View{Site: site}
	listed := 0
	for _, s := range sheets {
		if s.Aside || listed == mostURLs {
			continue
		}
		listed++
		fmt.Fprintf(&out, "<url><loc>%s</loc>", xmlText(view.Absolute(s.Path)))
		if !s.Updated.IsZero() {
			fmt.Fprintf(&out, "<lastmod>%s</lastmod>", s.Updated.Format(time.DateOnly))
		}
		out.WriteString("</url>\n")
	}
	out.WriteString("</urlset>\n")
	return out.Bytes()
}
