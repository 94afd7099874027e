package tally

import (
	"math"
	"math/big"
	"testing"
)

func TestFisherAgainstPublishedExamples(t *testing.T) {
	for _, c := range []struct {
		source     string
		a, b, c, d int
		want, tol  float64
	}{
		{"SciPy 1.10 reference, scipy.stats.fisher_exact: whales and sharks in two oceans", 8, 2, 1, 5, 0.034965034965, 1e-11},
		{"R. A. Fisher, Statistical Methods for Research Workers, 21.02 (convicted twins), as printed by R's fisher.test", 2, 10, 15, 3, 0.0005367, 5e-8},
		{"R. A. Fisher, The Design of Experiments, chapter II (the lady tasting tea): 34 of 70 arrangements", 3, 1, 1, 3, 34.0 / 70, 1e-12},
		{"Stokes, Davis, Koch, Categorical Data Analysis Using SAS (severe trial), SAS output: two-sided Pr <= P", 10, 2, 2, 4, 0.1070, 5e-5},
		{"Wikipedia, Fisher's exact test (studying teenagers); value as in R and SciPy", 1, 9, 11, 3, 0.0027594561852200836, 1e-14},
		{"SciPy 1.10, answer kept by a public test of scipy.stats.fisher_exact", 4, 14, 3, 1, 0.07655502392344499, 1e-13},
		{"perfect separation of 10 and 10: 2 / C(20,10)", 10, 0, 0, 10, 1.082508822446903e-05, 1e-17},
		{"McDonald, Handbook of Biological Statistics (van Nood's trial), value from memory", 13, 3, 4, 9, 0.00953, 5e-6},
	} {
		got := Fisher(Fourfold{c.a, c.b, c.c, c.d})
		if math.Abs(got-c.want) > c.tol {
			t.Errorf("%s: got %.12g, want %.12g", c.source, got, c.want)
		}
	}
}

func TestFisherTellsNothingFromAnEmptyMargin(t *testing.T) {
	for _, table := range []Fourfold{{}, {3, 0, 5, 0}, {0, 3, 0, 5}, {0, 0, 4, 5}} {
		if got := Fisher(table); got != 1 {
			t.Errorf("%+v: got %v, want 1", table, got)
		}
	}
	if got := Fisher(Fourfold{-1, 2, 3, 4}); !math.IsNaN(got) {
		t.Errorf("a negative count: got %v", got)
	}
}

// The test by exact fractions, the way its definition reads.
func exactFisher(t Fourfold) float64 {
	affected, sound, with := t.AffectedWith+t.AffectedWithout, t.SoundWith+t.SoundWithout, t.AffectedWith+t.SoundWith
	ways := func(a int) *big.Int {
		if a < 0 || a > affected || with-a < 0 || with-a > sound {
			return new(big.Int)
		}
		left := new(big.Int).Binomial(int64(affected), int64(a))
		return left.Mul(left, new(big.Int).Binomial(int64(sound), int64(with-a)))
	}
	observed, sum := ways(t.AffectedWith), new(big.Int)
	for a := 0; a <= affected; a++ {
		if w := ways(a); w.Cmp(observed) <= 0 {
			sum.Add(sum, w)
		}
	}
	all := new(big.Int).Binomial(int64(affected+sound), int64(with))
	p, _ := new(big.Rat).SetFrac(sum, all).Float64()
	return p
}

func TestFisherEqualsExactFractions(t *testing.T) {
	for a := 0; a <= 7; a++ {
		for b := 0; b <= 7; b++ {
			for c := 0; c <= 7; c++ {
				for d := 0; d <= 7; d++ {
					table := Fourfold{a, b, c, d}
					if got, want := Fisher(table), exactFisher(table); math.Abs(got-want) > 1e-10 {
						t.Fatalf("%+v: got %v, want %v", table, got, want)
					}
				}
			}
		}
	}
	big := Fourfold{120, 80, 90, 310}
	if got, want := Fisher(big), exactFisher(big); math.Abs(got/want-1) > 1e-8 {
		t.Errorf("%+v: got %v, want %v", big, got, want)
	}
}

// Turning the table over or swapping its sides changes nothing.
func FuzzFisherSymmetry(f *testing.F) {
	f.Add(uint8(2), uint8(0), uint8(0), uint8(7))
	f.Fuzz(func(t *testing.T, a, b, c, d uint8) {
		table := Fourfold{int(a), int(b), int(c), int(d)}
		p := Fisher(table)
		if p < 0 || p > 1 || math.IsNaN(p) {
			t.Fatalf("%+v: %v", table, p)
		}
		for _, other := range []Fourfold{{int(b), int(a), int(d), int(c)}, {int(c), int(d), int(a), int(b)}, {int(a), int(c), int(b), int(d)}} {
			if q := Fisher(other); math.Abs(p-q) > 1e-6*max(p, 1e-300)+1e-12 {
				t.Fatalf("%+v: %v, %+v: %v", table, p, other, q)
			}
		}
	})
}
