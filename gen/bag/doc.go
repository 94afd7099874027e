// Package bag writes, checks and restores BagIt bags, the archives in which a
// finished model outlives its site. Version 1.0 of the format is written;
// versions 0.93 to 0.97 are read by their own rules where those differ.
//
// A bag is a folder with the archived files under data/, a manifest of their
// checksums, and tag files that describe it; or the same as one zip file, with
// that folder at its top. Write makes either, whole under its final name or not
// at all, and never in the place of another. The same input gives the same
// bytes: files are in order, a zip is stored without compression (so that no
// library's next version changes it, and one damaged spot loses one file) and
// its dates are the earliest that a zip knows.
//
// Check trusts nothing: no path leads out of the bag, no link is followed, a
// zip may not unpack to out of proportion, and files are read in pieces. It
// tells complete (all that was promised is there and in form) from valid (and
// every checksum agrees). Nothing is fetched from addresses in fetch.txt.
//
// Sizes are bytes ("octets" in the standard), checksums lower-case hexadecimal.
//
// Sources: J. Kunze, J. Littman, E. Madden, J. Scancella, C. Adams, "The BagIt
// File Packaging Format (V1.0)", RFC 8493, October 2018, cited below by
// section; D. Fifield, "A better zip bomb", WOOT 2019 (overlapping entries).
package bag
