package answers

import (
	"boxbook/report"
	"boxbook/season/analysis"
)

// Methods are the thresholds that the page on methods speaks of: chances and
// confidences from 0 to 1, changes in percent points, grades in grades.
type Methods struct {
	Firm            report.Number `json:"firm"`
	FirmFamily      report.Number `json:"firmFamily"`
	MayBe           report.Number `json:"mayBe"`
	Change          report.Number `json:"change"`
	TrendConfidence report.Number `json:"trendConfidence"`
	WeakDiscovery   report.Number `json:"weakDiscovery"`
	WeakGap         report.Number `json:"weakGap"`
	DrillFirm       report.Number `json:"drillFirm"`
	DrillRanked     report.Number `json:"drillRanked"`
	DrillBeside     report.Number `json:"drillBeside"`
	DrillMayBe      report.Number `json:"drillMayBe"`
	DrillMayRanked  report.Number `json:"drillMayRanked"`
	DrillLeftOut    int           `json:"drillLeftOut"`
	DrillWindow     int           `json:"drillWindow"`
	DrillDays       int           `json:"drillDays"`
	DrillFlights    int           `json:"drillFlights"`
	DrillOnceIn     int           `json:"drillOnceIn"`
	FlagGap         report.Number `json:"flagGap"`
	FlagChance      report.Number `json:"flagChance"`
	ShareConfidence report.Number `json:"shareConfidence"`
	ForecastDays    int           `json:"forecastDays"`
	LevelConfidence report.Number `json:"levelConfidence"`
	Level           LevelLimits   `json:"level"`
}

// MethodsOf are the house's.
func MethodsOf() Methods {
	return Methods{
		Firm: report.Float(analysis.FirmFlight), FirmFamily: report.Float(analysis.FirmGroup), MayBe: report.Float(analysis.MayBe),
		Change: report.Float(analysis.SmallChange), TrendConfidence: report.Float(analysis.TrendConfidence),
		WeakDiscovery: report.Float(analysis.WeakDiscovery), WeakGap: report.Float(analysis.WeakGap),
		DrillFirm: report.Float(analysis.DrillFirm), DrillMayBe: report.Float(analysis.DrillMayBe), DrillLeftOut: analysis.DrillLeftOut,
		DrillRanked: report.Float(analysis.DrillRanked), DrillBeside: report.Float(analysis.DrillBeside), DrillMayRanked: report.Float(analysis.DrillMayBeRanked),
		DrillWindow: analysis.DrillWindow, DrillDays: analysis.DrillDays, DrillFlights: analysis.DrillSideFlights, DrillOnceIn: analysis.DrillMayBeOnceIn,
		FlagGap: report.Float(analysis.FlagGap), FlagChance: report.Float(analysis.FlagChance),
		ShareConfidence: report.Float(analysis.ShareConfidence), ForecastDays: analysis.ForecastDays,
		LevelConfidence: report.Float(analysis.LevelConfidence), Level: levelLimits(),
	}
}
