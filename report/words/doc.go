// Package words says answers: every sentence, note, title, heading and format
// of a number that stands on any output. What a sentence names (a threshold, a
// confidence, how many flights are needed) comes with the answer.
package words
