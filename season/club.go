package season

// ClubCalled is the club's name: the one that most pilots have, of equals the
// one that stands first; "" where none has any.
func (l *Ledger) ClubCalled() string {
	count, best := map[string]int{}, ""
	for _, p := range l.Pilots {
		if p.Club != "" {
			count[p.Club]++
		}
	}
	for _, p := range l.Pilots {
		if count[p.Club] > count[best] {
			best = p.Club
		}
	}
	return best
}
