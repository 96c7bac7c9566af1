package pages

import "boxbook/report"

// picture is a drawing as blocks, none where there is nothing to draw.
func picture(d *report.Drawing) []report.Block {
	if d == nil {
		return nil
	}
	return []report.Block{d}
}
