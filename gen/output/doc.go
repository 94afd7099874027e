// Package output is the only writer of the site. Whoever makes a site puts its
// files into a Writer as they are made, from several goroutines; everything
// about where they may go, what may be replaced or deleted, and how an
// interruption is survived is decided here.
//
// # The swap
//
// A new site is never written over the old one. It is staged in a hidden
// folder beside it: what is new or changed is written there as it is put, and
// in the end files that did not change are linked to the old ones (same inode,
// same time). A run that changes nothing makes no folder. Then the two folders
// change names in one step (renameat2 with RENAME_EXCHANGE on Linux,
// renamex_np with RENAME_SWAP on macOS), and what is left of the old site is
// removed. A run that is killed leaves the whole former or the whole new site
// under the name; the next run clears away or finishes what it left. Where the
// system has no such exchange (Windows, some network drives) two renames
// follow each other, and a note beside the folder lets the next run finish
// them: between the two the folder is missing for a moment, yet never mixed.
//
// Only what the list in the site's own folder (ListName) names counts as ours.
// Other files in there, such as a host's settings or a repository, belong to
// somebody else: they are carried over and never deleted. Files are hard
// linked before the swap, so that they are never missing; a folder that holds
// nothing of ours is moved as one right after it, since linking a large
// repository file by file would be slow and would tear it apart while another
// program works in it.
//
// One run at a time works on a folder: a lock file beside it, there from the
// first file of a run to its end, makes a second one wait and says for whom.
//
// A folder that cannot change its name, the root of a mounted drive, is
// refused with the reason: writing it file by file would show mixtures.
// A program started inside the folder keeps seeing the former one; start it
// from the folder above.
//
// What a swap costs grows with the folders of the site, which must be made anew
// and removed, more than with its files, which are linked.
//
// Sizes are bytes, sums are SHA-256 in lower-case hexadecimal, paths in a site
// are relative with forward slashes.
//
// Sources: renameat2(2), renamex_np(2), syncfs(2).
package output
