package site

import (
	"time"

	"spruelight/gen/page"
	"spruelight/gen/topic"
)

// Search is the search page: what the script must know, and all pages by build.
type Search struct {
	Shards, Chunk int
	Groups        []Contents
}

// Contents are the pages of a build, or of the workshop where Name is "".
type Contents struct {
	Name, Home string
	Links      []page.Link
}

// Techniques is the page that lists all techniques.
type Techniques struct {
	List    []TechniqueRow
	Updated time.Time
}

// TechniqueRow is one technique in the list.
type TechniqueRow struct {
	Link     page.Link
	Builds   []TechniqueBuild
	Sittings int
	Lead     *page.Picture
}

// Technique is the page of one technique.
type Technique struct {
	Name     string
	Also     []string // other words for it
	Builds   []TechniqueBuild
	Sittings int
	Lead     *page.Picture
	Updated  time.Time
}

// TechniqueBuild is a build that shows a technique, with its sittings that do.
type TechniqueBuild struct {
	Build    topic.Card
	Sittings []topic.SittingCard
}
