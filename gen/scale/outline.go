package scale

import (
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"strings"

	"spruelight/gen/source"
	"spruelight/gen/svg"
)

var (
	ruleOutlineForm = &source.Rule{Name: "outline-form", Severity: source.Stop,
		Reason: "An outline is read as Extensible Markup Language; what is not well formed cannot be trusted to mean what it shows.",
		Source: "XML 1.0 (fifth edition)",
		Keys:   source.NoKey}
	ruleOutlineRefused = &source.Rule{Name: "outline-refused", Severity: source.Stop,
		Source: "Scalable Vector Graphics 2, W3C; common practice for files of others",
		Reason: "The outline becomes part of a page that others open, so only its one path is taken: no script, picture, " +
			"reference, text or style.",
		Keys: source.NoKey}
	ruleOutlinePath = &source.Rule{Name: "outline-path", Severity: source.Stop,
		Reason: "A silhouette is one path with an extent in both directions.",
		Source: "Scalable Vector Graphics 2, W3C, section 9.3",
		Keys:   source.NoKey}
	ruleOutlineShape = &source.Rule{Name: "outline-proportions", Severity: source.Warn, Source: "common practice, no source",
		Reason: "The outline is stretched to the measured length and height; where its proportions differ the drawing is right " +
			"in size but not in shape.",
		Keys: "build: outline, measured; shelf <name>: outline, measured"}
)

// MaxOutlineBytes is the largest outline that is read.
const MaxOutlineBytes = 1 << 20

// Limits lists the bounds of this package for the guide.
var Limits = []source.Limit{
	{Of: "an outline's file", Most: fmt.Sprintf("%d KiB", MaxOutlineBytes>>10), Why: "A silhouette needs a hundredth of it.", Rule: ruleOutlineForm.Name},
	{Of: "lines and curves of an outline", Most: fmt.Sprint(svg.MaxPathSegments), Why: "More cannot be seen at the size of the line-up.", Rule: ruleOutlinePath.Name},
	{Of: "groups in one another in an outline", Most: fmt.Sprint(maxOutlineDepth), Why: "Each may bend the path; nobody nests more by hand.", Rule: ruleOutlineRefused.Name},
	{Of: "an outline's length to its height, or the other way round", Most: fmt.Sprintf("%d to 1", maxAspect), Why: "The thin side would vanish.", Rule: ruleOutlinePath.Name},
}

// maxOutlineDepth is how deep groups may nest.
const maxOutlineDepth = 32

// ReadOutline takes the one path out of an outline file, with its transforms
// worked in. Anything that could do more than be a shape is refused with a
// finding at its place; the path is then empty. Paint is dropped without a
// word, as the drawing paints by its own roles.
func ReadOutline(f *source.File) (svg.Path, []source.Finding) {
	r := outlineReader{file: f, decoder: xml.NewDecoder(strings.NewReader(f.Text))}
	if len(f.Text) > MaxOutlineBytes {
		return svg.Path{}, []source.Finding{ruleOutlineForm.At(f.Whole(), "simplify the path",
			"the outline is %d bytes long; %d are read", len(f.Text), MaxOutlineBytes)}
	}
	r.read()
	r.judgePath()
	if len(r.found) > 0 {
		return svg.Path{}, r.found
	}
	return r.path, nil
}

// outlineReader reads one outline. It goes on after a refusal, so that all that
// is wrong is told at once.
type outlineReader struct {
	file    *source.File
	decoder *xml.Decoder
	from    int // where the token at hand begins
	open    []openElement
	paths   int
	broken  bool // the path itself was refused
	path    svg.Path
	found   []source.Finding
}

type openElement struct {
	name    string
	refused bool       // of an element that is no part of an outline: what is inside is not looked at
	matrix  svg.Matrix // from inside to the sheet
}

const svgSpace = "http://www.w3.org/2000/svg"

func (r *outlineReader) read() {
	for {
		r.from = int(r.decoder.InputOffset())
		token, err := r.decoder.Token()
		if errors.Is(err, io.EOF) {
			return
		}
		if err != nil {
			r.malformed(err)
			return
		}
		switch t := token.(type) {
		case xml.Directive:
			r.refuse(r.token(), "delete the line that begins with <!", "a document type, which may define entities")
			return
		case xml.ProcInst:
			if t.Target != "xml" {
				r.refuse(r.token(), "delete it", "an instruction to other programs (%s)", t.Target)
			}
		case xml.StartElement:
			r.start(t)
		case xml.EndElement:
			r.open = r.open[:len(r.open)-1]
		case xml.CharData:
			r.text(string(t))
		}
		if len(r.open) > maxOutlineDepth {
			r.refuse(r.token(), "save the path without groups", "more than %d groups in one another", maxOutlineDepth)
			return
		}
	}
}

// token returns the place of the token at hand, its first line only.
func (r *outlineReader) token() source.Span {
	end := int(r.decoder.InputOffset())
	return r.file.At(r.from, end-r.from)
}

func (r *outlineReader) malformed(err error) {
	at := r.file.At(int(r.decoder.InputOffset()), 1)
	says := err.Error()
	var syntax *xml.SyntaxError
	if errors.As(err, &syntax) {
		says = syntax.Msg
		if strings.Contains(says, "entity") {
			r.found = append(r.found, ruleOutlineRefused.At(at, "write the text without entities", "an outline may not hold an entity: %s", says))
			return
		}
	}
	r.found = append(r.found, ruleOutlineForm.At(at, "save it again as plain SVG", "not well-formed XML: %s", says))
}

func (r *outlineReader) refuse(at source.Span, remedy, format string, args ...any) {
	r.found = append(r.found, ruleOutlineRefused.At(at, remedy, "an outline may not hold "+format, args...))
}

// place returns the innermost element that is open.
func (r *outlineReader) place() openElement {
	if len(r.open) == 0 {
		return openElement{matrix: svg.Scale(1, 1)}
	}
	return r.open[len(r.open)-1]
}

func (r *outlineReader) text(text string) {
	in := r.place()
	if strings.TrimSpace(text) == "" || in.refused || in.name == "title" || in.name == "desc" {
		return
	}
	if len(r.open) > 0 { // outside the root the decoder refuses it itself, or it is white space
		r.refuse(r.token(), "delete it", "text")
	}
}

// start takes one element in, or refuses it.
func (r *outlineReader) start(t xml.StartElement) {
	in := r.place()
	e := openElement{name: t.Name.Local, refused: in.refused, matrix: in.matrix}
	if !e.refused {
		if why, remedy := r.unwanted(t, in); why != "" {
			e.refused = true
			r.refuse(r.token(), remedy, "%s", why)
		}
	}
	if !e.refused {
		e.matrix = r.attributes(t, in.matrix)
		if e.name == "path" {
			r.takePath(t, e.matrix)
		}
	}
	r.open = append(r.open, e)
}

// unwanted says what is wrong with an element, "" where it may stand.
func (r *outlineReader) unwanted(t xml.StartElement, in openElement) (why, remedy string) {
	name := t.Name.Local
	root := len(r.open) == 0
	group := in.name == "svg" || in.name == "g"
	switch {
	case t.Name.Space != svgSpace && t.Name.Space != "":
		return "an element of another language (" + name + ")", "save it as plain SVG"
	case root && name != "svg":
		return "anything but svg as its first element (" + name + ")", "save it as plain SVG"
	case root, group && (name == "g" || name == "path" || name == "defs"), (group || in.name == "path") && (name == "title" || name == "desc"):
		return "", "" // of defs, which drawing programs leave empty, the contents are refused
	case name == "script":
		return "script", "delete it"
	case name == "image" || name == "use" || name == "foreignObject":
		return "pictures or other documents (" + name + ")", "trace it, and keep the path alone"
	case shapes[name]:
		return "a shape beside the path (" + name + ")", "turn it into a path and join it with the other"
	}
	return "the element " + name, "delete it, or save as plain SVG"
}

// shapes are the basic shapes of SVG 2, chapter 10, which a drawing program can
// turn into paths.
var shapes = map[string]bool{"rect": true, "circle": true, "ellipse": true, "line": true, "polyline": true, "polygon": true}

// attributes checks the attributes of an element and returns its matrix.
func (r *outlineReader) attributes(t xml.StartElement, outside svg.Matrix) svg.Matrix {
	matrix := outside
	for _, a := range t.Attr {
		name, value := a.Name.Local, a.Value
		at := r.attribute(name)
		switch {
		case a.Name.Space == "xmlns" || name == "xmlns" || a.Name.Space == "http://www.w3.org/XML/1998/namespace" || a.Name.Space == "xml":
		case strings.HasPrefix(strings.ToLower(name), "on"):
			r.refuse(at, "delete the attribute", "script (%s)", name)
		case name == "href":
			r.refuse(at, "delete the attribute", "a reference (%s)", name)
		case reaches(value):
			r.refuse(at, "delete the attribute; outlines need no paint", "a reference inside %s", name)
		case a.Name.Space != "":
			r.refuse(at, "save it as plain SVG", "an attribute of another language (%s)", name)
		case name == "transform":
			own, err := readTransform(value)
			if err != nil {
				r.found = append(r.found, ruleOutlinePath.At(at, "apply the transform to the path and save again", "the transform %s", err))
			}
			matrix = own.Then(outside)
		case !harmless[name] && !strings.HasPrefix(name, "stroke") && !strings.HasPrefix(name, "aria-") && !strings.HasPrefix(name, "data-"):
			r.refuse(at, "delete the attribute", "the attribute %s", name)
		}
	}
	return matrix
}

// reaches reports whether an attribute's value may reach outside: a reference
// to paint or a file, a scheme that runs, or the escapes that could hide one.
func reaches(value string) bool {
	v := strings.ToLower(strings.Join(strings.Fields(value), ""))
	for _, sign := range []string{"url(", "javascript:", "data:", "@import", "expression(", `\`, "src("} {
		if strings.Contains(v, sign) {
			return true
		}
	}
	return false
}

// harmless are the attributes that say how the shape was painted or where its
// sheet lay. They are dropped.
var harmless = func() map[string]bool {
	names := map[string]bool{}
	for _, n := range strings.Fields(`d id class style version baseProfile viewBox width height x y preserveAspectRatio role
		fill fill-rule fill-opacity clip-rule opacity color display visibility paint-order vector-effect
		shape-rendering pathLength enable-background overflow`) {
		names[n] = true
	}
	return names
}()

// attribute returns the place of an attribute's name in the tag at hand.
func (r *outlineReader) attribute(name string) source.Span {
	tag := r.token()
	text := tag.Text()
	for from := 0; ; {
		i := strings.Index(text[from:], name)
		if i < 0 {
			return tag
		}
		i += from
		after := strings.TrimLeft(text[i+len(name):], " \t\r\n")
		if i > 0 && strings.ContainsRune(" \t\r\n:", rune(text[i-1])) && strings.HasPrefix(after, "=") {
			return tag.Within(i, len(name))
		}
		from = i + 1
	}
}

func (r *outlineReader) takePath(t xml.StartElement, m svg.Matrix) {
	r.paths++
	if r.paths == 2 {
		r.found = append(r.found, ruleOutlinePath.At(r.token(), "unite the paths into one", "the outline has more than one path"))
	}
	if r.paths > 1 {
		return
	}
	data := ""
	for _, a := range t.Attr {
		if a.Name.Local == "d" && a.Name.Space == "" {
			data = a.Value
		}
	}
	path, err := svg.ParsePath(data)
	if err != nil {
		r.broken = true
		r.found = append(r.found, ruleOutlinePath.At(r.inData(err), "save the path again, or draw it anew",
			"the path cannot be read: %s", pathFault(err)))
		return
	}
	r.path = path.Transform(m)
}

// inData returns the place in the path data that an error speaks of.
func (r *outlineReader) inData(err error) source.Span {
	at := r.attribute("d")
	var fault *svg.PathError
	if !errors.As(err, &fault) {
		return at
	}
	text := r.token().Text()
	value := at.End - r.from
	quote := strings.IndexAny(text[value:], `"'`)
	if quote < 0 {
		return at
	}
	return r.token().Within(value+quote+1+fault.Offset, 1)
}

func pathFault(err error) string {
	var fault *svg.PathError
	if errors.As(err, &fault) {
		return fault.What
	}
	return err.Error()
}

// judgePath refuses a file without a path, and a path without extent.
func (r *outlineReader) judgePath() {
	if len(r.found) > 0 || r.broken {
		return
	}
	if r.paths == 0 {
		r.found = append(r.found, ruleOutlinePath.At(r.file.Whole(), "draw the silhouette as one path", "the outline has no path"))
		return
	}
	// The limit is what the drawing can place to the hundredth after fitting.
	box := r.path.Box()
	if !(box.W > 1e-6 && box.H > 1e-6 && box.W < 1e9 && box.H < 1e9) || box.W/box.H > maxAspect || box.H/box.W > maxAspect {
		r.found = append(r.found, ruleOutlinePath.At(r.file.Whole(), "draw the silhouette with a width and a height",
			"the path has no sensible extent: %.4g by %.4g", box.W, box.H))
	}
}

// maxAspect is how much longer than high an outline may be, or higher than long.
const maxAspect = 1000
