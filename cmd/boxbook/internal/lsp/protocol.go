package lsp

// The parts of the language server protocol that are spoken here. Lines and
// columns count from 0, columns in UTF-16 units.

type position struct {
	Line      int `json:"line"`
	Character int `json:"character"`
}

type rng struct {
	Start position `json:"start"`
	End   position `json:"end"`
}

type location struct {
	URI   string `json:"uri"`
	Range rng    `json:"range"`
}

type textEdit struct {
	Range   rng    `json:"range"`
	NewText string `json:"newText"`
}

type workspaceEdit struct {
	Changes map[string][]textEdit `json:"changes"`
}

type documentID struct {
	URI string `json:"uri"`
}

type openParams struct {
	TextDocument struct {
		URI     string `json:"uri"`
		Version *int   `json:"version"`
		Text    string `json:"text"`
	} `json:"textDocument"`
}

type changeParams struct {
	TextDocument struct {
		URI     string `json:"uri"`
		Version *int   `json:"version"`
	} `json:"textDocument"`
	ContentChanges []struct {
		Range *rng   `json:"range"`
		Text  string `json:"text"`
	} `json:"contentChanges"`
}

type documentParams struct {
	TextDocument documentID `json:"textDocument"`
}

type placeParams struct {
	TextDocument documentID `json:"textDocument"`
	Position     position   `json:"position"`
}

type referenceParams struct {
	placeParams
	Context struct {
		IncludeDeclaration bool `json:"includeDeclaration"`
	} `json:"context"`
}

type renameParams struct {
	placeParams
	NewName string `json:"newName"`
}

type rangeParams struct {
	TextDocument documentID `json:"textDocument"`
	Range        rng        `json:"range"`
}

type initializeParams struct {
	Capabilities struct {
		Workspace struct {
			DidChangeWatchedFiles struct {
				DynamicRegistration bool `json:"dynamicRegistration"`
			} `json:"didChangeWatchedFiles"`
		} `json:"workspace"`
	} `json:"capabilities"`
}

type messageParams struct {
	Type    int    `json:"type"`
	Message string `json:"message"`
}

// messageError is the sort of a message that tells of an error.
const messageError = 1

type publishParams struct {
	URI         string       `json:"uri"`
	Version     *int         `json:"version,omitempty"`
	Diagnostics []diagnostic `json:"diagnostics"`
}

type diagnostic struct {
	Range    rng    `json:"range"`
	Severity int    `json:"severity"`
	Code     string `json:"code"`
	Source   string `json:"source"`
	Message  string `json:"message"`
}

// The severities of a diagnostic.
const (
	severityError   = 1
	severityWarning = 2
)

type codeAction struct {
	Title       string        `json:"title"`
	Kind        string        `json:"kind"`
	Diagnostics []diagnostic  `json:"diagnostics"`
	IsPreferred bool          `json:"isPreferred"`
	Edit        workspaceEdit `json:"edit"`
}

type completionItem struct {
	Label    string   `json:"label"`
	Kind     int      `json:"kind"`
	Detail   string   `json:"detail,omitempty"`
	SortText string   `json:"sortText"`
	TextEdit textEdit `json:"textEdit"`
}

// The kinds of a completion: a keyword, a word of a few, a file, a name.
const (
	itemKeyword = 14
	itemValue   = 12
	itemFile    = 17
	itemName    = 18
)

type hover struct {
	Contents markup `json:"contents"`
	Range    rng    `json:"range"`
}

type markup struct {
	Kind  string `json:"kind"`
	Value string `json:"value"`
}

type documentSymbol struct {
	Name           string `json:"name"`
	Detail         string `json:"detail,omitempty"`
	Kind           int    `json:"kind"`
	Range          rng    `json:"range"`
	SelectionRange rng    `json:"selectionRange"`
}

type foldingRange struct {
	StartLine int `json:"startLine"`
	EndLine   int `json:"endLine"`
}

type inlayHint struct {
	Position    position `json:"position"`
	Label       string   `json:"label"`
	PaddingLeft bool     `json:"paddingLeft"`
}

type prepared struct {
	Range       rng    `json:"range"`
	Placeholder string `json:"placeholder"`
}

// watchLedgers asks to be told of changes of ledgers on disk.
func watchLedgers() map[string]any {
	return map[string]any{"registrations": []any{map[string]any{
		"id": "ledgers", "method": "workspace/didChangeWatchedFiles",
		"registerOptions": map[string]any{"watchers": []any{map[string]any{"globPattern": "**/*" + suffix}}},
	}}}
}

// capabilities are what initialize answers with.
func capabilities() map[string]any {
	return map[string]any{
		"positionEncoding":           "utf-16",
		"textDocumentSync":           map[string]any{"openClose": true, "change": 1, "save": map[string]any{"includeText": false}},
		"completionProvider":         map[string]any{"triggerCharacters": []string{" ", "/", `"`}},
		"hoverProvider":              true,
		"definitionProvider":         true,
		"referencesProvider":         true,
		"renameProvider":             map[string]any{"prepareProvider": true},
		"documentSymbolProvider":     true,
		"foldingRangeProvider":       true,
		"documentFormattingProvider": true,
		"codeActionProvider":         map[string]any{"codeActionKinds": []string{quickFix}},
		"inlayHintProvider":          true,
	}
}

const quickFix = "quickfix"
