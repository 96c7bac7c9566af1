package season

import (
	"sync"
	"sync/atomic"
)

// Memo keeps what was worked out about one flight, so that several questions
// share it. The zero Memo is empty.
type Memo struct{ kept atomic.Pointer[sync.Map] }

// Question names what is kept in a flight's Memo, with the type of its answer.
// A package that asks declares one for each question.
type Question[T any] struct{ name string }

// NewQuestion gives a question its name; two questions of one name are one.
func NewQuestion[T any](name string) Question[T] { return Question[T]{name} }

// Of answers the question about a flight: with work where it is asked first,
// with what was kept from then on. Nobody may change what it gives. Several may
// ask at once; work is done once.
func (q Question[T]) Of(f *Flight, work func() T) T {
	answers := f.memo.answers()
	kept, ok := answers.Load(q)
	if !ok {
		kept, _ = answers.LoadOrStore(q, sync.OnceValue(work))
	}
	return kept.(func() T)()
}

// answers are those that are kept, room for them made when the first is asked for:
// of most flights nothing is.
func (m *Memo) answers() *sync.Map {
	if kept := m.kept.Load(); kept != nil {
		return kept
	}
	m.kept.CompareAndSwap(nil, new(sync.Map))
	return m.kept.Load()
}
