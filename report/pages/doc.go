// Package pages puts answers into documents: which parts stand in which order,
// under which headings. The data of a document is the answer itself, and what
// people read is made from it alone, so that a number is worked out once and is
// the same everywhere.
package pages
