package photo

import (
	"fmt"

	"spruelight/gen/source"
)

// Rules lists every rule of this package.
var Rules = []*source.Rule{
	RuleMissing, RuleUnreadable, RuleFormat, RuleHEIC, RuleTooLarge, RuleTruncated, RuleDamaged, RuleProfile, RuleTransparent,
}

// The rules that a photo is held to.
var (
	RuleMissing = &source.Rule{
		Name: "photo-missing", Severity: source.Stop,
		Reason: "A page that names a photo which is not there would show a gap.",
		Source: "common practice, no source",
		Keys: "build: lead; build repair: photo; build choices[].options[]: photo; build outline: file; " +
			"shelf <name>.outline: file; sitting photos[]: file, pair; sitting before closing[]: photo",
	}
	RuleUnreadable = &source.Rule{
		Name: "photo-unreadable", Severity: source.Stop,
		Reason: "A photo that the system will not hand over cannot be published.",
		Source: "common practice, no source",
		Keys:   "sitting photos[]: file, pair",
	}
	RuleFormat = &source.Rule{
		Name: "photo-format", Severity: source.Stop,
		Reason: "Only JPEG, PNG and WebP stills are read; decoders for rarer formats are where hostile files do their work.",
		Source: "ITU-T T.81 (JPEG), W3C PNG third edition, RFC 9649 (WebP)",
		Keys:   "sitting photos[]: file, pair",
	}
	RuleHEIC = &source.Rule{
		Name: "photo-heic", Severity: source.Stop,
		Reason: "HEIC needs a decoder that is under a licence and patents " +
			"which this program does not take on, and half a gigabyte of memory a photo.",
		Source: "ISO/IEC 23008-12 (HEIF)",
		Keys:   "sitting photos[]: file, pair",
	}
	RuleTooLarge = &source.Rule{
		Name: "photo-too-large", Severity: source.Stop,
		Reason: "A few kilobytes can claim gigabytes of pixels; the size is taken from the header before anything is decoded.",
		Source: "common practice, no source",
		Keys:   "sitting photos[]: file, pair; workshop photos: limit",
	}
	RuleTruncated = &source.Rule{
		Name: "photo-truncated", Severity: source.Stop,
		Reason: "A photo whose end is missing was copied badly; half a picture must not be published as if it were whole.",
		Source: "ITU-T T.81 B.1.1.3 (EOI marker), W3C PNG 11.2.5 (IEND), RFC 9649 2.3 (RIFF size)",
		Keys:   "sitting photos[]: file, pair",
	}
	RuleDamaged = &source.Rule{
		Name: "photo-damaged", Severity: source.Stop,
		Reason: "What the file holds contradicts itself, so that no decoder can say what the picture is.",
		Source: "ITU-T T.81, W3C PNG third edition, RFC 9649",
		Keys:   "sitting photos[]: file, pair",
	}
	RuleProfile = &source.Rule{
		Name: "photo-profile", Severity: source.Note,
		Reason: "Colours of a profile that is not made of primaries and curves are shown as if they were sRGB and may be off.",
		Source: "ICC.1:2022 section 8.3 (input profiles)",
		Keys:   "sitting photos[]: file, pair",
	}
	RuleTransparent = &source.Rule{
		Name: "photo-transparent", Severity: source.Note,
		Reason: "Renditions are JPEG, which has no transparency; transparent parts are laid on white.",
		Source: "ITU-T T.81",
		Keys:   "sitting photos[]: file, pair",
	}
)

// Bounds lists the bounds of this package for the guide.
var Bounds = []source.Limit{
	{Of: "pixels of a photo", Most: fmt.Sprintf("%d megapixels, or what photos: {limit: …} of workshop.yaml says", DefaultPixels/1_000_000), Why: "A small file can claim more pixels than memory holds.", Rule: RuleTooLarge.Name},
	{Of: "a photo's file", Most: fmt.Sprintf("%d MiB", DefaultBytes>>20), Why: "It is read whole.", Rule: RuleTooLarge.Name},
	{Of: "blocks before a photo's pixels", Most: fmt.Sprint(maxBlocks), Why: "A file of more is damaged.", Rule: RuleDamaged.Name},
}
