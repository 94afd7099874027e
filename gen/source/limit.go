package source

// Limit is a bound on what is read. Limits are declared next to the code that
// keeps to them and listed in the guide.
type Limit struct {
	Of   string // what is bounded, such as "front matter of one file"
	Most string // how much is read, with its unit, such as "256 KiB"
	Why  string // why there is a bound, and how to stay under it
	Rule string // name of the rule whose finding says that it was passed
}
