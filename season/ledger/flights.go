package ledger

import (
	"slices"
	"strconv"
	"strings"

	"boxbook/season"
)

// flights are all flights that have a name, in the order in which they stand.
type flights struct {
	list   []*season.Flight
	known  map[flightKey]*season.Flight
	pilots map[*season.Pilot]int // their numbers
	// nameless says that a flight's name could not be read: an unknown one may be
	// its.
	nameless bool
}

// flightKey is what names a flight, in one number: text takes longer to make and to
// find.
type flightKey uint64

// keyOf is a flight's key; pilot is its pilot's number.
func keyOf(date season.Date, pilot, programme, label int) flightKey {
	return flightKey(uint32(date))<<38 | flightKey(pilot)<<14 | flightKey(label)<<4 | flightKey(programme)
}

// key is that of a flight with a known pilot and programme.
func (fs *flights) key(fl *season.Flight) flightKey {
	return keyOf(fl.Date, fs.pilots[fl.Pilot], slices.Index(season.Programmes, fl.Programme), fl.Label)
}

// begin makes room for so many flights, once pilots are known.
func (fs *flights) begin(pilots []*season.Pilot, most int) {
	for i, p := range pilots {
		fs.pilots[p] = i
	}
	fs.known = make(map[flightKey]*season.Flight, most)
	fs.list = make([]*season.Flight, 0, most)
}

// add takes a flight; where one has its name already it gives that and takes none.
func (fs *flights) add(fl *season.Flight) (old *season.Flight) { return fs.addAs(fs.key(fl), fl) }

func (fs *flights) addAs(key flightKey, fl *season.Flight) (old *season.Flight) {
	if old = fs.known[key]; old == nil {
		fs.known[key] = fl
		fs.list = append(fs.list, fl)
	}
	return old
}

// like is the flight with another one's date, pilot, programme and label, nil where
// there is none.
func (fs *flights) like(fl *season.Flight) *season.Flight { return fs.known[fs.key(fl)] }

// flightNamed finds a flight by its full name, nil where there is none.
func (r *reader) flightNamed(name string) *season.Flight {
	parts := strings.Split(name, "/")
	if len(parts) < 3 {
		return nil
	}
	date, ok := season.ParseDate(parts[0])
	pilot := r.names.pilots.named(parts[1])
	if !ok || pilot == nil || !slices.Contains(season.Programmes, season.Programme(parts[2])) {
		return nil
	}
	like := season.Flight{Date: date, Pilot: pilot.value, Programme: season.Programme(parts[2]), Label: 1}
	if len(parts) > 3 {
		like.Label, _ = strconv.Atoi(parts[3])
	}
	if like.Label < 1 || like.Label > mostLabel {
		return nil
	}
	if fl := r.names.flights.like(&like); fl != nil && fl.Name == name {
		return fl
	}
	return nil
}

// names are those of all.
func (fs *flights) names() []string {
	names := make([]string, len(fs.list))
	for i, fl := range fs.list {
		names[i] = fl.Name
	}
	return names
}

// registry is for messages of a flight that is not there.
func (fs *flights) registry() *registry[*season.Flight] {
	return &registry[*season.Flight]{kind: flightWord, order: fs.names(), nameless: fs.nameless}
}

// byDate are all by date, those of a day as they stand.
func (fs *flights) byDate() []*season.Flight {
	byDate := func(a, b *season.Flight) int { return int(a.Date) - int(b.Date) }
	list := slices.Clip(slices.Clone(fs.list))
	if !slices.IsSortedFunc(list, byDate) {
		slices.SortStableFunc(list, byDate)
	}
	return list
}
