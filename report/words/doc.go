// Package words says answers: every sentence, note, title, heading and format
// of a number that stands on any output. What a sentence names (a threshold, a
// confidence, how many flights are needed) comes with the answer.
//
// A function of the form SayX takes an answer and gives it back with the
// sentences filled that its JSON has: from its numbers and codes alone, so that
// saying it again changes nothing.
//
// A gate of the readiness page has a row in gatesSaid: its title and what is said
// of it. One without a row is said by its name, by what it has and by what the
// policy asks. The gate itself is a row of gateRows in season/analysis, its
// numbers are keys of the shipped policy.
package words
