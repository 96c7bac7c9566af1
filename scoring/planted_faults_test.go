//go:build planted

package scoring_test

// faults are the errors that whoever changes the scoring could make.
var faults = []fault{
	// The panel rule.
	{
		name: "half taken for a majority", file: "vote.go",
		old: "case 2*v.Hard > v.Given:", new: "case 2*v.Hard >= v.Given:",
	},
	{
		name: "a majority is of the whole panel", file: "vote.go",
		old: "case 2*v.Hard > v.Given:", new: "case 2*v.Hard > len(marks):",
	},
	{
		name: "AV counted among the judges who gave a mark", file: "mark.go",
		old: "return m.Kind != NotSeen && m.Kind != Absent", new: "return m.Kind != Absent",
	},
	{
		name: "no mark counted among the judges who gave one", file: "mark.go",
		old: "return m.Kind != NotSeen && m.Kind != Absent", new: "return m.Kind != NotSeen",
	},
	{
		name: "PZ counted as a hard zero", file: "vote.go",
		old: "case m.Kind == HardZero:\n\t\t\tv.Hard++", new: "case m.Kind == HardZero || m.Kind == PerceptionZero:\n\t\t\tv.Hard++",
	},
	{
		name: "CHZ needs a majority", file: "vote.go",
		old: "case m.Kind == ConfirmedHardZero:\n\t\t\tv.Confirmed = true\n\t\tcase m.Kind == HardZero:",
		new: "case m.Kind == HardZero, m.Kind == ConfirmedHardZero:",
	},
	{
		name: "CHZ without effect where hard zeros count as given", file: "line.go",
		old: "case vote.Confirmed:", new: "case vote.Confirmed && style.HardZero != AsGiven:",
	},
	{
		name: "majority looked for where hard zeros count as given", file: "line.go",
		old: "case style.HardZero == AsGiven || vote.Side == Minority:", new: "case vote.Side == Minority:",
	},
	{
		name: "setting for half: zero ignored", file: "line.go",
		old: "vote.Side == Majority || style.Half == HalfZero", new: "vote.Side == Majority",
	},
	{
		name: "settings for half: fill taken for undecided", file: "line.go",
		old: "case style.Half == HalfFill:", new: "case style.Half == HalfFill && vote.Hard == 0:",
	},

	// The chief judge's ruling.
	{
		name: "a ruling on a decided line counts", file: "line.go",
		old: "if own != rowOpen {", new: "if own != rowOpen && line.Decision == NoDecision {",
	},
	{
		name: "a ruling of zero fills", file: "line.go",
		old: "case line.Decision == RuledZero:\n\t\treturn rowZero", new: "case line.Decision == RuledZero:\n\t\treturn rowFill",
	},
	{
		name: "a resolved line not called so", file: "line.go",
		old: "\t\treturn Resolved", new: "\t\treturn ruling",
	},

	// Filling.
	{
		name: "a filled mark half a point high", file: "line.go",
		old: "big.NewRat(sum, 2*n)", new: "big.NewRat(sum+n, 2*n)",
	},
	{
		name: "PZ filled", file: "line.go",
		old: "if counts(m, style) {\n\t\t\tcells[i].Used", new: "if counts(m, style) && m.Kind != PerceptionZero {\n\t\t\tcells[i].Used",
	},
	{
		name: "PZ no number to fill from", file: "mark.go",
		old: "return m.Kind == Grade || m.Kind == PerceptionZero", new: "return m.Kind == Grade",
	},
	{
		name: "as-given hard zero filled", file: "line.go",
		old: "return m.numeric() || (m.Kind == HardZero && style.HardZero == AsGiven)", new: "return m.numeric()",
	},
	{
		name: "a minority's hard zeros enter the fill as zeros", file: "line.go",
		old: "if counts(m, style) {\n\t\t\tsum", new: "if m.given() {\n\t\t\tsum",
	},
	{
		name: "no mark is a zero", file: "mark.go",
		old: "return m.Kind == Grade ||", new: "return m.Kind == Absent || m.Kind == Grade ||",
	},
	{
		name: "fill rounded half down", file: "style.go",
		old: "num.Add(num, value.Denom())", new: "num.Add(num, value.Denom()).Sub(num, big.NewInt(1))",
	},
	{
		name: "fill never rounded up", file: "style.go",
		old: "num.Add(num, value.Denom())", new: "",
	},
	{
		name: "fill rounded to a tenth where a half is set", file: "style.go",
		old: "case ToHalf:\n\t\treturn 2", new: "case ToHalf:\n\t\treturn 10",
	},
	{
		name: "a filled line not called so", file: "line.go",
		old: "ruling = Filled", new: "ruling = AsMarked",
	},

	// Extremes.
	{
		name: "extremes dropped from four", file: "style.go",
		old: "const DropPanel = 5", new: "const DropPanel = 4",
	},
	{
		name: "extremes kept in a panel of five", file: "style.go",
		old: "const DropPanel = 5", new: "const DropPanel = 6",
	},
	{
		name: "extremes not dropped on weighted lines", file: "line.go",
		old: "if style.DropExtremes && len", new: "if style.DropExtremes && line.Kind == Figure && len",
	},
	{
		name: "extremes dropped under every style", file: "line.go",
		old: "if style.DropExtremes && len", new: "if len",
	},
	{
		name: "lowest mark kept", file: "line.go",
		old: "cells[highest].Dropped, cells[lowest].Dropped = true, true", new: "cells[highest].Dropped = true",
	},
	{
		name: "last of equal highest marks dropped", file: "line.go",
		old: "cells[i].Used.Cmp(cells[highest].Used) > 0", new: "cells[i].Used.Cmp(cells[highest].Used) >= 0",
	},
	{
		name: "dropped marks still in the mean's divisor", file: "line.go",
		old: "\t\tcase c.Dropped:\n\t\t\tcontinue\n", new: "\t\tcase c.Dropped:\n",
	},

	// Points and totals.
	{
		name: "K doubled", file: "line.go",
		old: "k := int64(line.K)", new: "k := 2 * int64(line.K)",
	},
	{
		name: "lost without K", file: "line.go",
		old: "fraction(k*(20*n-halfPoints), 2*n)", new: "fraction(20*n-halfPoints, 2*n)",
	},
	{
		name: "lost without K where a mark was filled", file: "line.go",
		old: "Sub(big.NewRat(10*k, 1), points)", new: "Sub(big.NewRat(10, 1), mean)",
	},
	{
		name: "half points taken for points beside filled marks", file: "line.go",
		old: "fills.Add(fills, big.NewRat(halfPoints, 2))", new: "fills.Add(fills, big.NewRat(halfPoints, 1))",
	},
	{
		name: "only the last filled mark in the mean", file: "line.go",
		old: "fills.Add(fills, c.Used)", new: "fills.Set(c.Used)",
	},
	{
		name: "overruled marks in the mean", file: "line.go",
		old: "case !c.Overruled:", new: "default:",
	},
	{
		name: "maximum without weighted lines", file: "sheet.go",
		old: "\t\tsum += line.K", new: "\t\tif line.Kind == Figure {\n\t\t\tsum += line.K\n\t\t}",
	},
	{
		name: "penalty added", file: "score.go",
		old: "new(big.Rat).Sub(raw, penalty)", new: "new(big.Rat).Add(raw, penalty)",
	},
	{
		name: "penalty not floored at 0", file: "score.go",
		old: "\t\tpoints.SetInt64(0)\n", new: "",
	},
	{
		name: "only the last penalty deducted", file: "sheet.go",
		old: "total.Add(total, p.Rat())", new: "total.Set(p.Rat())",
	},
	{
		name: "penalty's decimals lost", file: "decimal.go",
		old: "return big.NewRat(d.Units, pow10(d.Places))", new: "return big.NewRat(d.Units, 1)",
	},
	{
		name: "percent of the raw score", file: "score.go",
		old: "percentOf(out.Points, out.Maximum)", new: "percentOf(out.Raw, out.Maximum)",
	},
	{
		name: "judge totals without filled marks", file: "score.go",
		old: "\t\t\tfilled.Add(filled, part", new: "\t\t\tif cell.Fill {\n\t\t\t\tcontinue\n\t\t\t}\n\t\t\tfilled.Add(filled, part",
	},
	{
		name: "judge totals without dropped marks", file: "score.go",
		old: "cell := lines[i].Cells[j]\n", new: "cell := lines[i].Cells[j]\n\t\t\tif cell.Dropped {\n\t\t\t\tcontinue\n\t\t\t}\n",
	},
	{
		name: "judge totals with marks that were overruled", file: "score.go",
		old: "if !cell.Fill && !cell.Overruled && len(line.Again) == 0 {", new: "if !cell.Fill && len(line.Again) == 0 {",
	},

	// Ranges.
	{
		name: "range low not 0", file: "line.go",
		old: "Low: new(big.Rat), High: high}", new: "Low: high, High: high}",
	},
	{
		name: "range high always 10", file: "line.go",
		old: "if countNumeric(line.Marks, style) > 0 {\n\t\truled", new: "if countNumeric(line.Marks, style) < 0 {\n\t\truled",
	},
	{
		name: "range without the penalty", file: "score.go",
		old: "return l.High }), out.Penalty)", new: "return l.High }), new(big.Rat))",
	},
	{
		name: "an undecided flight given its low end", file: "score.go",
		old: "decided = decided && out.Lines[i].Points != nil", new: "decided = decided || out.Lines[i].Points != nil",
	},

	// Printed totals, which the oracle knows nothing of.
	{
		name: "a printed total rounded half up alone", file: "agree.go", test: "TestAgrees",
		old: "return printed.Units%2 == 0", new: "return false",
	},
	{
		name: "a printed total rounded half down too", file: "agree.go", test: "TestAgrees",
		old: "return printed.Units%2 == 0", new: "return true",
	},
	{
		name: "a printed total rounded half to even alone", file: "agree.go", test: "TestAgrees",
		old: ">= 0", new: "> 0",
	},
	{
		name: "typed decimals forgotten", file: "decimal.go", test: "TestParseDecimal",
		old: "return Decimal{Units: units, Places: len(part)}, err == nil", new: "return Decimal{Units: units}, err == nil",
	},

	// What explains a printed total: the oracle tries every change.
	{
		name: "penalties in steps of ten", file: "reconcile_penalty.go", test: reconcileTest,
		old: "const penaltyStep = 5", new: "const penaltyStep = 10",
	},
	{
		name: "only the penalty below the gap", file: "reconcile_penalty.go", test: reconcileTest,
		old: "new(big.Rat).Sub(s.score.Points, from)\n", new: "new(big.Rat).Sub(s.score.Points, from.Set(s.printed.Points.Rat()))\n",
	},
	{
		name: "only the penalty above the gap", file: "reconcile_penalty.go", test: reconcileTest,
		old: "max(penaltyStep, stepsBelow(least))", new: "max(penaltyStep, stepsBelow(least)+2*penaltyStep)",
	},
	{
		name: "a penalty that gives points", file: "reconcile_penalty.go", test: "TestReconcilePenaltyBelow",
		old: "max(penaltyStep, stepsBelow(least))", new: "stepsBelow(least)",
	},
	{
		name: "a percent searched as points", file: "reconcile_target.go", test: reconcileTest,
		old: "score.Maximum > 0 && score.Maximum != 100", new: "score.Maximum == 0",
	},
	{
		name: "a percent of the own maximum whatever the K", file: "reconcile_search.go", test: reconcileTest,
		old: "s.target.percent && maximum != s.score.Maximum {\n\t\tlow", new: "false {\n\t\tlow",
	},
	{
		name: "K of one figure alone swapped", file: "reconcile_judge_k.go", test: reconcileTest,
		old: "above.K, below.K = below.K, above.K", new: "above.K = below.K",
	},
	{
		name: "a K against its printed sum", file: "reconcile_judge_k.go", test: "TestReconcileKnownK",
		old: "s.printed.KnownK == EveryLinesK ||", new: "",
	},
	{
		name: "no penalty of each judge", file: "reconcile_penalty.go", test: "TestReconcileCases",
		old: "return extra / judges", new: "return 0",
	},
	{
		name: "a penalty not first", file: "reconcile_order.go", test: "TestReconcilePenaltyToZero",
		old: "-1 // first of its class", new: "1 // first of its class",
	},
	{
		name: "a hard zero confirmed where none was given", file: "reconcile_zero.go", test: reconcileTest,
		old: "holds(line.Marks, HardZero) != (kind == KindZero)", new: "false",
	},
	{
		name: "weighted lines left out as figures", file: "reconcile_zero.go", test: reconcileTest,
		old: "line.Kind != Figure || assumed", new: "assumed",
	},
	{
		name: "a figure left out of judges' totals that all agree", file: "reconcile_zero.go", test: "TestReconcileFigureJudgeTotals",
		old: "!slices.Contains(s.sheets, true)", new: "false",
	},
	{
		name: "a confirmed zero among undecided rulings", file: "reconcile_zero.go", test: "TestReconcileZeroOfUndecided",
		old: "s.rulings != nil && s.rulings[i] != NoDecision", new: "false",
	},
	{
		name: "rows of weighted lines swapped", file: "reconcile_rows.go", test: reconcileTest,
		old: "sheet.Lines[i-1].Kind == Figure && sheet.Lines[i].Kind == Figure", new: "sheet.Lines[i-1].Kind == Figure",
	},
	{
		name: "the first two rows never swapped", file: "reconcile_rows.go", test: reconcileTest,
		old: "for i := 1; i < len(sheet.Lines); i++", new: "for i := 2; i < len(sheet.Lines); i++",
	},
	{
		name: "a swap of one sheet said of all", file: "reconcile_rows.go", test: "TestReconcileRows",
		old: "if len(all.cells) > 2 &&", new: "if len(all.cells) > 0 &&",
	},
	{
		name: "only half of a swap", file: "reconcile_rows.go", test: reconcileTest,
		old: "lines[cell.line-i].Marks[cell.judge] = cell.would", new: "lines[0].Marks[cell.judge] = cell.would",
	},
	{
		name: "rows of all sheets not searched", file: "reconcile_rows.go", test: "TestReconcileRowsJudgeTotals",
		old: "found = append(found, all)", new: "_ = all",
	},
	{
		name: "swapped rows move one line of the judges' totals", file: "reconcile_candidate.go", test: "TestReconcileRowsJudgeTotals",
		old: "if (c.kind == KindMarks || c.kind == KindRows || c.kind == KindSwappedK) && c.second != c.line {", new: "if c.kind == KindMarks && c.second != c.line {",
	},
	{
		name: "rows of a sheet that agrees swapped", file: "reconcile_rows.go", test: "TestReconcileRowsJudgeTotals",
		old: "if s.sheets[swap[0].judge] &&", new: "if",
	},
	{
		name: "two marks beside swapped rows", file: "reconcile.go", test: "TestReconcileRows",
		old: "\t\tfound = append(found, s.swappedRows()...)\n\t}\n\tfound = append(found, mixedRulings(sheet, score, printed)...)\n\tif len(found) == 0 {\n\t\tfor _, s := range searches {\n",
		new: "\t}\n\tfound = append(found, mixedRulings(sheet, score, printed)...)\n\trows := len(found) == 0\n\tfor _, s := range searches {\n\t\tfound = append(found, s.swappedRows()...)\n\t}\n\tif rows {\n\t\tfor _, s := range searches {\n",
	},

	// How often chance would be explained.
	{
		name: "the own total among those that chance may give", file: "reconcile_chance.go", test: reconcileTest,
		old: "p.low <= units && units <= p.high && (units < p.ownLow || units > p.ownHigh)", new: "p.low <= units && units <= p.high",
	},
	{
		name: "the own total counted as one that may be printed", file: "reconcile_chance.go", test: reconcileTest,
		old: "- max(own, 0)", new: "- 0*own",
	},
	{
		name: "totals below 0 printed", file: "reconcile_chance.go", test: "TestReconcileChance",
		old: "max(0, -floorUnits(downTo, scale))", new: "-floorUnits(downTo, scale)",
	},
	{
		name: "totals above the maximum printed", file: "reconcile_chance.go", test: reconcileTest,
		old: "min(int64(maximum)*scale, floorUnits(upTo, scale))", new: "max(0*int64(maximum), floorUnits(upTo, scale))",
	},
	{
		name: "totals of one side alone", file: "reconcile_chance.go", test: reconcileTest,
		old: "min(int64(maximum)*scale, floorUnits(upTo, scale))", new: "min(own[0]+0*int64(maximum), floorUnits(upTo, scale))",
	},
	{
		name: "what lies at half a unit rounded one way", file: "reconcile_chance.go", test: reconcileTest,
		old: "\t\tr.add(units)\n\t}\n}", new: "\t\tr.add(units)\n\t\treturn\n\t}\n}",
	},
	{
		name: "chance without the pairs of one line", file: "reconcile_chance.go", test: reconcileTest,
		old: "r.eachPairOf(i, func(judges, steps []int) { r.addLines(i, steppedLine(line, judges, steps)) })", new: "_, _ = i, line",
	},
	{
		name: "chance without rows of all sheets", file: "reconcile_chance.go", test: reconcileTest,
		old: "\t\tr.addLines(i, r.swapped(i, all)...)\n", new: "",
	},
	{
		name: "chance without lines left out", file: "reconcile_chance.go", test: "TestReconcileChance",
		old: "\t\tr.addSheet(withoutLines(r.sheet, c.without))\n", new: "\t\t_ = c\n",
	},
	{
		name: "chance without the penalty deducted", file: "reconcile_chance.go", test: reconcileTest,
		old: "points := raw - inUnits(r.score.Penalty)", new: "points := raw",
	},
}
