package journal

import (
	"spruelight/gen/circuit"
	"spruelight/gen/quantity"
	"spruelight/gen/source"
	"spruelight/gen/tally"
)

// Build is one model project: builds/<slug>/.
type Build struct {
	Slug     string
	Dir      string // "builds/marram"
	File     *source.File
	Front    BuildFront
	Body     *Body
	Sittings []*Sitting   // by date
	Pictures []string     // those at the top of the folder and in its photos, shown or not
	Hidden   []string     // files left out because their names begin with a dot
	Review   *Review      // nil where there is none
	Drafts   []*Sitting   // by date, where drafts are shown: counted nowhere
	Outline  *source.File // its silhouette as read; nil where there is none

	ReviewMarked bool // the review is a draft that is shown as one
}

// BuildFront is the front matter of build.md.
type BuildFront struct {
	At         source.Span
	Name       Text                                   `key:"name,required" doc:"The build's name" eg:"Survey skiff \"Marram\""`
	Summary    Text                                   `key:"summary" doc:"One or two sentences for the front page, search and feeds" eg:"A lit survey skiff on a short mooring"`
	Kit        tally.Kit                              `key:"kit" doc:"The kit it is built from"`
	Scale      Val[quantity.Scale]                    `key:"scale" doc:"Scale printed on the box" eg:"1/48"`
	Embargo    Val[Moment]                            `key:"embargo" doc:"The whole build, its name included, is kept out of the site until then, in the workshop's time zone" eg:"2026-03-01 09:00"`
	State      Text                                   `key:"state,required" doc:"Where the build stands" eg:"bench" one:"bench|shelf|stash|set aside"`
	Started    Val[quantity.Day]                      `key:"started" doc:"First day, where it is not the first sitting" eg:"2026-02-01"`
	Finished   Val[quantity.Day]                      `key:"finished" doc:"Day on which it was finished" eg:"2026-01-18"`
	Lead       Text                                   `key:"lead" doc:"The photo that stands for the build" eg:"photos/finished.jpg"`
	Subject    []Subject                              `key:"subject" doc:"The size of the real thing, from one source or several; the first is gone by where they disagree"`
	Measured   source.Entries[Val[quantity.Measured]] `key:"measured" doc:"Lengths measured on the model" eg:"{length: 204 mm ± 0.5 mm}"`
	Display    Display                                `key:"display" doc:"The room the finished model takes, base included"`
	Outline    Outline                                `key:"outline" doc:"Its silhouette; outline.svg beside build.md when not given"`
	Circuits   []circuit.Circuit                      `key:"circuits" doc:"What lights it"`
	Parts      []tally.Part                           `key:"parts" doc:"Parts that need counting"`
	Choices    []tally.Choice                         `key:"choices" doc:"Either/or decisions the kit offers"`
	Problems   []tally.Problem                        `key:"problems" doc:"What went wrong, and what was found out"`
	Spent      []tally.Spend                          `key:"spent" doc:"Money spent besides the kit"`
	Extras     []tally.Extra                          `key:"extras" doc:"What is on the model that did not come in the box"`
	Budget     []Val[quantity.Money]                  `key:"budget" doc:"What the build may cost, in one currency or several" eg:"150 EUR"`
	Commission *tally.Commission                      `key:"commission" doc:"Work for a client; kept off the site unless published"`
	Over       []Text                                 `key:"stages done" doc:"Stages in which nothing is left to do; the forecast adds nothing for them" eg:"[assembly]"`
	Techniques []Text                                 `key:"techniques" doc:"Techniques the build shows" eg:"[light blocking, panel wash]"`
	Decals     Val[int]                               `key:"decals" doc:"How many decals the sheet has" eg:"42"`
	Silence    source.Entries[Silence]                `key:"silence" doc:"Rules that shall not speak in this build, each with the reason, which is printed" eg:"{headroom-small: these lamps are meant to glow only}"`
	Repair     Repair                                 `key:"repair" doc:"For whoever opens the model in ten years: printed on its repair sheet"`
	FinishPlan
}

// LampRefs lists the references of a build's lamps: D1, D2 … through all its
// circuits.
func (b *Build) LampRefs() []string {
	var refs []string
	for i := range b.Front.Circuits {
		for range b.Front.Circuits[i].Lamps() {
			refs = append(refs, circuit.LampRef(len(refs)+1))
		}
	}
	return refs
}
