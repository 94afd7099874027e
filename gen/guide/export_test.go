package guide

// What the tests from outside look at, which run the whole program.
var (
	SittingText = sittingText
	NameOf      = nameOf
	KnownKeys   = knownKeys
)
