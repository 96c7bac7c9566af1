package words

import (
	"fmt"

	"boxbook/report/answers"
)

func ForecastSentence(d answers.Forecast) string {
	if !d.Percent.Known() {
		return "Cannot tell: " + d.Why + "."
	}
	return fmt.Sprintf("About %s %%; four times out of five between %s and %s %%.",
		d.Percent.Text(1), d.Low.Text(1), d.High.Text(1))
}
