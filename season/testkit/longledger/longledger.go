// Package longledger makes ledgers of many seasons, to measure how long a
// question takes and to count what it asks for. They are invented and seeded:
// the same size gives the same text. It imports nothing of the house.
package longledger

import (
	"fmt"
	"math/rand/v2"
	"strings"
)

// Size says how long a ledger is. Contest and Practice are flights of a pilot in
// a season; the last season is Last.
type Size struct {
	Pilots, Seasons   int
	Contest, Practice int
	Last              int
}

// Thirty is the book of one pilot over thirty seasons, about a megabyte; Ten
// the same over ten, of as many pilots as one likes.
func Thirty() Size { return Size{Pilots: 1, Seasons: 30, Contest: 20, Practice: 30, Last: lastSeason} }

// Ten is the book of so many pilots over ten seasons.
func Ten(pilots int) Size {
	return Size{Pilots: pilots, Seasons: 10, Contest: 20, Practice: 30, Last: lastSeason}
}

const lastSeason = 2026

// The shape of a season: how many judges grade a flight, and in how many
// contests its flights stand.
const (
	judges   = 5
	contests = 5
	days     = 28 // of a month, so that every day is one
)

// figures are what sequences are made of: elements with their K.
var figures = []string{
	"1.2.6.3:8  9.11.1.5:6", "7.2.2.1:6  9.1.3.2:4", "8.5.2.1:10 9.4.4.2:5", "5.2.1.1:17 9.1.1.1:6  9.1.5.1:2", "7.4.1.1:10", "2.3.1.1:5",
	"8.4.1.1:13 9.1.1.2:8", "1.1.1.1:2  9.9.3.4:11", "7.4.3.1:14", "1.2.1.1:8  9.1.2.4:10", "1.1.1.1:2  9.2.3.4:9", "2.1.3.1:14",
	"8.5.1.1:11 9.1.2.2:6", "7.2.3.3:7  9.1.3.2:4", "8.4.3.1:14 9.1.5.2:4", "1.1.1.1:2  9.4.3.4:11",
}

// faults can be noted on any figure.
var faults = []string{"radius 2x seen", "line-length 3:1 seen", "line-angle 12deg seen", "line-angle 18deg seen"}

var programmes = []string{"known", "free", "unknown", "free-unknown", "final"}

// book is a ledger as it is written.
type book struct {
	strings.Builder
	dice *rand.Rand
	Size
	k map[string][]int // of each sequence's figures
}

// Text is the ledger's text.
func Text(s Size) string {
	b := &book{dice: rand.New(rand.NewPCG(uint64(s.Pilots), uint64(s.Seasons))), Size: s, k: map[string][]int{}}
	b.WriteString("# An invented book, made to be long.\n\ncoach marek\n  name      \"Marek Oduya\"\n")
	for p := range s.Pilots {
		fmt.Fprintf(b, "\npilot %s\n  name      \"Pilot the %dth\"\n  club      \"Kestrel Aero Club\"\n  expires   licence %d-%02d-12\n", pilot(p), p+1, s.Last+1, 1+p%12)
	}
	for n := range s.Seasons {
		b.season(s.Last - s.Seasons + 1 + n)
	}
	return b.String()
}

func pilot(p int) string { return fmt.Sprintf("p%d", p+1) }

// printf adds a piece of text.
func (b *book) printf(format string, args ...any) { fmt.Fprintf(b, format, args...) }

func (b *book) season(year int) {
	for _, programme := range programmes[:4] {
		b.sequence(year, programme)
	}
	for c := range contests {
		month := 4 + c
		b.printf("\ncontest c%d-%d %d-%02d-10..%d-%02d-14\n  name      \"Contest %d of %d\"\n  ladder    us\n  rules     panel-mean\n  panel     AK BM CT DW RS\n",
			year, c, year, month, year, month, c+1, year)
		for p := range b.Pilots {
			b.printf("  cost      entry 95.00 EUR for %s by club\n  cost      fuel %d.40 EUR for %s\n", pilot(p), 40+p, pilot(p))
		}
	}
	for p := range b.Pilots {
		for f := range b.Contest {
			b.contestFlight(year, pilot(p), f)
		}
		for f := range b.Practice {
			b.practice(year, pilot(p), f)
		}
		b.printf("\ndrill %d-03-01 %s radius \"ten loops, radii alone\"\n", year, pilot(p))
	}
}

// category is what is flown in a season: the first two of a long book below
// the rest.
func (b *book) category(year int) string {
	if b.Seasons > 2 && year <= b.Last-b.Seasons+2 {
		return "sportsman"
	}
	return "intermediate"
}

// Figures is how many a sequence has.
const Figures = 11

func (b *book) sequence(year int, programme string) {
	b.printf("\nsequence %s-%d\n  category     %s\n  programme    %s\n", programme, year, b.category(year), programme)
	order := b.dice.Perm(len(figures))
	for n := range Figures {
		figure := figures[order[n]]
		b.printf("  %-12d %s   \"figure %d\"\n", n+1, figure, n+1)
		name := fmt.Sprintf("%s-%d", programme, year)
		b.k[name] = append(b.k[name], kOf(figure))
	}
	b.WriteString("  positioning  K 10\n")
}

// kOf is the sum of a figure's K.
func kOf(figure string) int {
	sum := 0
	for _, element := range strings.Fields(figure) {
		k := 0
		fmt.Sscanf(element[strings.Index(element, ":")+1:], "%d", &k)
		sum += k
	}
	return sum
}

// flightHead begins a flight: at most one of a name a day.
func (b *book) flightHead(year, month, day int, pilot, programme, sequence string) {
	b.printf("\nflight %d-%02d-%02d %s %s\n  sequence     %s\n", year, month, day, pilot, programme, sequence)
}

func (b *book) contestFlight(year int, pilot string, f int) {
	c, nth := f%contests, f/contests
	programme := programmes[nth%len(programmes)]
	sequence := fmt.Sprintf("%s-%d", programmes[nth%4], year)
	b.flightHead(year, 4+c, 10+nth%5, pilot, programme, sequence)
	b.printf("  contest      c%d-%d\n", year, c)
	plain, tenths := true, 0
	for row := range Figures {
		sum, every := b.row(fmt.Sprint(row+1), true)
		plain, tenths = plain && every, tenths+sum*b.k[sequence][row]
	}
	sum, _ := b.row("positioning", false)
	tenths += 10 * sum
	if f%5 == 0 {
		b.WriteString("  penalty      low 20\n")
		tenths -= 200
	}
	if plain {
		b.printf("  official     %d.%d\n", tenths/10, tenths%10)
	}
	b.printf("  place        %d of 9\n  note         \"the wind from the left, and gusts at the corners of the box\"\n", 1+b.dice.IntN(9))
	b.faults(2)
}

// row is a row of marks of the whole panel, and their sum in half points; one
// mark in two hundred is a hard zero, one an average, where there may be any, and
// then not every one is a plain grade. One row in fifty has a comment.
func (b *book) row(name string, zeros bool) (halves int, every bool) {
	b.printf("  %-12s", name)
	every = true
	for range judges {
		switch chance := b.dice.IntN(200); {
		case zeros && chance < 2:
			b.WriteString([]string{" HZ ", " AV "}[chance])
			every = false
		default:
			half := 10 + b.dice.IntN(8)
			b.printf(" %d.%d", half/2, half%2*5)
			halves += half
		}
	}
	if b.dice.IntN(50) == 0 {
		b.WriteString("   # as on the form")
	}
	b.WriteString("\n")
	return halves, every
}

func mark(dice *rand.Rand) string {
	half := 10 + dice.IntN(8)
	return fmt.Sprintf("%d.%d", half/2, half%2*5)
}

func (b *book) practice(year int, pilot string, f int) {
	programme := programmes[f%4]
	b.flightHead(year, 3+f%7, 15+f%(days-15), pilot, "practice "+fmt.Sprint(1+f), fmt.Sprintf("%s-%d", programme, year))
	b.WriteString("  panel        marek\n")
	for row := 1; row <= Figures; row += 1 + b.dice.IntN(2) {
		b.printf("  %-12d %s\n", row, mark(b.dice))
	}
	b.faults(3)
	b.printf("  note         \"flown over the field; %d turns in hand, the wind from the left\"\n  video        \"videos/%d-%s-practice-%d.mp4\"\n", f, year, pilot, f)
}

// faults notes up to so many different ones of a flight, by the coach, and that it
// was seen.
func (b *book) faults(most int) {
	kinds := b.dice.Perm(len(faults))
	for n := range b.dice.IntN(most + 1) {
		b.printf("  fault        %d %s by marek\n", 1+b.dice.IntN(Figures), faults[kinds[n]])
	}
	if b.dice.IntN(3) > 0 {
		b.WriteString("  reviewed     by marek\n")
	}
}
