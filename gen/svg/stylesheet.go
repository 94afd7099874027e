package svg

import "strings"

// roleLook is how one role looks where no theme says otherwise.
type roleLook struct {
	name                   string
	light, dark, print     string
	forced                 string // system colour under forced colours (CSS Color 4, section 6.2)
	fillClass, strokeClass string
}

// roles holds the defaults. Ink, soft, plus, minus and accent keep a contrast of
// 4.5 to paper in light, dark and print (WCAG 2.2, 1.4.3), as they are used for words.
var roles = [roleCount]roleLook{
	None:   {name: "none", light: "none"},
	Ink:    look("ink", "#22262b", "#e9e5db", "#000", "CanvasText"),
	Soft:   look("soft", "#5d626a", "#aeaaa0", "#333", "CanvasText"),
	Paper:  look("paper", "#fcfbf8", "#16181b", "#fff", "Canvas"),
	Rule:   look("rule", "#cbc8be", "#44484d", "#999", "GrayText"),
	Accent: look("accent", "#a65b00", "#f2a93b", "#000", "CanvasText"),
	Glow:   look("glow", "#f8e6c3", "#3b2f1c", "#e4e4e4", "Canvas"),
	Plus:   look("plus", "#b0271d", "#ff8d80", "#000", "CanvasText"),
	Minus:  look("minus", "#1d4f91", "#8ab8f5", "#000", "CanvasText"),
	Fill1:  look("fill1", "#f3d9a4", "#6e4f1c", "#fff", "Canvas"),
	Fill2:  look("fill2", "#c3d0da", "#3d5163", "#fff", "Canvas"),
	Fill3:  look("fill3", "#d5dbc3", "#4a5637", "#fff", "Canvas"),
	Fill4:  look("fill4", "#e7cdc1", "#694638", "#fff", "Canvas"),
	Fill5:  look("fill5", "#ddd9cd", "#55524a", "#fff", "Canvas"),
	Fill6:  look("fill6", "#bfd6d3", "#2f5a57", "#fff", "Canvas"),
	Fill7:  look("fill7", "#efe5b9", "#6a5f2c", "#fff", "Canvas"),
	Fill8:  look("fill8", "#d8cfe0", "#55486a", "#fff", "Canvas"),
}

func look(name, light, dark, print, forced string) roleLook {
	return roleLook{name, light, dark, print, forced, "d-" + name, "d-s-" + name}
}

var (
	stylesheet = makeStylesheet()
	properties = makeProperties()
)

// Stylesheet returns the rules that give the roles their colours from the
// custom properties --draw-…, each with a fallback. A page that shows inline
// drawings includes it once; a theme sets the properties, or includes Properties.
func Stylesheet() string { return stylesheet }

// Properties returns the custom properties --draw-… with their own defaults, for
// light and dark by the reader's setting, for forced colours and for print.
func Properties() string { return properties }

func makeStylesheet() string {
	var b strings.Builder
	b.WriteString("svg.drawing{max-width:100%;height:auto;font-family:" + familySans + "}\n")
	for i, r := range roles[Ink:] {
		value := "var(--draw-" + r.name + ")" // the attribute beside a class is the fallback
		b.WriteString("." + r.fillClass + "{fill:" + value + "}")
		if i < int(Fill1-Ink) {
			b.WriteString("." + r.strokeClass + "{stroke:" + value + "}")
		}
		b.WriteString("\n")
	}
	return b.String()
}

func makeProperties() string {
	var b strings.Builder
	block := func(colour func(roleLook) string) {
		b.WriteString(":root{")
		for i, r := range roles[Ink:] {
			if i > 0 {
				b.WriteByte(';')
			}
			b.WriteString("--draw-" + r.name + ":" + colour(r))
		}
		b.WriteString("}")
	}
	block(func(r roleLook) string { return r.light })
	b.WriteString("\n@media (prefers-color-scheme:dark){")
	block(func(r roleLook) string { return r.dark })
	b.WriteString("}\n@media (forced-colors:active){")
	block(func(r roleLook) string { return r.forced })
	b.WriteString("}\n@media print{")
	block(func(r roleLook) string { return r.print })
	b.WriteString("}\n")
	return b.String()
}
