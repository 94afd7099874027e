package journal

import (
	"io/fs"
	"strconv"
	"strings"

	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

var ruleAlt = &source.Rule{Name: "alt-missing", Severity: source.Warn, Source: "WCAG 2.2, success criterion 1.1.1",
	Reason: "Readers who cannot see the picture need its content in words.",
	Keys:   "sitting photos[]: file, pair, alt; build choices[].options[]: photo, alt"}

// Photo is a picture with its words, or two of the same view.
type Photo struct {
	At      source.Span
	File    Text      `key:"file,short" doc:"The picture, inside the build's folder" eg:"photos/chart-table.jpg"`
	Pair    []Text    `key:"pair" doc:"In place of file: two pictures of the same view, before and after" eg:"[photos/lights-off.jpg, photos/lights-on.jpg]"`
	Names   []Text    `key:"names" doc:"What the two pictures of a pair show; before and after when not given" eg:"[lights off, lights on]"`
	Alt     Text      `key:"alt" doc:"What is to be seen, for readers who cannot see it" eg:"Amber light on the chart table"`
	Caption Text      `key:"caption" doc:"What is said beneath it" eg:"The wheelhouse lit for the first time"`
	Credit  Text      `key:"credit" doc:"Who took it" eg:"a guest at the bench"`
	Marks   []CallOut `key:"marks" doc:"Places pointed out: numbered circles on the picture, with a list beneath"`
}

// CallOut points out a place on a picture.
type CallOut struct {
	At    source.Span
	Where Val[Spot] `key:"at,required" doc:"How far from the left and from the top edge" eg:"42 % 31 %"`
	Says  Text      `key:"says,required" doc:"What is to be seen there" eg:"the jack sits under this hatch"`
}

// Spot is a place on a picture, as shares of its width from the left and of
// its height from the top, 0 to 1.
type Spot struct{ X, Y float64 }

// UnmarshalText reads "42 % 31 %"; the signs may be left out.
func (s *Spot) UnmarshalText(text []byte) error {
	fields := strings.Fields(strings.NewReplacer("%", " ", ",", " ").Replace(string(text)))
	fault := func(says string, args ...any) error {
		return quantity.Wrong(0, len(text), "write how far from the left and from the top, such as 42 % 31 %",
			says, args...)
	}
	if len(fields) != 2 {
		return fault("%q is no place on a picture", text)
	}
	for i, to := range []*float64{&s.X, &s.Y} {
		v, err := strconv.ParseFloat(fields[i], 64)
		if err != nil {
			return fault("%q is no number", fields[i])
		}
		if !(v >= 0 && v <= 100) {
			return fault("%s %% lies outside the picture", fields[i])
		}
		*to = v / 100
	}
	return nil
}

// Files returns the pictures that an entry shows: one, or the two of a pair.
func (p *Photo) Files() []Text {
	if len(p.Pair) > 0 {
		return p.Pair
	}
	if p.File.Set {
		return []Text{p.File}
	}
	return nil
}

// rulePair is broken by an entry that is neither one picture nor two.
var rulePair = &source.Rule{Name: "photo-entry", Severity: source.Stop, Source: "common practice, no source",
	Reason: "An entry shows one picture, or the two of a pair that a reader compares.",
	Keys:   "sitting photos[]: file, pair, names, marks"}

func checkPhotos(fsys fs.FS, b *Build, photos []Photo) source.Findings {
	var found source.Findings
	for i := range photos {
		p := &photos[i]
		found.Add(p.check()...)
		for _, file := range p.Files() {
			found.Add(checkPhoto(fsys, b, file)...)
		}
		if files := p.Files(); len(files) > 0 && !p.Alt.Set {
			found.Add(ruleAlt.At(files[0].At, "add alt: and say what is to be seen", "%s has no alt text", files[0].V))
		}
	}
	return found
}

func (p *Photo) check() source.Findings {
	switch {
	case p.File.Set && len(p.Pair) > 0:
		return source.Findings{rulePair.At(p.File.At, "keep one of the two", "both file and pair")}
	case !p.File.Set && len(p.Pair) == 0:
		return source.Findings{rulePair.At(p.At, "add file: with the picture's name, or pair: with two", "a photo without file or pair")}
	case len(p.Pair) != 0 && len(p.Pair) != 2:
		return source.Findings{rulePair.At(p.Pair[0].At, "name the picture before and the one after", "a pair of %d; two pictures are wanted",
			len(p.Pair))}
	case len(p.Names) != 0 && (len(p.Names) != 2 || len(p.Pair) == 0):
		return source.Findings{rulePair.At(p.Names[0].At, "name both pictures of a pair, or leave names out",
			"%d names for %d pictures of a pair", len(p.Names), len(p.Pair))}
	case len(p.Marks) > 0 && len(p.Pair) > 0:
		return source.Findings{rulePair.At(p.Marks[0].At, "mark a single picture", "marks on a pair")}
	}
	return nil
}
