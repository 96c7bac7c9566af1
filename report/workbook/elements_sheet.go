package workbook

// The formulas of a row of Elements: where its figure stands on Grades, what
// that lost, and the element's part, as package season shares it out. Faults
// noted on the element are charged first, up to the figure's whole loss; the
// rest goes by K, or evenly among elements without any.
const (
	elementShare  = `IF({elements-k}=0,1/{elements},{k}/{elements-k})`
	plainLoss     = `IF(ISNUMBER({figure-lost}),{figure-lost}*` + elementShare + `,"")`
	chargedPoints = `IF(ISNUMBER({figure-lost}),IF({deductions}*{figure-k}>{figure-lost},` +
		`{deduction}/{deductions}*{figure-lost},{deduction}*{figure-k}),"")`
	chargedLoss = `IF(ISNUMBER({figure-lost}),{charged}+MAX(0,{figure-lost}-{deductions}*{figure-k})*` + elementShare + `,"")`
)

// lookSome shows nothing for nothing.
var lookSome = look{format: "0.00;-0.00;", align: "right", line: true}

var elementColumns = append([]column[elementRow]{
	{key: "flight", title: "flight", width: 26, look: lookText, value: func(e elementRow) value { return text(e.flight.Name) }},
	{key: "figure", title: "figure", width: 7.5, look: lookCentred, value: func(e elementRow) value { return e.figure }},
	{key: "code", title: "element", width: 12, look: lookText, value: func(e elementRow) value { return text(e.code) }},
	{key: "group", title: "family", width: 38, look: lookText, value: func(e elementRow) value { return text(e.group) }},
	{key: "k", title: "K", width: 7, look: lookTwo, value: func(e elementRow) value { return exact(e.k) }},
	{
		key: "mean", title: "figure's mean", width: 9, look: lookTwo.live(), formula: `INDEX({Grades.mean},{at})`,
		value: func(e elementRow) value { return exact(e.mean) },
	},
	{
		key: "figure-lost", title: "figure's lost", width: 9, look: lookTwo.live(), formula: `INDEX({Grades.lost},{at})`,
		value: func(e elementRow) value { return exact(e.figLost) },
	},
	{key: "deduction", title: "noted deduction", width: 10.5, look: lookSome, value: func(e elementRow) value { return exact(e.own) }},
	{
		key: "charged", title: "charged points", width: 10, look: lookSome.live(),
		formulaOf: func(e elementRow) string { return whereNoted(e, chargedPoints, "") },
		value:     elementRow.charged,
	},
	{
		key: "lost", title: "lost", width: 10, look: lookTwo.live().strong(),
		formulaOf: func(e elementRow) string { return whereNoted(e, chargedLoss, plainLoss) },
		value:     func(e elementRow) value { return exact(e.lost) },
	},
}, foldedAway([]column[elementRow]{
	{key: "key", title: "figure's name in formulas", look: lookText, value: func(e elementRow) value { return text(e.key) }},
	{key: "elements-k", title: "K of the figure's elements", look: lookTwo, value: func(e elementRow) value { return exact(e.allK) }},
	{key: "elements", title: "elements of the figure", look: lookInteger, value: func(e elementRow) value { return integer(e.count) }},
	{key: "deductions", title: "noted on the figure's elements", look: lookTwo, value: func(e elementRow) value { return exact(e.all) }},
	{key: "first", title: "first of its family in the figure", look: lookInteger, value: func(e elementRow) value {
		if e.first {
			return integer(1)
		}
		return integer(0)
	}},
	{
		key: "figure-k", title: "figure's K", look: lookInteger,
		formulaOf: func(e elementRow) string { return whereNoted(e, `INDEX({Grades.k},{at})`, "") },
		value:     func(e elementRow) value { return exact(e.figureK()) },
	},
	{key: "at", title: "row on Grades", look: lookInteger, formula: `MATCH({key},{Grades.key},0)`, value: func(e elementRow) value { return integer(e.at) }},
	{
		key: "counted", title: "counts for families of", look: lookText,
		formula: `IF(ISNUMBER({mean}),INDEX({Flights.counted},MATCH({flight},{Flights.flight},0)),"")`,
		value:   func(e elementRow) value { return text(e.counted) },
	},
	{key: "k-mean", title: "K x mean", look: lookTwo, formula: `IF(ISNUMBER({mean}),{k}*{mean},"")`, value: elementRow.kTimesMean},
})...)

// whereNoted chooses a formula: one row in many has a noted fault.
func whereNoted(e elementRow, noted, plain string) string {
	if e.noted() {
		return noted
	}
	return plain
}

const elementsName = "Elements"

// elementsSheet is a helper: families add up its rows.
func elementsSheet(c *content) sheet {
	p := place(elementsName, elementsName, 1, len(c.elements), elementColumns)
	return sheet{
		name: elementsName, tables: []placed{p}, frozenRows: 1, frozenColumns: 3, headRows: 1, lastColumn: p.columns["lost"],
		legend: "lost: the points of noted faults first, the rest of the figure's loss shared by K",
		fill: func(b *book) {
			widths(b, elementColumns)
			fillTable(b, p, elementColumns, c.elements)
			b.filter(p, "lost")
		},
	}
}
