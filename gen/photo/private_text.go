package photo

import (
	"bytes"
	"encoding/xml"
	"io"
	"regexp"
	"slices"
	"strings"
)

// placeWords and cameraWords are parts of the names of properties that say
// where a photo was taken, and by whose camera of which number (XMP namespaces
// exif, exifEX, aux, photoshop, Iptc4xmpCore and Iptc4xmpExt, and PNG keywords).
var (
	placeWords  = []string{"gps", "location", "city", "country", "state", "province", "geo", "latitude", "longitude", "altitude", "landmark"}
	cameraWords = []string{"serial", "owner", "uniqueid"}
)

// Free text is searched for less: "location" and "city" are ordinary words
// there. A pair of numbers with three decimals or more, or degrees with minutes,
// is a place all the same.
var (
	placeText = regexp.MustCompile(`(?i)gps|latitude|longitude|` +
		`-?\d{1,3}\.\d{3,}[°\s]*[NS]?\s*[,;/ ]\s*-?\d{1,3}\.\d{3,}|\d{1,3}\s*(°|deg)\s*\d{1,2}`)
	cameraText = regexp.MustCompile(`(?i)serial|ownername|owner name|\bs/n\b`)
)

func holdsWord(name string, words []string) bool {
	low := strings.ToLower(name)
	return slices.ContainsFunc(words, func(w string) bool { return strings.Contains(low, w) })
}

func (s *stripper) namesPlace(name string) bool { return !s.keep.Place && holdsWord(name, placeWords) }
func (s *stripper) namesCamera(name string) bool {
	return !s.keep.Camera && holdsWord(name, cameraWords)
}

// narrow makes UTF-16 searchable.
func narrow(text []byte) []byte { return bytes.ReplaceAll(text, []byte{0}, nil) }

func (s *stripper) namesPlaceText(text []byte) bool {
	return !s.keep.Place && placeText.Match(narrow(text))
}

func (s *stripper) namesCameraText(text []byte) bool {
	return !s.keep.Camera && cameraText.Match(narrow(text))
}

// keepsText reports whether free text may stay, and counts it where not.
func (s *stripper) keepsText(text []byte) bool {
	switch {
	case s.namesPlaceText(text):
		s.gone.Places++
	case s.namesCameraText(text):
		s.gone.Serials++
	default:
		return true
	}
	return false
}

// plainSpaces are the XMP namespaces whose properties are known. Others, those
// of makers and of depth maps among them, may hold anything.
var plainSpaces = []string{"", "xml", "xmlns", "http://www.w3.org/XML/1998/namespace", "adobe:ns:meta/",
	"http://www.w3.org/1999/02/22-rdf-syntax-ns#", "http://purl.org/dc/elements/1.1/",
	"http://ns.adobe.com/xap/1.0/", "http://ns.adobe.com/xap/1.0/rights/", "http://ns.adobe.com/xap/1.0/mm/",
	"http://ns.adobe.com/xap/1.0/sType/ResourceEvent#", "http://ns.adobe.com/xap/1.0/sType/ResourceRef#",
	"http://ns.adobe.com/tiff/1.0/", "http://ns.adobe.com/exif/1.0/", "http://cipa.jp/exif/1.0/", "http://ns.adobe.com/exif/1.0/aux/",
	"http://ns.adobe.com/photoshop/1.0/", "http://ns.adobe.com/camera-raw-settings/1.0/", "http://ns.adobe.com/lightroom/1.0/",
	"http://iptc.org/std/Iptc4xmpCore/1.0/xmlns/", "http://iptc.org/std/Iptc4xmpExt/2008-02-29/"}

// keepsXMP reports whether an XMP packet may stay. It is one text, so that it
// goes as a whole where one of its properties must.
func (s *stripper) keepsXMP(text []byte) bool {
	places, cameras, known := 0, 0, true
	look := func(name xml.Name) {
		switch {
		case name.Space == "xmlns" || name.Local == "xmlns":
		case s.namesPlace(name.Local):
			places++
		case s.namesCamera(name.Local):
			cameras++
		case !slices.Contains(plainSpaces, name.Space), name.Local == "Thumbnails":
			known = false
		}
	}
	in := xml.NewDecoder(bytes.NewReader(text))
	for {
		token, err := in.Token()
		if err == io.EOF {
			break
		}
		if err != nil {
			known = false
			break
		}
		switch t := token.(type) {
		case xml.StartElement:
			look(t.Name)
			for _, a := range t.Attr {
				look(a.Name)
			}
		case xml.Directive:
			known = false
		}
	}
	switch {
	case places > 0 || s.namesPlaceText(text):
		s.gone.Places++
	case cameras > 0 || s.namesCameraText(text):
		s.gone.Serials++
	case !known:
		return s.unknown()
	default:
		return true
	}
	if places > 0 && cameras > 0 {
		s.gone.Serials++
	}
	return false
}
