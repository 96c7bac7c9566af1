// Package charts draws answers: each picture has a title, a sentence that says its
// finding, and its numbers as data attributes, unrounded, as in the JSON. A picture
// is drawn for a page of 288 pixels, that of a narrow phone, and stretches: what
// goes across is in percents, text stays 12 pixels and more. No colour is the only
// sign of anything.
package charts
