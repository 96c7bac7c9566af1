package commands

import (
	"errors"
	"fmt"
	"os"
	"os/signal"

	"boxbook/season/ledger"
)

// held does something that writes while a request to stop only stops it between
// two steps, so that no temporary file is left. Once the ledger is changed the
// command goes on to its end, which is milliseconds away, and says so.
// left says how things are where it is stopped.
func (a *app) held(path, left string, do func(ledger.Watch) error) error {
	caught := make(chan os.Signal, 1)
	for _, s := range stopSignals {
		if !signal.Ignored(s) { // as under nohup
			signal.Notify(caught, s)
		}
	}
	defer func() {
		if !a.changed {
			signal.Stop(caught)
		}
	}()
	var got os.Signal
	stopped := func() bool {
		select {
		case got = <-caught:
		default:
		}
		return got != nil
	}
	err := do(ledger.Watch{Stopped: stopped, Waiting: func() {
		fmt.Fprintf(a.err, "waiting: another boxbook is changing %s\n", shownName(path))
	}})
	if errors.Is(err, ledger.ErrStopped) && got != nil {
		return &stoppedError{got, left}
	}
	return err
}

// writeHeld writes a file to its end, or not at all, where a request to stop comes
// meanwhile.
func (a *app) writeHeld(path string, data []byte) error {
	return a.held(path, "nothing was written", func(w ledger.Watch) error {
		if w.Stopped() {
			return ledger.ErrStopped
		}
		if err := writeOutput(path, data); err != nil {
			return &fileError{"write " + path, err}
		}
		return nil
	})
}
