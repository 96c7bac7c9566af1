// Package lsp speaks the ledger language to editors, over the language server
// protocol: what `boxbook lsp` runs. What it says comes from the same reader,
// answers and words as the commands.
package lsp

import (
	"context"
	"errors"
	"io"
	"io/fs"
	"sync"
	"time"

	"boxbook/season"

	"github.com/creachadair/jrpc2"
	"github.com/creachadair/jrpc2/channel"
	"github.com/creachadair/jrpc2/handler"
)

// Options say how the server reads ledgers.
type Options struct {
	Builtin fs.FS              // the shipped definitions
	Today   func() season.Date // the day that counts as today
	Ledger  string             // a ledger that files may belong to, "" for none
	Version string
	Trouble string // what the person is told at the start, "" for nothing
	// Settle is how long the typing rests before the diagnostics are told; 0 tells
	// them before the change is answered.
	Settle time.Duration
}

// Serve answers an editor until it says exit or closes the stream. ErrNoShutdown
// is for an exit that nobody announced.
func Serve(in io.Reader, out io.WriteCloser, opts Options) error {
	return serveOn(channel.LSP(in, out), opts)
}

// ErrNoShutdown says that the editor left without a shutdown.
var ErrNoShutdown = errors.New("the editor left without a shutdown")

func serveOn(ch channel.Channel, opts Options) error {
	s := newServer(opts)
	s.rpc = jrpc2.NewServer(s.methods(), &jrpc2.ServerOptions{AllowPush: true, Concurrency: 1})
	ended := make(chan error, 1)
	s.rpc.Start(newInTurn(ch))
	go func() { ended <- s.rpc.Wait() }()
	var err error
	select { // after an exit the stream may stay open for ever
	case err = <-ended:
	case <-s.exited:
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.timer != nil {
		s.timer.Stop()
	}
	if err == nil && s.left && !s.asked {
		return ErrNoShutdown
	}
	return err
}

// server is one editor's session. Every request holds mu.
type server struct {
	opts  Options
	rpc   *jrpc2.Server
	mu    sync.Mutex
	docs  map[string]*document // open texts, by URI
	books []*book
	said  map[string]bool // the files that have diagnostics, by URI
	timer *time.Timer
	asked bool // shutdown
	left  bool // exit
	// exited is closed by the first exit.
	exited chan struct{}
	// watching says that the editor can be asked to tell of changes on disk.
	watching bool
}

func newServer(opts Options) *server {
	return &server{opts: opts, docs: map[string]*document{}, said: map[string]bool{}, exited: make(chan struct{})}
}

// methods are what the server answers.
func (s *server) methods() handler.Map {
	return handler.Map{
		"initialize":                      on(s, s.initialize),
		"initialized":                     on(s, s.initialized),
		"shutdown":                        on(s, s.shutdown),
		"exit":                            on(s, s.exit),
		"textDocument/didOpen":            on(s, s.didOpen),
		"textDocument/didChange":          on(s, s.didChange),
		"textDocument/didClose":           on(s, s.didClose),
		"textDocument/didSave":            on(s, s.reread),
		"workspace/didChangeWatchedFiles": on(s, s.reread),
		"textDocument/completion":         on(s, s.completion),
		"textDocument/hover":              on(s, s.hover),
		"textDocument/definition":         on(s, s.definition),
		"textDocument/references":         on(s, s.references),
		"textDocument/prepareRename":      on(s, s.prepareRename),
		"textDocument/rename":             on(s, s.rename),
		"textDocument/documentSymbol":     on(s, s.symbols),
		"textDocument/foldingRange":       on(s, s.folding),
		"textDocument/formatting":         on(s, s.formatting),
		"textDocument/codeAction":         on(s, s.codeActions),
		"textDocument/inlayHint":          on(s, s.inlayHints),
	}
}

// on makes a handler of a method. One that crashes is an error of that request
// alone.
func on[P any](s *server, method func(P) (any, error)) jrpc2.Handler {
	return func(_ context.Context, req *jrpc2.Request) (answer any, err error) {
		s.mu.Lock()
		defer s.mu.Unlock()
		defer func() {
			if crash := recover(); crash != nil {
				answer, err = nil, jrpc2.Errorf(jrpc2.InternalError, "%s: internal error: %v", req.Method(), crash)
			}
		}()
		var params P
		if req.HasParams() {
			if err := req.UnmarshalParams(&params); err != nil {
				return nil, err
			}
		}
		return method(params)
	}
}

// requestFailed is the protocol's code for a request that was understood and
// cannot be done.
const requestFailed jrpc2.Code = -32803

// initialize has no use for the folders that the editor has open: the ledger that
// includes a file may stand above them.
func (s *server) initialize(p initializeParams) (any, error) {
	s.watching = p.Capabilities.Workspace.DidChangeWatchedFiles.DynamicRegistration
	return map[string]any{"capabilities": capabilities(), "serverInfo": map[string]string{"name": "boxbook", "version": s.opts.Version}}, nil
}

// initialized says what is wrong from the start, and asks to be told of changes on
// disk: of what boxbook log and others write.
func (s *server) initialized(struct{}) (any, error) {
	if s.opts.Trouble != "" {
		_ = s.rpc.Notify(context.Background(), "window/showMessage", messageParams{messageError, s.opts.Trouble})
	}
	if s.watching { // the answer comes when this request is over
		go func() { _, _ = s.rpc.Callback(context.Background(), "client/registerCapability", watchLedgers()) }()
	}
	return nil, nil
}

func (s *server) shutdown(struct{}) (any, error) {
	s.asked = true
	return nil, nil
}

func (s *server) exit(struct{}) (any, error) {
	if !s.left {
		s.left = true
		close(s.exited)
	}
	return nil, nil
}
