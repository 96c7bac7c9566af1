// Package pages turns answers of package season into documents: first the data
// that other programs read as JSON (the names of its fields are a contract),
// then the tables and sentences for people, made from that data alone, so that
// a number is worked out once and is the same everywhere.
package pages
