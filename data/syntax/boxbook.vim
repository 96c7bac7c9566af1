" Vim syntax file of boxbook's ledger language, printed by `boxbook lsp --syntax vim`.
if exists("b:current_syntax")
  finish
endif

syn case match
syn iskeyword @,48-57,_,192-255,-

syn keyword boxbookWord K all at by club each felt fill floor for harmony in income missing new of off on
syn keyword boxbookWord place positioning receipt seen to unknowns zero as-given count deg final free
syn keyword boxbookWord free-known free-unknown interruption known low majority no none other out practice pt
syn keyword boxbookWord ratio span time undecided unknown yes
syn keyword boxbookMark HZ CHZ PZ AV A hz chz pz av
syn keyword boxbookGroup hesitation spins

syn match boxbookNumber /\%(^\|\s\)\zs\%(-\|\%u2212\)\?\d\S*/
syn match boxbookGroup /\%(^\|\s\)\zs2-rolling\ze\%(\s\|$\)/
syn match boxbookMark /\%(^\|\s\)\zs-\ze\%(\s\|$\)/
syn match boxbookDate /\%(^\|\s\)\zs\d\{4}-\d\d-\d\d\ze\%(\s\|\.\.\|$\)/
syn match boxbookDate /\%(^\|\s\)\zs\d\{4}-\d\d-\d\d\.\.\d\{4}-\d\d-\d\d\ze\%(\s\|$\)/
syn match boxbookFlight /\%(^\|\s\)\zs\d\{4}-\d\d-\d\d\/\S\+/
syn match boxbookKey /^\s\+\zs\%(catalogue\|aircraft\|category\|contest\|closed\|club\|at\|by\)\ze\%(\s\|$\)/
syn match boxbookKey /^\s\+\zs\%(drop-extremes\|enter-by\|current\|expires\|ended\|fault\|cost\|duty\)\ze\%(\s\|$\)/
syn match boxbookKey /^\s\+\zs\%(fill-rounding\|floor-flights\|figure-floor\|floor-share\|forecast\|flights\|field\|felt\)\ze\%(\s\|$\)/
syn match boxbookKey /^\s\+\zs\%(judge-totals\|hard-zero\|harmony\|ladder\|free\|half\|like\|in\)\ze\%(\s\|$\)/
syn match boxbookKey /^\s\+\zs\%(new-families\|open-matters\|not-flown\|official\|lows\|name\|next\|note\)\ze\%(\s\|$\)/
syn match boxbookKey /^\s\+\zs\%(positioning\|prompted-by\|programme\|penalty\|panel\|place\|plain\|per\)\ze\%(\s\|$\)/
syn match boxbookKey /^\s\+\zs\%(reviewed\|sequence\|resolve\|result\|safety\|rules\|share\|says\)\ze\%(\s\|$\)/
syn match boxbookKey /^\s\+\zs\%(threshold\|unknowns\|signoff\|sheet\|steps\|total\|site\|unit\)\ze\%(\s\|$\)/
syn match boxbookKey /^\s\+\zs\%(window\|video\|zeros\|void\|zero\)\ze\%(\s\|$\)/
syn match boxbookBlock /^\%(fault-kind\|contest\|agreed\|budget\|closed\|coach\|drill\|cost\)\ze\%(\s\|$\)/
syn match boxbookBlock /^\%(language\|in-hand\|include\|part-of\|flight\|income\|ladder\|owed\)\ze\%(\s\|$\)/
syn match boxbookBlock /^\%(season-start\|sequence\|person\|policy\|review\|pilot\|rules\|rate\)\ze\%(\s\|$\)/
syn match boxbookBlock /^\%(year-start\|signoff\|settle\)\ze\%(\s\|$\)/
syn region boxbookText start=/\%(^\|\s\)\zs"/ skip=/\\./ end=/"/ oneline
syn match boxbookComment /\%(^\|\s\)\zs#.*$/

hi def link boxbookBlock Statement
hi def link boxbookKey Identifier
hi def link boxbookWord Keyword
hi def link boxbookMark Constant
hi def link boxbookGroup Type
hi def link boxbookNumber Number
hi def link boxbookDate Special
hi def link boxbookFlight Special
hi def link boxbookText String
hi def link boxbookComment Comment

let b:current_syntax = "boxbook"
