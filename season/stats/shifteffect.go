package stats

import "slices"

// designEffect is 1 + (m - 1) r.
func (s Shifts) designEffect(m *levelMasks) float64 {
	var compared []Levels
	for i, o := range slices.Concat(s.Before, s.After) {
		if slices.ContainsFunc(m.strata, func(stratum uint64) bool { return stratum>>i&1 == 1 }) {
			compared = append(compared, o)
		}
	}
	clusters := map[int]bool{}
	for _, o := range compared {
		clusters[o.Cluster] = true
	}
	size := float64(len(compared)) / float64(len(clusters))
	return 1 + (size-1)*betweenShare(slices.Concat(s.Left, s.Before, s.After))
}

// betweenShare is the share of variance between clusters over all groups, 0
// where it cannot be told.
func betweenShare(rows []Levels) float64 {
	var between, within, dfBetween, dfWithin, sizes float64
	for g := range rows[0].Values {
		residuals := residualsOf(rows, g)
		var n, squares, clusters, inBetween, inWithin float64
		for _, r := range residuals {
			k := float64(len(r))
			n, squares, clusters = n+k, squares+k*k, clusters+1
			mean := mean(r)
			inBetween += k * mean * mean
			inWithin += sumSquares(r, mean)
		}
		if clusters > 1 {
			between, within = between+inBetween, within+inWithin
			dfBetween += clusters - 1
			dfWithin += n - clusters - float64(groupStrata(rows, g)-1)
			sizes += n - squares/n
		}
	}
	if dfBetween <= 0 || dfWithin <= 0 {
		return 0
	}
	msb, msw, size := between/dfBetween, within/dfWithin, sizes/dfBetween
	if total := msb + (size-1)*msw; msb > msw && total > 0 {
		return (msb - msw) / total
	}
	return 0
}

// residualsOf are a group's values about its mean in the stratum, by cluster.
func residualsOf(rows []Levels, g int) [][]float64 {
	var order []int
	var out [][]float64
	for _, o := range rows {
		if !o.Has[g] {
			continue
		}
		var stratum []float64
		for _, other := range rows {
			if other.Has[g] && other.Stratum == o.Stratum {
				stratum = append(stratum, other.Values[g])
			}
		}
		at := slices.Index(order, o.Cluster)
		if at < 0 {
			at = len(order)
			order, out = append(order, o.Cluster), append(out, nil)
		}
		out[at] = append(out[at], o.Values[g]-mean(stratum))
	}
	return out
}

// groupStrata counts the strata in which a group has values.
func groupStrata(rows []Levels, g int) int {
	var has []Levels
	for _, o := range rows {
		if o.Has[g] {
			has = append(has, o)
		}
	}
	return len(strataOf(has))
}
