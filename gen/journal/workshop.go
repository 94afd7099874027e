package journal

import (
	"time"

	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

// Workshop is everything read from a workshop folder.
type Workshop struct {
	Settings Settings
	Rack     Rack
	Shelf    source.Entries[ShelfPiece] // models and figures that are no builds
	Builds   []*Build                   // by slug
	Wall     []*Leaf                    // by name
	Files    []string                   // every file that was looked at, sorted
	Hidden   []string                   // files left out because their names begin with a dot
	Zone     *time.Location
	top      []string // what the workshop's folder lists
}

// Build returns the build of a slug.
func (w *Workshop) Build(slug string) (*Build, bool) {
	for _, b := range w.Builds {
		if b.Slug == slug {
			return b, true
		}
	}
	return nil, false
}

// Clock reads a moment in the workshop's time zone. A wall clock has no zone of
// its own: its hands show the workshop's time.
func (w *Workshop) Clock(moment time.Time, wall bool) time.Time {
	if wall {
		return time.Date(moment.Year(), moment.Month(), moment.Day(), moment.Hour(), moment.Minute(), moment.Second(), 0, w.Zone)
	}
	return moment.In(w.Zone)
}

// Settings is workshop.yaml.
type Settings struct {
	At       source.Span
	Name     Text                    `key:"name,required" doc:"The workshop's name, shown at the head of every page" eg:"The Saltmarsh Bench"`
	About    Text                    `key:"about" doc:"One or two sentences about the workshop, for the front page and the feeds" eg:"Lit models of small working craft"`
	Keeper   Text                    `key:"keeper" doc:"Who keeps the bench; the author named in feeds" eg:"the keeper of the bench"`
	Address  Text                    `key:"address" doc:"Where the site will live; feeds and canonical links need it" eg:"https://bench.example/"`
	Language Text                    `key:"language" doc:"Language of the pages" eg:"en" one:"en|de|fr|es|ja"`
	Zone     Text                    `key:"time zone" doc:"IANA name of the time zone that clocks and embargoes go by; UTC when not given" eg:"Europe/Berlin"`
	Lengths  Text                    `key:"lengths" doc:"How lengths are shown; both are read" eg:"metric" one:"metric|inches"`
	Currency Text                    `key:"currency" doc:"ISO 4217 code of the workshop's own currency; €, £, $ and ¥ stand for it where they are its sign" eg:"EUR"`
	Theme    Text                    `key:"theme" doc:"Name of a built-in theme, or a folder of the workshop" eg:"sheet"`
	Stages   []Text                  `key:"stages" doc:"What sittings can be for; the eight usual stages when not given" eg:"[assembly, lighting, painting]"`
	Series   Text                    `key:"resistors" doc:"Series of preferred values for resistors" eg:"E24" one:"E12|E24|E96"`
	Tight    Val[quantity.Share]     `key:"resistor tolerance" doc:"Tolerance of the resistors at the bench; that of their series when not given" eg:"1 %"`
	Photos   PhotoSettings           `key:"photos" doc:"How photos are read and written"`
	Tags     source.Entries[[]Text]  `key:"techniques" doc:"Names of techniques with the other words that mean them" eg:"{light blocking: [light block, blackout]}"`
	Slack    Val[quantity.Metres]    `key:"slack" doc:"Extra wire at each end of a piece" eg:"15 mm"`
	Camera   Val[quantity.Fraction]  `key:"camera" doc:"Exposure time of the film camera, to warn of bands from dimmed lamps" eg:"1/50 s"`
	Ambient  Val[quantity.Celsius]   `key:"temperature" doc:"Usual temperature at the bench" eg:"20 °C"`
	Cabinets []Cabinet               `key:"cabinets" doc:"Where finished models are shown"`
	Air      Val[quantity.Metres]    `key:"clearance" doc:"Air a model wants to walls, glass and neighbours in a cabinet; 20 mm when not given" eg:"20 mm"`
	Review   ReviewSettings          `key:"review" doc:"How kits are judged"`
	Silence  source.Entries[Silence] `key:"silence" doc:"Rules that shall not speak in the whole workshop, each with the reason, which is printed" eg:"{alt-missing: the old journals get their words one by one}"`
	Lineup   []Text                  `key:"line-up" doc:"Models of the line-up; all that have sizes when not given" eg:"[marram, harbour-crane]"`
}

// PhotoSettings says how photos are treated.
type PhotoSettings struct {
	Limit Val[int] `key:"limit" doc:"Largest photo that is decoded, in megapixels; 100 when not given" eg:"100"`
	Also  Text     `key:"also" doc:"A second format written beside JPEG" eg:"webp" one:"webp"`
}

// defaultStages are the stages of a workshop that names none.
var defaultStages = []string{"assembly", "lighting", "masking", "painting", "weathering", "decals", "finishing", "photography"}

// StageNames returns what sittings can be for.
func (s *Settings) StageNames() []string {
	if len(s.Stages) == 0 {
		return defaultStages
	}
	names := make([]string, len(s.Stages))
	for i, stage := range s.Stages {
		names[i] = stage.V
	}
	return names
}

// Leaf is a free page of the workshop wall.
type Leaf struct {
	Name  string // "about" for wall/about.md
	File  *source.File
	Front LeafFront
	Body  *Body

	Marked bool // a draft that is shown as one
}

// LeafFront is the front matter of a free page.
type LeafFront struct {
	At    source.Span
	Title Text      `key:"title,required" doc:"The page's title" eg:"About this bench"`
	Says  Text      `key:"summary" doc:"One sentence for search results and feeds" eg:"Who builds here, and how"`
	Order Val[int]  `key:"order" doc:"Place among the pages in the navigation; lower comes first" eg:"1"`
	Draft Val[bool] `key:"draft" doc:"yes while it is written: checked, and not in the site until the key is taken away" eg:"yes"`
	Group Text      `key:"group" doc:"Pages of one group share one entry in the navigation, which leads to the first of them and from there to the others" eg:"Guide"`
}
