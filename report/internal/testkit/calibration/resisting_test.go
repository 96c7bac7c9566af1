package calibration

// resisting are figures over their limits that every honest method tried has left
// there, by cell and measure: the figure that is accepted, which the widening for
// chance stands on instead of the limit. They are in the tables all the same, bold.
var resisting = map[string]map[string]float64{}
