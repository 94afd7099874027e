package tally

import (
	"unicode"
	"unicode/utf8"

	"spruelight/gen/source"
)

// Obtained says how a kit came to the bench.
type Obtained string

// The ways to obtain a kit. The words are those of the journal.
const (
	ByPurchase   Obtained = "bought"
	AsSample     Obtained = "review sample"
	AsGift       Obtained = "gift"
	AsCommission Obtained = "commission"
	AsLoan       Obtained = "loan"
	AtDiscount   Obtained = "discounted"
)

// AllObtained are the ways to obtain a kit, in the order of the guide.
var AllObtained = []Obtained{ByPurchase, AsSample, AsGift, AsCommission, AsLoan, AtDiscount}

// Known reports whether it is one of the journal's words.
func (o Obtained) Known() bool {
	for _, x := range AllObtained {
		if x == o {
			return true
		}
	}
	return false
}

// Paid reports whether the builder paid for the kit: so it is taken to be
// unless the journal says that it came free.
func (o Obtained) Paid() bool {
	switch o {
	case AsSample, AsGift, AsCommission, AsLoan:
		return false
	}
	return true
}

// Disclosure says in plain words how the kit came to the reviewer.
type Disclosure struct {
	Obtained Obtained
	Due      bool           // a connection that readers would want to know of before anything else
	Label    source.Message // two or three words for lists and feeds: "free review sample"
	Sentence source.Message // one or two sentences, to stand above the verdict
}

var (
	ruleUndisclosed = &source.Rule{Name: "review-undisclosed", Severity: source.Stop,
		Source: "16 CFR 255.5 (Endorsement Guides, as revised 26 July 2023)",
		Reason: "Readers weigh a verdict by who paid for the kit. A free or discounted product is a connection that must be " +
			"disclosed clearly and conspicuously, whether or not a review was asked for in return.",
		Keys: "build kit: obtained; review: date"}
	ruleSender = &source.Rule{Name: "review-sender", Severity: source.Warn,
		Reason: "A disclosure conveys the nature of the connection only when it names who is at its other end.",
		Source: "16 CFR 255.5(a)",
		Keys:   "build kit: obtained, from"}
)

// Disclose words the disclosure of a review's kit. A kit whose way to the
// bench is not written down is a finding that stops the review, and so is a
// word that is none of the journal's.
func Disclose(k Kit, review source.Span) (Disclosure, source.Findings) {
	var findings source.Findings
	o := Obtained(k.Obtained.V)
	if !k.Obtained.Set || !o.Known() {
		at := review
		if k.Obtained.Set {
			at = k.Obtained.At
		}
		findings.Add(ruleUndisclosed.At(at, source.Say("write obtained under kit in build.md: %s", source.Or(AllObtained)),
			"the review does not say how the kit was obtained"))
		return Disclosure{}, findings
	}
	if (o == AsSample || o == AsLoan || o == AtDiscount) && k.From.V == "" {
		findings.Add(ruleSender.At(k.Obtained.At, "write who sent it: from, under kit in build.md",
			"the kit is a %s, but nothing says from whom", o))
	}
	d := Disclosure{Obtained: o, Due: o != ByPurchase}
	d.Label, d.Sentence = disclosureWords(k)
	return d, findings
}

// disclosureWords gives the label and the sentence.
func disclosureWords(k Kit) (label, sentence source.Message) {
	words, known := connections[Obtained(k.Obtained.V)]
	switch {
	case !known && k.Price.Set:
		return source.Word("bought by the reviewer"), source.Say("The reviewer bought this kit for %s.", k.Price.V)
	case !known:
		return source.Word("bought by the reviewer"), source.Word("The reviewer bought this kit.")
	}
	sentence = source.Word(words.unnamed)
	if k.From.V != "" {
		first, size := utf8.DecodeRuneInString(k.From.V)
		from := string(unicode.ToUpper(first)) + k.From.V[size:] // "the maker" begins the sentence
		if Obtained(k.Obtained.V) == AsGift {
			from = k.From.V
		}
		sentence = source.Say(words.named, from)
	}
	if k.Price.Set {
		sentence = source.Text(sentence, source.Say("It sells for %s.", k.Price.V))
	}
	return source.Word(words.label), sentence
}

// connections are the words for a kit that the reviewer did not simply buy: in
// short, with the name of who is at the other end, and without.
var connections = map[Obtained]struct{ label, named, unnamed string }{
	AsSample: {"free review sample", "%s sent this kit free of charge for review.", "This kit was sent free of charge for review."},
	AsGift:   {"gift", "This kit was a gift from %s.", "This kit was a gift."},
	AsCommission: {"commissioned build", "%s supplied the kit and pays for the work.",
		"The client supplied the kit and pays for the work."},
	AsLoan: {"kit on loan", "%s lent this kit for review; it goes back.", "This kit was lent for review; it goes back."},
	AtDiscount: {"bought at a discount", "%s sold this kit to the reviewer at a discount.",
		"The reviewer bought this kit at a discount."},
}
