package journal

import (
	"time"

	"spruelight/gen/quantity"
	"spruelight/gen/source"
	"spruelight/gen/tally"
)

// Sitting is one dated spell at the bench: builds/<slug>/2026-02-14.md.
type Sitting struct {
	Slug  string // "2026-02-14-light-test"
	Date  time.Time
	File  *source.File
	Front SittingFront
	Body  *Body
}

// Title returns the sitting's own title, or one made from its file's name.
func (s *Sitting) Title() string {
	if s.Front.Title.Set {
		return s.Front.Title.V
	}
	if words := sittingWords(s.Slug); words != "" {
		return words
	}
	return s.Front.Stage.V
}

// SittingFront is the front matter of a sitting.
type SittingFront struct {
	At      source.Span
	Title   Text                                `key:"title" doc:"What the sitting was about" eg:"First light in the wheelhouse"`
	Hours   Val[quantity.Hours]                 `key:"hours" doc:"Time at the bench" eg:"3 h 20 min"`
	Stage   Text                                `key:"stage,required" doc:"What the sitting was for: one of the workshop's stages" eg:"lighting"`
	Photos  []Photo                             `key:"photos" doc:"The pictures taken"`
	Dated   Val[bool]                           `key:"photo dates" doc:"yes to show the day on which each photo was taken, as its camera wrote it; nothing else that a camera writes is ever shown" eg:"yes"`
	Read    []Reading                           `key:"readings" doc:"What the meter showed"`
	Lit     []Text                              `key:"lit" doc:"Lamps seen to light in this sitting" eg:"[D1, D2]"`
	Parts   []tally.PartEvent                   `key:"parts" doc:"What happened to counted parts"`
	Spent   []tally.Spend                       `key:"spent" doc:"Money spent"`
	Video   *Video                              `key:"video" doc:"The film of the sitting"`
	Tags    []Text                              `key:"techniques" doc:"Techniques the sitting shows" eg:"[light blocking]"`
	Decals  tally.DecalWork                     `key:"decals" doc:"What became of decals: a number is how many were applied"`
	Wrong   Text                                `key:"went wrong" doc:"What went wrong" eg:"primer lifted under the tape"`
	Apart   source.Entries[Val[quantity.Hours]] `key:"apart" doc:"Time that is not bench time, by what it was for; shown, never added to the hours" eg:"{research: 45 min, drying: 12 h}"`
	Treated source.Entries[[]Text]              `key:"treated" doc:"What was done to which parts or areas, told so that it can be said of a part" eg:"{washed in soapy water: [B1, B3]}"`
	Tools   []Text                              `key:"tools" doc:"Tools used, for the show notes" eg:"[pin vice, 0.4 mm drill]"`
	Embargo Val[Moment]                         `key:"embargo" doc:"Kept out of the site until then, in the workshop's time zone" eg:"2026-03-01 09:00"`
	Draft   Val[bool]                           `key:"draft" doc:"yes while it is written: checked, counted nowhere, and not in the site until the key is taken away" eg:"yes"`
	Next    Text                                `key:"next" doc:"The next step, for whoever returns after months" eg:"mask the boot topping"`
	FinishWork
}

// Reading is what a meter showed.
type Reading struct {
	At      source.Span
	Where   Text                `key:"at,required" doc:"Branch or test point" eg:"saloon fore"`
	Current Val[quantity.Amps]  `key:"current" doc:"Current measured" eg:"9.6 mA"`
	Volts   Val[quantity.Volts] `key:"volts" doc:"Voltage measured" eg:"2.98 V"`

	Broken bool // something in it could not be read, or names nothing
}

// Video is the film of a sitting.
type Video struct {
	At       source.Span
	Address  Text                 `key:"address,required" doc:"Where it can be seen" eg:"https://video.example/w/7"`
	Length   Val[quantity.Stamp]  `key:"length" doc:"How long it is" eg:"\"14:32\""`
	Chapters source.Entries[Text] `key:"chapters" doc:"What begins when" eg:"{\"0:00\": What is on the bench}"`
}
