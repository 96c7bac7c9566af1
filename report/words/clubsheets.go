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
	ResultHeading   = "Result, and how much of it was cash"
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
	RowResult     = "result: income less costs, with what is not yet received"
	RowAgreed     = "result as the assembly agreed it"
	RowClaimsThen = "owed to the club at the start, less what it owed"
	RowClaimsNow  = "owed to the club at the end, less what it owes"
	RowExchanged  = "gained by debts paid in another currency"
	RowMoved      = "net cash received (result less the increase in what is owed)"
	RowCounted    = "net cash received, added up in the " + JournalSheet
	RowDifference = "difference, 0 where all is right"
)

// What the types of the journal's rows are called.
const (
	TypeCost    = "cost"
	TypeIncome  = "income"
	TypeBilled  = "billed"
	TypePayment = "payment"
	TypeDebt    = "older debt"
)

// PaidToClubFor is whom somebody paid for another.
func PaidToClubFor(name string) string { return theClub + ", for " + name }

// The columns of the treasurer's sheets.
const (
	ColumnNumber      = "no."
	ColumnPosting     = "type"
	ColumnReceipt     = "receipt"
	ColumnClubIncome  = "club: income"
	ColumnClubCosts   = "club: costs"
	ColumnClubMoney   = "club: money"
	ColumnMoneyIn     = "paid in"
	ColumnLedgerLine  = "line in the ledger"
	ColumnYear        = "year"
	ColumnPartyKind   = "role"
	ColumnCarriedIn   = "carried in"
	ColumnPaidOut     = "paid out"
	ColumnTheirShare  = "their share"
	ColumnBilled      = "billed"
	ColumnSettled     = "settled (paid less received)"
	ColumnOldDebts    = "older debts"
	ColumnCarriedOut  = "carried out"
	ColumnWithClub    = "of which the club owes (+) or is owed (-)"
	ColumnPays        = "pays"
	ColumnGets        = "gets"
	ColumnLeft        = "left after the payments"
	ColumnCountedOn   = "counted on"
	ColumnCountedThen = "first counted on"
	ColumnWasThen     = "counted then"
	ColumnMovedSince  = "change since"
	ColumnInOthers    = "pots begun since"
	ColumnShouldBe    = "expected"
	ColumnDutySum     = "all duties"
	ColumnDone        = "paid on"
	ColumnOtherShares = "club, others"
	ColumnPartyKey    = "who, in formulas"
	ColumnFromKey     = "from, in formulas"
	ColumnToKey       = "to, in formulas"
	ColumnKindKey     = "kind, in formulas"
	ColumnEntryKey    = "ledger's word"
	ColumnContestKey  = "contest, in formulas"
	ColumnMoneyKey    = "paid in, in formulas"
	ColumnToClub      = "the club's income"
	ColumnPaidAmount  = "amount paid"
	ColumnRateOf      = "amount"
	ColumnRateIs      = "is worth"
	RowAll            = "all"
	Outside           = "outside"
)

// The legends at the foot of the treasurer's printed pages.
const (
	TheYearLegend  = "tinted: formulas over the sheet " + JournalSheet
	MembersLegend  = "above 0 is owed to them, below 0 they owe · tinted: formulas over the sheet " + JournalSheet
	JournalLegend  = "from: paid or billed it; to: was paid, or had it · billed: paid in another row · grey: other years"
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

// TogetherIn is the title of debts in several currencies as one amount.
func TogetherIn(currency string) string { return "together in " + currency }

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
		ColumnCarriedOut + " = " + ColumnCarriedIn + " + " + ColumnPaidOut + " + " + ColumnBilled + " - " + ColumnTheirShare + " + settled + " + ColumnOldDebts + "; above 0 it is owed to them, below 0 they owe it",
		ColumnBilled + ": by the club to those it was for, paid since or not; settled: paid to others, less what others paid them",
		ColumnPays + ", " + ColumnGets + ": on the sheet " + PaymentsSheet + ", after which nothing is left; all balances of a currency sum to zero",
	}
}

// TheYearNote says how the sheet The year hangs together.
const TheYearNote = "Tinted cells are formulas over the sheet " + JournalSheet + ": correct a posting there, and they follow. Plain cells come from the ledger; italic numbers and sentences were calculated once and do not follow changes."
