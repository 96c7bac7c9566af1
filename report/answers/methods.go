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
	WeakSure        report.Number `json:"weakSure"`
	WeakGap         report.Number `json:"weakGap"`
	WeakFigures     int           `json:"weakFigures"`
	MayBeWeak       report.Number `json:"mayBeWeak"`
	WeakApart       report.Number `json:"weakApart"`
	LowSure         report.Number `json:"lowSure"`
	LowGap          report.Number `json:"lowGap"`
	LowFlights      int           `json:"lowFlights"`
	SpreadReach     report.Number `json:"spreadReach"`
	SpreadPrior     report.Number `json:"spreadPrior"`
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
	DrillAgain      int           `json:"drillAgain"`
	FlagGap         report.Number `json:"flagGap"`
	FlagChance      report.Number `json:"flagChance"`
	ShareConfidence report.Number `json:"shareConfidence"`
	ForecastDays    int           `json:"forecastDays"`
	// ForecastConfidence is that of a forecast's ranges, OneSided how many misses on
	// one side alone say that forecasts lean.
	ForecastConfidence report.Number `json:"forecastConfidence"`
	OneSided           int           `json:"oneSided"`
	LevelConfidence    report.Number `json:"levelConfidence"`
	Level              LevelLimits   `json:"level"`
}

// MethodsOf are the house's.
func MethodsOf() Methods {
	return Methods{
		Firm: report.Float(analysis.FirmFlight), FirmFamily: report.Float(analysis.FirmGroup), MayBe: report.Float(analysis.MayBe),
		Change: report.Float(analysis.SmallChange), TrendConfidence: report.Float(analysis.TrendConfidence),
		WeakSure: report.Float(analysis.WeakSure), WeakGap: report.Float(analysis.WeakGap), WeakFigures: analysis.WeakFigures,
		MayBeWeak: report.Float(analysis.MayBeWeak), WeakApart: report.Float(analysis.WeakApart),
		LowSure: report.Float(analysis.LowSure), LowGap: report.Float(analysis.LowGap), LowFlights: analysis.LowFlights,
		SpreadReach: report.Float(analysis.SpreadReach), SpreadPrior: report.Float(analysis.SpreadPrior),
		DrillFirm: report.Float(analysis.DrillFirm), DrillMayBe: report.Float(analysis.DrillMayBe), DrillLeftOut: analysis.DrillLeftOut,
		DrillRanked: report.Float(analysis.DrillRanked), DrillBeside: report.Float(analysis.DrillBeside), DrillMayRanked: report.Float(analysis.DrillMayBeRanked),
		DrillWindow: analysis.DrillWindow, DrillDays: analysis.DrillDays, DrillFlights: analysis.DrillSideFlights, DrillOnceIn: analysis.DrillMayBeOnceIn, DrillAgain: analysis.DrillAgain,
		FlagGap: report.Float(analysis.FlagGap), FlagChance: report.Float(analysis.FlagChance),
		ShareConfidence: report.Float(analysis.ShareConfidence), ForecastDays: analysis.ForecastDays,
		ForecastConfidence: report.Float(analysis.ForecastConfidence), OneSided: analysis.OneSidedMisses,
		LevelConfidence: report.Float(analysis.LevelConfidence), Level: levelLimits(),
	}
}
