package workbook

import (
	"math/big"

	"boxbook/report/workbook/xlsx"
)

// weighed is a K-weighted mean of grades under way.
type weighed struct{ sum, k big.Rat }

func (w *weighed) add(e elementRow) {
	w.sum.Add(&w.sum, new(big.Rat).Mul(e.k, e.mean))
	w.k.Add(&w.k, e.k)
}

// percent is the mean in percent of the top grade.
func (w *weighed) percent() xlsx.Value {
	ten := big.NewRat(10, 1)
	return xlsx.Exact(ten.Mul(ten, new(big.Rat).Quo(&w.sum, &w.k)))
}
