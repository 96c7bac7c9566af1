package words

import (
	"fmt"
	"strconv"
	"strings"

	"boxbook/report/answers"
)

// The names of the sheets of the treasurer's workbook.
const (
	TheYearSheet  = "The year"
	MembersSheet  = "Members"
	JournalSheet  = "Journal"
	ClubContests  = "Contests"
	PaymentsSheet = "Payments"
	DutiesSheet   = "Duties"
)

// What the treasurer's workbook says of itself in its properties.
const (
	ClubBookSubject  = "Treasurer's workbook"
	ClubBookKeywords = "club, accounts, year"
)

// The headings of the sheet The year.
const (
	ResultHeading   = "Result, and what of it moved as money"
	ClubOwedHeading = "Owed to the club"
	CountsHeading   = "In hand"
	IncomeHeading   = "Income"
	CostsHeading    = "Costs"
	RatesHeading    = "Rates"
)

// The rows of the result.
const (
	RowIncome     = "income"
	RowCosts      = "costs"
	RowResult     = "result: income less costs"
	RowAgreed     = "result as agreed by the assembly"
	RowClaimsThen = "owed to the club at the start, less what it owed"
	RowClaimsNow  = "owed to the club at the end, less what it owes"
	RowExchanged  = "gained by debts paid in another currency"
	RowMoved      = "money in less out: result, less what more is owed"
	RowCounted    = "money in less out, added up in the " + JournalSheet
	RowDifference = "difference, 0 where all is right"
)

// The columns of the treasurer's sheets.
const (
	ColumnNumber      = "no."
	ColumnPosting     = "entry"
	ColumnReceipt     = "receipt"
	ColumnClubIncome  = "club: income"
	ColumnClubCosts   = "club: costs"
	ColumnClubMoney   = "club: money"
	ColumnMoneyIn     = "in"
	ColumnLedgerLine  = "line in the ledger"
	ColumnYear        = "year"
	ColumnPartyKind   = "is a"
	ColumnCarriedIn   = "carried in"
	ColumnPaidOut     = "paid out"
	ColumnTheirShare  = "their share"
	ColumnBilled      = "billed, not paid"
	ColumnSettled     = "settled"
	ColumnOldDebts    = "older debts"
	ColumnCarriedOut  = "carried out"
	ColumnWithClub    = "of it with the club"
	ColumnPays        = "pays"
	ColumnGets        = "gets"
	ColumnLeft        = "then left"
	ColumnLessBudget  = "less budget"
	ColumnCountedOn   = "counted on"
	ColumnCountedThen = "before, on"
	ColumnWasThen     = "was then"
	ColumnMovedSince  = "moved since"
	ColumnInOthers    = "in others"
	ColumnShouldBe    = "by the journal"
	ColumnDutySum     = "all duties"
	ColumnDone        = "paid on"
	ColumnOtherShares = "club, others"
	ColumnPartyKey    = "who, in formulas"
	ColumnFromKey     = "from, in formulas"
	ColumnToKey       = "to, in formulas"
	ColumnKindKey     = "kind, in formulas"
	ColumnContestKey  = "contest, in formulas"
	ColumnToClub      = "the club's income"
	ColumnPaidAmount  = "handed over"
	ColumnRateOf      = "one"
	ColumnRateIs      = "is"
	RowAll            = "all"
	Outside           = "outside"
)

// The legends at the foot of the treasurer's printed pages.
const (
	TheYearLegend  = "tinted: formulas over the sheet " + JournalSheet
	MembersLegend  = "above 0 is owed to them, below 0 they owe · tinted: formulas over the sheet " + JournalSheet
	JournalLegend  = "from: gave it, paid it; to: had it, was paid · tinted: what a posting is for the club, by formula"
	ContestLegend  = "each pilot's share of what stands with the contest, whoever paid · tinted: formulas over the sheet " + JournalSheet
	PaymentsLegend = "tinted: what stands between the two, by the " + JournalSheet + " · italic: calculated, the fewest among the others"
	DutiesLegend   = "in sessions"
)

// ClubTitle heads the treasurer's workbook.
func ClubTitle(club string) string {
	if club == "" {
		return strings.ToUpper(theClub[:1]) + theClub[1:]
	}
	return club
}

// ClubYearTitle heads the sheet The year.
func ClubYearTitle(club string, d answers.Year) string {
	title := club + ", year " + strconv.Itoa(d.Year)
	if span := YearSpan(d); span != "" {
		title += ", " + span
	}
	return title
}

// AllIn is the title of what is converted into one currency.
func AllIn(currency string) string { return "all in " + currency }

// CurrencyYear is the title of a currency's column in a year.
func CurrencyYear(currency string, year int) string { return currency + " " + strconv.Itoa(year) }

// CurrencyBudget is the title of the budget's column of a year.
func CurrencyBudget(year int) string { return fmt.Sprintf("%s %d", ColumnBudget, year) }

// AllOf is the first word of a currency's sum.
func AllOf(currency string) string { return RowAll + " " + currency }

// LedgerLine is where a posting stands.
func LedgerLine(file string, line int) string { return fmt.Sprintf("%s:%d", file, line) }

// MembersNotes explain the columns of the sheet Members.
func MembersNotes() []string {
	return []string{
		ColumnCarriedOut + " = " + ColumnCarriedIn + " + " + ColumnPaidOut + " + " + ColumnBilled + " - " + ColumnTheirShare + " + " + ColumnSettled + " + " + ColumnOldDebts + "; above 0 it is owed to them, below 0 they owe it",
		ColumnBilled + ": put down as the club's income, no money has moved yet; " + ColumnSettled + ": paid to others, less what others paid them",
		ColumnPays + ", " + ColumnGets + ": on the sheet " + PaymentsSheet + ", after which nothing is left; all balances of a currency sum to nothing",
	}
}

// TheYearNote says how the sheet The year hangs together.
const TheYearNote = "Tinted cells are formulas over the sheet " + JournalSheet + ": correct a posting there, and they follow. Black on white was typed, in the ledger; italic numbers and the lines in words were calculated by boxbook and do not change."
