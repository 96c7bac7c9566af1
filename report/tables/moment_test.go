package tables_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"boxbook/report/answers"
	"boxbook/report/tables"
)

func TestMomentLink(t *testing.T) {
	for video, want := range map[string]string{
		"videos/one two.mp4":               "videos/one%20two.mp4#t=83",
		"videos/50%#1?.mp4":                "videos/50%25%231%3F.mp4#t=83",
		"../a.mp4":                         "../a.mp4#t=83",
		"https://videos.example/a?v=1#t=5": "https://videos.example/a?v=1#t=83",
		"http://videos.example/a.mp4":      "http://videos.example/a.mp4#t=83",
		"javascript:alert(1)":              "",
		"file:///a.mp4":                    "",
		"/home/ines/a.mp4":                 "",
		"//evil.example/a.mp4":             "",
		`C:\a.mp4`:                         "",
		`\\server\a.mp4`:                   "",
		"":                                 "",
	} {
		assert.Equal(t, want, tables.MomentLink(answers.Fault{At: "1:23", AtSeconds: 83, Video: video}), "%q", video)
	}
	assert.Empty(t, tables.MomentLink(answers.Fault{Video: "a.mp4"}), "no place noted")
}
