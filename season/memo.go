package season

import "sync"

// Memo keeps what was worked out about one flight, so that several questions
// share it. The zero Memo is empty.
type Memo struct{ kept sync.Map }

// Question names what is kept in a flight's Memo, with the type of its answer.
// A package that asks declares one for each question.
type Question[T any] struct{ name string }

// NewQuestion gives a question its name; two questions of one name are one.
func NewQuestion[T any](name string) Question[T] { return Question[T]{name} }

// Of answers the question about a flight: with work where it is asked first,
// with what was kept from then on. Nobody may change what it gives. Several may
// ask at once; work is done once.
func (q Question[T]) Of(f *Flight, work func() T) T {
	kept, ok := f.memo.kept.Load(q)
	if !ok {
		kept, _ = f.memo.kept.LoadOrStore(q, sync.OnceValue(work))
	}
	return kept.(func() T)()
}
