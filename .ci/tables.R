# Read exported tables as R does without options: Rscript tables.R FOLDER, which
# has the tables as csv and contents.csv, a row a column: table, column, kind
# (number, flag, text or any), rows, and the sum of what is there. Any difference ends it.
# R itself calls a column "for" for.
folder <- commandArgs(trailingOnly = TRUE)[1]
contents <- read.csv(file.path(folder, "contents.csv"))
must <- function(holds, ...) if (!isTRUE(holds)) stop(paste0(...), call. = FALSE)

columns <- 0
for (name in unique(contents$table)) {
  table <- read.csv(file.path(folder, paste0(name, ".csv")))
  want <- contents[contents$table == name, ]
  must(identical(names(table), make.names(want$column)), name, ": the columns are ", paste(names(table), collapse = " "))
  must(all(nrow(table) == want$rows), name, ": ", nrow(table), " rows, not ", want$rows[1])
  for (i in seq_len(nrow(want))) {
    column <- table[[i]]
    what <- paste0(name, "$", want$column[i], " is read as ", class(column))
    if (all(is.na(column))) next # of nothing, R makes a logical
    must(switch(want$kind[i], number = is.numeric(column), flag = is.logical(column), text = is.character(column), any = TRUE), what)
    if (want$kind[i] == "number") must(abs(sum(column, na.rm = TRUE) - want$sum[i]) <= 1e-9 * max(1, abs(want$sum[i])), what, " with another sum")
    if (want$kind[i] == "flag") must(sum(column) == want$sum[i], what, " with another count")
    columns <- columns + 1
  }
}

# A family's percent, from the elements alone: help export says how.
if (nrow(contents) > 0) {
  elements <- read.csv(file.path(folder, "elements.csv"))
  graded <- elements[!is.na(elements$mean) & elements$k > 0, ]
  percent <- 10 * tapply(graded$k * graded$mean, graded$group, sum) / tapply(graded$k, graded$group, sum)
  must(length(percent) > 0 && all(percent >= 0 & percent <= 100), "a family's percent is not between 0 and 100")
}
must(columns > 40, "only ", columns, " columns were compared")
cat(columns, "columns read by R\n")
