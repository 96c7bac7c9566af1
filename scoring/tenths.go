package scoring

// Tenths is how the numbers of some marks are written: how many there are, how many lack
// their point (85 for 8.5, and 05 for 0.5 in Below), and how many have it.
type Tenths struct {
	Numbers, Without, Below, Points int

	grades bool // a whole grade that is none of 0, 5 and 10, or one with its point
	round  bool // 70 for 7.0
}

// Count takes one more number, as it is written, with its value and its decimals.
func (t *Tenths) Count(text string, value float64, decimals int) {
	_, lacks := WithoutPoint(text)
	switch {
	case lacks && text[0] != '0':
		t.Without++
		t.round = t.round || value < 100 && int(value)%10 == 0
	case lacks:
		if value > 0 {
			t.Below++
		}
	case decimals > 0:
		t.Points++
		t.grades = true
	case value != 0 && value != 5 && value != 10:
		t.grades = true
	}
	t.Numbers++
}

// InDoubt reports whether nobody can know, among marks without their point, what a number
// is: of a 10 whether it is 10 or 1.0 where nothing else is a whole grade, or 70 is written
// for 7.0 besides; of a 5 among tenths alone.
func (t Tenths) InDoubt(text string) bool {
	return t.Without > 0 && (text == "10" && (!t.grades || t.round) || text == "5" && !t.grades)
}

// EitherGrade are the two ways to type a number that is in doubt: 1.0 and 10.0, or 0.5 and
// 5.0.
func EitherGrade(text string) (tenth, whole string) {
	if text == "5" {
		return "0.5", "5.0"
	}
	return "1.0", "10.0"
}
