package tables

import (
	"net/url"
	"path"
	"strconv"
	"strings"

	"boxbook/report/answers"
)

// MomentLink leads to a fault's moment in its video, by the time fragment of the
// W3C's Media Fragments (t=83: from second 83 on); "" where no place was noted, or
// the video is neither an http(s) address nor a relative path.
func MomentLink(f answers.Fault) string {
	if f.At == "" || f.Video == "" || path.IsAbs(f.Video) || strings.ContainsRune(f.Video, '\\') {
		return ""
	}
	moment := "t=" + strconv.Itoa(f.AtSeconds)
	address, err := url.Parse(f.Video)
	if err == nil && (address.Scheme == "https" || address.Scheme == "http") {
		address.Fragment = moment
		return address.String()
	}
	if strings.ContainsRune(f.Video, ':') {
		return ""
	}
	return (&url.URL{Path: f.Video, Fragment: moment}).String()
}
