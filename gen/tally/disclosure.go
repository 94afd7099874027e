package tally

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

// Paid reports whether the builder paid for the kit: so it is taken to be
// unless the journal says that it came free.
func (o Obtained) Paid() bool {
	switch o {
	case AsSample, AsGift, AsCommission, AsLoan:
		return false
	}
	return true
}
