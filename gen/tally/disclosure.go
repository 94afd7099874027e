package tally

import (
	"strings"
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
	Due      bool   // a connection that readers would want to know of before anything else
	Label    string // two or three words for lists and feeds: "free review sample"
	Sentence string // one or two sentences, to stand above the verdict
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
	o := k.Obtained.V
	if !k.Obtained.Set || !o.Known() {
		at := review
		if k.Obtained.Set {
			at = k.Obtained.At
		}
		findings.Add(ruleUndisclosed.At(at, "write obtained under kit in build.md: "+obtainedWords(),
			"the review does not say how the kit was obtained"))
		return Disclosure{}, findings
	}
	if (o == AsSample || o == AsLoan || o == AtDiscount) && k.From == "" {
		findings.Add(ruleSender.At(k.Obtained.At, "write who sent it: from, under kit in build.md", "the kit is a %s, but nothing says from whom", o))
	}
	d := Disclosure{Obtained: o, Due: o != ByPurchase}
	d.Label, d.Sentence = disclosureWords(k)
	return d, findings
}

func obtainedWords() string {
	words := make([]string, len(AllObtained))
	for i, o := range AllObtained {
		words[i] = string(o)
	}
	return list(words, "or")
}

// disclosureWords gives the label and the sentence.
func disclosureWords(k Kit) (label, sentence string) {
	from := func(known, unknown string) string {
		if k.From == "" {
			return unknown
		}
		sentence := strings.Replace(known, "%", k.From, 1)
		first, size := utf8.DecodeRuneInString(sentence) // "the maker" may begin it
		return string(unicode.ToUpper(first)) + sentence[size:]
	}
	sells := ""
	if k.Price.Set {
		sells = " It sells for " + k.Price.V.String() + "."
	}
	switch k.Obtained.V {
	case AsSample:
		return "free review sample", from("% sent this kit free of charge for review.", "This kit was sent free of charge for review.") + sells
	case AsGift:
		return "gift", from("This kit was a gift from %.", "This kit was a gift.") + sells
	case AsCommission:
		return "commissioned build", from("% supplied the kit and pays for the work.", "The client supplied the kit and pays for the work.") + sells
	case AsLoan:
		return "kit on loan", from("% lent this kit for review; it goes back.", "This kit was lent for review; it goes back.") + sells
	case AtDiscount:
		return "bought at a discount", from("% sold this kit to the reviewer at a discount.", "The reviewer bought this kit at a discount.") + sells
	}
	if k.Price.Set {
		return "bought by the reviewer", "The reviewer bought this kit for " + k.Price.V.String() + "."
	}
	return "bought by the reviewer", "The reviewer bought this kit."
}
