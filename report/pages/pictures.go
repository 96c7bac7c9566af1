package pages

import "boxbook/report"

// picture is a drawing of an answer, made for who can show it.
func picture[T any](draw func(T) *report.Drawing, of T) report.Block {
	return report.Picture(func() *report.Drawing { return draw(of) })
}
