package page

// Catalogue is the contents page over several archives.
type Catalogue struct {
	Models []CatalogueRow
}

// CatalogueRow is one archive.
type CatalogueRow struct {
	Name, Kit, Scale, Says string
	Finished, Bagged       string
	Size                   string
	Picture                string // file beside the page, "" for none
	Bag                    string // the folder or file as seen from the page
	Page, Sheet            string // pages in the bag as seen from the page; "" for a zip file
	Lacks, Anyway          []string
	Sound                  bool     // every checksum agreed
	Faults                 []string // else what is wrong, the first few
}
