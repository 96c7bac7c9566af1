package answers

// Program is what the program says of itself.
type Program struct {
	Version string `json:"version"`
	// Revision is the whole name of what it was built from, Date that revision's
	// day (YYYY-MM-DD); absent where it is not known.
	Revision string `json:"revision,omitempty"`
	Date     string `json:"date,omitempty"`
	// Changed says that files were changed after that revision.
	Changed bool `json:"changed"`
	// System is what it was built for, Toolchain by which: linux/amd64, go1.26.10.
	System    string `json:"system"`
	Toolchain string `json:"toolchain"`
}
