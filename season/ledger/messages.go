package ledger

// Code names one kind of diagnostic. It is public: people look it up (`boxbook
// help grade-not-half`) and programs go by it, so a name that was released stays.
type Code string

// message is how a kind of diagnostic is said: lower case, no full stop, what
// was read in quotes, then what was expected. hint is a default; a reader that
// knows better says its own.
type message struct {
	severity Severity
	text     string
	hint     string
}

const (
	// Characters.
	notUTF8          Code = "not-utf8"
	controlCharacter Code = "control-character"
	lineTooLong      Code = "line-too-long"
	badEscape        Code = "bad-escape"
	unclosedQuote    Code = "unclosed-quote"
	textAfterQuote   Code = "text-after-quote"
	quoteInsideWord  Code = "quote-inside-word"
	curlyQuote       Code = "curly-quote"
	oddSpace         Code = "odd-space"
	unseenCharacter  Code = "unseen-character"
	unseenInText     Code = "unseen-in-text"

	// Lines and blocks.
	unknownBlock    Code = "unknown-block"
	unknownKey      Code = "unknown-key"
	keyTwice        Code = "key-twice"
	bodyAtColumnOne Code = "body-not-indented"
	blockIndented   Code = "block-indented"
	strayHead       Code = "stray-block"
	lineOutside     Code = "line-outside"
	missingWord     Code = "word-missing"
	extraWord       Code = "word-too-many"
	tooLate         Code = "word-too-late"
	afterRemark     Code = "word-after-remark"
	unexpected      Code = "wrong-word"
	bodyNotAllowed  Code = "body-not-allowed"
	headLate        Code = "head-late"
	headTwice       Code = "head-twice"
	languageNew     Code = "language-too-new"

	// Includes.
	includeMissing  Code = "include-missing"
	includeCycle    Code = "include-cycle"
	includeOutside  Code = "include-outside"
	includeTooMany  Code = "include-too-many"
	includeTooLarge Code = "include-too-large"
	partMissing     Code = "part-of-missing"
	partCycle       Code = "part-of-cycle"
	partNotIncluded Code = "part-not-included"

	// Words.
	badHandle      Code = "bad-handle"
	reservedClub   Code = "reserved-club"
	handleTaken    Code = "handle-taken"
	badDate        Code = "bad-date"
	noSuchDay      Code = "no-such-day"
	spanReversed   Code = "span-reversed"
	badNumber      Code = "bad-number"
	outOfRange     Code = "out-of-range"
	badAmount      Code = "bad-amount"
	badCurrency    Code = "bad-currency"
	moneyDecimals  Code = "money-decimals"
	moneySign      Code = "money-sign"
	definedTwice   Code = "defined-twice"
	unknownName    Code = "unknown-name"
	unknownChoice  Code = "unknown-choice"
	nameListed     Code = "name-listed-twice"
	badCode        Code = "bad-code"
	impossibleCode Code = "impossible-code"
	badFloor       Code = "bad-floor"
	badMonthDay    Code = "bad-month-day"
	placeAboveOf   Code = "place-above-of"
	placeZero      Code = "place-zero"
	pointsAboveMax Code = "points-above-maximum"
	nothingSaid    Code = "nothing-said"
	emptyPath      Code = "empty-path"
	noCategories   Code = "ladder-without-categories"

	// Sequences.
	figureOrder    Code = "figure-order"
	figureTwice    Code = "figure-twice"
	noFigures      Code = "no-figures"
	figureNoK      Code = "figure-without-k"
	someK          Code = "element-without-k"
	bothK          Code = "k-given-twice"
	figureK        Code = "figure-k-range"
	totalMismatch  Code = "total-mismatch"
	kDiffers       Code = "k-differs"
	unknownLadderC Code = "category-in-no-ladder"

	// Marks.
	gradeStep      Code = "grade-not-half"
	gradeHigh      Code = "grade-above-ten"
	gradeZero      Code = "grade-with-zero"
	badMark        Code = "not-a-mark"
	zeroOnWeighted Code = "zero-on-weighted-line"
	rowLength      Code = "row-length"
	sheetLength    Code = "sheet-length"
	rowMissing     Code = "row-missing"
	rowDoubled     Code = "row-doubled"
	rowTwice       Code = "row-twice"
	noSuchFigure   Code = "no-such-figure"
	noSuchLine     Code = "no-such-line"
	rowsAndSheets  Code = "rows-and-sheets"
	sheetUnknown   Code = "sheet-unknown"
	sheetMissing   Code = "sheet-missing"
	sheetsAlike    Code = "sheets-alike"
	noPanel        Code = "no-panel"
	noSequence     Code = "no-sequence"
	totalsCount    Code = "judge-totals-count"

	// Flights.
	emptyFlight       Code = "empty-flight"
	flightTwice       Code = "flight-twice"
	marksAlike        Code = "flight-marks-repeated"
	marksNearly       Code = "flight-marks-nearly-repeated"
	judgeAlmost       Code = "judge-spelt-twice"
	noCategory        Code = "no-category"
	noMaximum         Code = "official-without-maximum"
	otherMaximum      Code = "official-other-maximum"
	percentAsPoints   Code = "official-percent-as-points"
	otherProgramme    Code = "other-programme"
	outsideContest    Code = "outside-contest"
	contestSplit      Code = "contest-split"
	afterToday        Code = "after-today"
	notInField        Code = "not-in-field"
	placeNotField     Code = "place-against-field"
	resolveIdle       Code = "resolve-idle"
	resolveNoFill     Code = "resolve-nothing-to-fill"
	flightNameInPart  Code = "flight-name-in-part"
	promptedElsewhere Code = "prompted-by-another"
	promptedLater     Code = "prompted-later"
	endedBefore       Code = "ended-before"

	// Faults.
	faultUnit      Code = "fault-unit"
	faultWhole     Code = "fault-whole-flight"
	faultCode      Code = "code-not-in-figure"
	ratioOrder     Code = "ratio-order"
	faultTwice     Code = "fault-repeated"
	faultDoubled   Code = "fault-maybe-repeated"
	amountLarge    Code = "fault-amount-large"
	faultElsewhere Code = "fault-not-on-figure"
	closedGrade    Code = "closed-not-safety"
	closedIdle     Code = "closed-not-open"
	faultKindUnit  Code = "fault-kind-unit"
	badMoment      Code = "bad-moment"

	// Rule styles, policies, money.
	likeCycle        Code = "like-cycle"
	policyShapeWrong Code = "policy-shape"
	policyNeverOff   Code = "policy-never-off"
	policyNoGate     Code = "policy-no-gate"
	keyTwiceAs       Code = "key-twice-under-two-names"
	sameParty        Code = "same-party"
	pilotsOrClub     Code = "pilots-or-club"
	rateTarget       Code = "rate-target"
	rateTwice        Code = "rate-twice"
	rateZero         Code = "rate-zero"
	commaRead        Code = "comma-in-amount"
	clubToClub       Code = "club-pays-club"
	someShares       Code = "some-shares"
	shareOfClub      Code = "share-of-club"
	shareOfAll       Code = "share-of-all"
	shareFirst       Code = "share-first"
	badShare         Code = "bad-share"
	sharesNear       Code = "shares-like-amounts"
	besideAll        Code = "beside-all"
	eachAndShares    Code = "each-and-shares"
	allIsPilot       Code = "all-is-a-pilot"
	nobodyThere      Code = "nobody-there"
	zeroMoney        Code = "zero-money"
	dateEarly        Code = "date-early"
	farFromContest   Code = "far-from-contest"
	yearOffContest   Code = "year-off-contest"
	kindAlmost       Code = "kind-spelt-twice"
	budgetOfIncome   Code = "budget-of-income"
	potAlmost        Code = "pot-spelt-twice"
	potCurrency      Code = "pot-in-another-currency"
	receiptTwice     Code = "receipt-twice"
	receiptName      Code = "receipt-is-a-name"
	incomeFromDebtor Code = "income-from-debtor"
	billedAgain      Code = "billed-again"
	repeated         Code = "money-line-repeated"
	rateFar          Code = "rate-far"
	agreedOther      Code = "agreed-otherwise"
	yearNoMoney      Code = "year-without-money"
	nothingOwed      Code = "nothing-owed"
	paidOtherWay     Code = "payment-other-way"
	paidTooMuch      Code = "payment-too-large"
	latePayment      Code = "payment-into-agreed-year"
	refundOfBill     Code = "refund-of-a-bill"
	stepOrder        Code = "step-order"
)

// messages says every kind of diagnostic.
var messages = map[Code]message{
	notUTF8:          {Error, "byte %#02x is not UTF-8 text", "save the file as UTF-8"},
	controlCharacter: {Error, "control character %U", "delete it"},
	lineTooLong:      {Error, "the line is longer than %d KiB", ""},
	badEscape:        {Error, `a backslash in quoted text is only allowed before " or \`, `type \\ for a backslash`},
	unclosedQuote:    {Error, "the quoted text is not closed on its line", `end it with "`},
	textAfterQuote:   {Error, "no space after the closing quote", "put a space after the quoted text"},
	quoteInsideWord:  {Error, "a quote opens inside a word", "put a space before the quoted text"},
	curlyQuote:       {Error, "curly quote %q outside quoted text", `type the straight quote "`},
	oddSpace:         {Error, "%U looks like a space but is not one", "type a plain space"},
	unseenCharacter:  {Error, "%U is invisible and turns the direction of what follows", "delete it"},
	unseenInText:     {Warning, "%U is invisible; for some programs it ends the line or turns what follows", "delete it"},

	unknownBlock:    {Error, "no block is called %q", ""},
	unknownKey:      {Error, "%s has no line %q", ""},
	keyTwice:        {Error, "%q appears twice in one block, first on line %d", ""},
	bodyAtColumnOne: {Error, "%q at the line's start begins no block here", "indent it"},
	blockIndented:   {Error, "%q begins a block but is indented", "start at column 0"},
	strayHead:       {Error, "%q begins a block in the middle of the %s of line %d", "move it above that block, or below its last line"},
	lineOutside:     {Error, "an indented line outside any block", "start a block at column 0 above it"},
	missingWord:     {Error, "%s is missing after %q", ""},
	extraWord:       {Error, "%q is one word too many", ""},
	afterRemark:     {Error, "%q follows a remark, which ends its line", ""},
	tooLate:         {Error, "%q comes too late; the order is %s", ""},
	unexpected:      {Error, "%q is not %s", ""},
	bodyNotAllowed:  {Error, "%q is one line and has no indented lines", ""},

	headTwice:   {Error, "%q appears twice in one file, first on line %d", ""},
	headLate:    {Error, "%q belongs before any other block", "move it to the beginning of the file"},
	languageNew: {Error, "this file is in version %d of the language, and this boxbook reads version %d", "a newer boxbook reads it"},

	includeMissing:  {Error, "cannot include %q: %s", ""},
	includeCycle:    {Error, "%q includes itself, by way of %s", ""},
	includeOutside:  {Error, "%q is outside the ledger's folder", "included files must be in the folder of the main ledger or below it"},
	includeTooMany:  {Error, "more than %d included files", ""},
	includeTooLarge: {Error, "%q is larger than %d MiB", ""},

	partMissing:     {Error, "cannot read %q: %s", ""},
	partCycle:       {Error, "%q is part of this file in turn", ""},
	partNotIncluded: {Error, "%q does not include this file", ""},

	badHandle:      {Error, "%q is not a name: a letter, then letters, digits, - or _", ""},
	reservedClub:   {Error, `"club" stands for the club itself and cannot name a %s`, ""},
	handleTaken:    {Error, "%q is a %s already, at %s", ""},
	badDate:        {Error, "%q is not a date (YYYY-MM-DD)", ""},
	noSuchDay:      {Error, "there is no day %s", ""},
	spanReversed:   {Error, "the span %s ends before it begins", ""},
	badNumber:      {Error, "%q is not %s", ""},
	outOfRange:     {Error, "%s is outside %s to %s", ""},
	badAmount:      {Error, "%q is not an amount of a fault (10deg, 2:1, 1.5span, 1.5pt, 3x)", ""},
	badCurrency:    {Error, "%q is not a currency (ISO 4217: EUR, CHF ...)", ""},
	moneyDecimals:  {Error, "%s has more decimals than %s amounts have (%d)", ""},
	moneySign:      {Error, "%q is below zero; only a refund (cost), an overdraft (in-hand) or a loss (agreed) may be", ""},
	definedTwice:   {Error, "%s %q is defined twice, first at %s", ""},
	unknownName:    {Error, "no %s is called %q", ""},
	unknownChoice:  {Error, "%q is not %s (%s)", ""},
	nameListed:     {Error, "%q is listed twice", ""},
	badCode:        {Error, "%q is not a catalogue number, a family or a group", ""},
	impossibleCode: {Warning, "%q is not in the catalogue: it has no family %s; did you mean %q?", ""},
	badFloor:       {Error, "%q is not a floor (1200ft or 100m)", ""},
	badMonthDay:    {Error, "%q is not a day of the year (MM-DD)", ""},
	placeAboveOf:   {Error, "place %d of %d: the place is above the number of pilots", ""},
	placeZero:      {Error, "place %d: places begin at 1", ""},
	pointsAboveMax: {Error, "%s points are more than the maximum of %s", ""},
	nothingSaid:    {Error, "%s is empty", "%s"},
	emptyPath:      {Warning, "the path is empty: it leads to no file", ""},
	noCategories:   {Warning, "ladder %q has no category", "list its categories, lowest first"},

	figureOrder:    {Error, "figure %s comes where figure %d is expected: figures are numbered 1, 2, 3 without a gap", ""},
	figureTwice:    {Error, "figure %d appears twice, first on line %d", ""},
	noFigures:      {Error, "sequence %q has no figures", ""},
	figureNoK:      {Error, "figure %d has no K", "write CODE:K for each element, or `K 14`"},
	someK:          {Error, "element %q has no K", "give every element a K (CODE:K), or the figure's K before them: `K 14 9.1.1.1`"},
	bothK:          {Error, "%q has a K of its own besides the figure's", "give the figure's K or each element's, not both"},
	figureK:        {Error, "figure %d has K %d; a figure's K is 1 to 200", ""},
	totalMismatch:  {Error, "total K %d is neither the figures' K (%d) nor that with the other lines (%d)", "look for a mistyped K"},
	kDiffers:       {Warning, "%s has K %d here and K %d at %s", "one of the two is mistyped, or give the sequences different `catalogue` words"},
	unknownLadderC: {Warning, "no ladder has a category %q", ""},

	gradeStep:      {Error, "grade %s is not a half point (0, 0.5 ... 10)", ""},
	gradeHigh:      {Error, "grade %s is above 10", ""},
	gradeZero:      {Warning, "grade %s is read as 5.0", "0.5 or 5.0?"},
	badMark:        {Error, "%q is not a mark: a grade 0 to 10, HZ, CHZ, PZ, AV or -", ""},
	zeroOnWeighted: {Error, "%s is not allowed in the %s line, which takes grades, AV or -", ""},
	rowLength:      {Error, "%s has %s, the panel has %s (%s)", ""},
	sheetLength:    {Error, "sheet %s has %s, the sequence has %s", ""},
	rowMissing:     {Error, "%s %s no row of marks%s", ""},
	rowDoubled:     {Error, "%s has a second row, of %s, the first is on line %d; the panel has %s", ""},
	rowTwice:       {Error, "%s has a second %s, the first is on line %d", ""},
	noSuchFigure:   {Error, "there is no figure %s: %s has %s", ""},
	noSuchLine:     {Error, "%s has no %s line", "add it to the sequence with its K, or delete this row"},
	rowsAndSheets:  {Error, "%s in a flight that has %s", "give the marks by figure or by sheet, not both"},
	sheetUnknown:   {Error, "judge %q is not on the panel (%s)", ""},
	sheetMissing:   {Error, "judge %s has no sheet", "if the sheet is not to hand, end the panel with `missing %s`"},
	sheetsAlike:    {Warning, "the sheets of %s and %s are equal in all marks", "check whether one was typed twice"},
	noPanel:        {Error, "no panel: neither the flight nor its contest says who judged", "add `panel A B C`, the judges in the order of the marks"},
	noSequence:     {Error, "marks without a sequence: the K factors are not known", "add `sequence NAME`"},
	totalsCount:    {Error, "%s for a panel of %s", ""},

	emptyFlight:       {Error, "the flight is empty", "add its marks, an official total, a place, a fault, `reviewed`, `void`, a video or a note"},
	flightTwice:       {Error, "flight %s appears twice, first at %s", "another flight of that day has a number: `%s`; to correct the first, change it there with an editor"},
	marksAlike:        {Warning, "has exactly the marks of %s (%s): almost surely one sheet, typed or imported twice", "take out the one that was not flown, or correct its marks"},
	marksNearly:       {Warning, "all but %d of the %d marks are those of %s (%s)%s: one sheet, typed again?", "take out the one that was not flown; if both were, a note of the later one says so"},
	judgeAlmost:       {Warning, "judge %q is nearly %q of %s of %q and judged nothing else: they count as two", "if one is meant, correct the name in `panel`; if they are two, a note of the flight that names %s says so"},
	noCategory:        {Warning, "the flight has no category; only questions about all categories count it", "add `category NAME`"},
	noMaximum:         {Warning, "the official total %s has no maximum, so no percent: the flight does not count in the season", "add `of MAXIMUM` behind it, or `sequence NAME`"},
	otherMaximum:      {Warning, "the printed maximum is %s, that of the sequence %d, and %s", "compare the maximum, and each K of the sequence, with the printed result"},
	percentAsPoints:   {Warning, "%s of %d points is %s%%%s: a percent, typed as points?", ""},
	otherProgramme:    {Warning, "programme %q is not that of sequence %q, which is %q", ""},
	outsideContest:    {Warning, "%s is outside contest %q (%s)", ""},
	contestSplit:      {Warning, "%q follows %q (%s) with the very same panel and may be the same contest: typed as two, what it adds to all of its flights is not seen", "if it is one, give the first both days, and its handle to the flights of the second"},
	afterToday:        {Warning, "%s is later than %s, the day that counts as today", ""},
	notInField:        {Warning, "the flight's own total, %s, is not in `field`; it is added%s", ""},
	placeNotField:     {Warning, "place %d, but %s in `field` are above the flight's own %s", ""},
	resolveIdle:       {Warning, "nothing is undecided on %s; the ruling has no effect", ""},
	resolveNoFill:     {Error, "%s has no grade to fill from", "only `zero` can be ruled here"},
	flightNameInPart:  {Error, "%q is not a flight's full name (DATE/PILOT/PROGRAMME)", ""},
	promptedElsewhere: {Error, "%q is a flight of another pilot", ""},
	promptedLater:     {Error, "%q was flown after the drill was set", ""},
	endedBefore:       {Error, "the drill ended on %s, before it was set on %s", ""},

	faultUnit:      {Error, "%q: a %s fault is measured in %s", ""},
	faultWhole:     {Error, "a fault of the flight as a whole is on no code", "name the figure instead of -"},
	faultCode:      {Error, "figure %d has no %q", ""},
	ratioOrder:     {Error, "%q: the longer line comes first", ""},
	amountLarge:    {Warning, "%s is more than half a turn", ""},
	faultElsewhere: {Warning, "no element of figure %d can show a %s fault", ""},
	faultDoubled:   {Warning, "is already there, on %s: the same fault of the same figure with the same amount, which counts twice", "if it is one, take out either line; if there were two, write 2x, or give each a remark or its place in the video"},
	faultTwice:     {Warning, "repeats %s: the same fault by the same person; it counts once", "if there were two, write 2x, or give each a remark or its place in the video"},
	closedGrade:    {Error, "%q is not a safety matter, and only those are closed", ""},
	closedIdle:     {Warning, "no %q of %s is open on %s; the line closes nothing", ""},
	faultKindUnit:  {Error, "%q is not measured in the kind's unit, %s", ""},
	badMoment:      {Error, "%q is not a place in the video (M:SS or H:MM:SS)", ""},

	likeCycle:        {Error, "rules %q is like itself, by way of %s", ""},
	policyShapeWrong: {Error, "%s is written `%s`", ""},
	policyNeverOff:   {Warning, "%s cannot be off; the gate stays", ""},
	policyNoGate:     {Warning, "%s is not a gate of its own; the house value, %s, applies", ""},
	keyTwiceAs:       {Error, "%q appears twice in one block, first on line %d as %q", ""},
	pilotsOrClub:     {Error, "a cost is for people or for the club, not for both", "split it into two costs"},
	sameParty:        {Error, "%q is on both sides", ""},
	rateTarget:       {Error, "%d already converts into %s (%s)", "one currency a year is the one to convert into"},
	rateTwice:        {Error, "%d already has a rate for %s, on %s", ""},
	rateZero:         {Error, "a rate is above zero", ""},
	commaRead:        {Warning, "%s %s is read as %s: the comma is taken as the decimal point", ""},
	clubToClub:       {Warning, "the club pays itself: neither income nor a cost", "leave out `to club`"},
	someShares:       {Error, "%q has no number: give numbers after all names or none", ""},
	shareOfClub:      {Error, "%q comes after \"club\", which shares with nobody", ""},
	shareOfAll:       {Error, "%q comes after \"all\", who share equally", ""},
	shareFirst:       {Error, "%q comes before the name that it is for", "write the number after its name"},
	badShare:         {Error, "%q is not a share (1, 2 ...)", ""},
	sharesNear:       {Warning, "%s is a share, not an amount: %s has %s of %s %s", ""},
	besideAll:        {Error, "%q is named with \"all\", which is everybody in the contest", "name those it is for, or write `for all` alone"},
	eachAndShares:    {Error, "an amount of each is not shared: `each` and numbers of shares do not go together", ""},
	allIsPilot:       {Warning, `"all" is the pilot of that name here, not everybody in the contest`, "name those it is for"},
	nobodyThere:      {Error, "nobody has a flight or a result in contest %q", "name those it is for"},
	zeroMoney:        {Warning, "the amount is zero", ""},
	dateEarly:        {Warning, "%s is more than two years before the ledger's first other date, %s", ""},
	farFromContest:   {Warning, "%s is more than %d days from contest %q (%s)", ""},
	yearOffContest:   {Warning, "%s is about a year from contest %q (%s)", "probably %s is meant"},
	kindAlmost:       {Warning, "kind %q differs from %q (%s) only by %s", "write %s"},
	budgetOfIncome:   {Warning, "kind %q was only ever income (%s), and is a cost in this budget", "what is to come in has income behind its amount; a cost that is still to come says so in a remark"},
	potAlmost:        {Warning, "pot %q is spelt almost like %q (%s): they count as two", ""},
	potCurrency:      {Warning, "pot %q had %s before (%s), and never both on one day", "write %s, or count both on one day if it holds both"},
	receiptTwice:     {Warning, "receipt %s is also that of %s", "if one slip covers both, give both its day and who paid it"},
	receiptName:      {Warning, "%q is somebody's name: after receipt comes the slip's number", "who paid is `by` or `for`, before the receipt"},
	incomeFromDebtor: {Warning, "%s owed the club %s %s on %s, and a payment of that is no income", ""},
	billedAgain:      {Warning, "%s still owes the club the %s of %s from %s, and this is as much once more, paid at once", ""},
	repeated:         {Warning, "repeats %s: the same %s %s", "if both are right, give one a remark or a receipt of its own"},
	rateFar:          {Warning, "%s is %s the rate of %d, %s (%s)", ""},
	agreedOther:      {Warning, "%d is agreed with %s%s; its lines come to %s", ""},
	yearNoMoney:      {Warning, "the ledger has no money in %d", "did you mean %d?"},
	nothingOwed:      {Warning, "nothing is owed between %s and %s on %s", ""},
	paidOtherWay:     {Warning, "%s pays %s, but %s owed %s %s on that day", "who pays comes first; if it is right, say why in a remark"},
	paidTooMuch:      {Warning, "%s owed %s %s on that day, and %s is %s", "did you mean %s? If it is right, say why in a remark"},
	latePayment:      {Warning, "%s is in %d, which is agreed (%s), and stands behind a line of a later year", "date it on the day of the payment; if that is right, say in a remark why it is of %d"},
	refundOfBill:     {Warning, "says that %s came back to the club, which paid no %s for %s but billed it: %s owes it that now", "what the club gives back is a bill below zero, `%s`, and then the payment, `%s`; if money came back, say so in a remark"},
	stepOrder:        {Error, "%q does not come after %q: steps must rise", ""},
}
