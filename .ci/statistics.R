# Work out again, with R alone, what the statistics say of random small data sets:
# Rscript statistics.R FOLDER SETS, which has what `go test -tags differential` wrote, of
# each method METHOD-data.csv and METHOD-says.csv. Any difference ends it. At the
# end one number under each name is changed, and each must be found.
arguments <- commandArgs(trailingOnly = TRUE)
folder <- arguments[1]
sets <- as.integer(arguments[2])
options(warn = 1, contrasts = c("contr.sum", "contr.poly"))
stopAt <- function(...) stop(paste0(...), call. = FALSE)

numbersOf <- function(words) lapply(strsplit(words, " ", fixed = TRUE), as.numeric)

readSets <- function(name) {
  table <- read.csv(file.path(folder, paste0(name, ".csv")), colClasses = c("integer", "character", "character"))
  values <- numbersOf(table$values)
  names(values) <- table$name
  all <- split(values, table$set)
  if (length(all) != sets) stopAt(name, ": ", length(all), " sets, not ", sets)
  all
}

# How far a number may lie off, as a part of the larger of 1 and itself.
closest <- 1e-12 # counts, and sums of a few products
close <- 1e-9 # what is solved for, or is a sum over a grid
sharesEnds <- 1e-8 # a share found by Newton's method on a sum of noncentral t

methods <- list()

# ---- Mann-Kendall: cor.test where nothing is tied, else every arrangement
arrangements <- function(n) {
  if (n == 1) return(matrix(1L, 1, 1))
  shorter <- arrangements(n - 1)
  do.call(cbind, lapply(seq_len(n), function(at) rbind(shorter, n)[append(seq_len(n - 1), n, at - 1), , drop = FALSE]))
}
allArrangements <- lapply(1:7, arrangements)

signsOf <- function(y) { # S of each column
  y <- as.matrix(y)
  s <- numeric(ncol(y))
  for (i in seq_len(nrow(y) - 1)) for (j in (i + 1):nrow(y)) s <- s + sign(y[j, ] - y[i, ])
  s
}

enumerated <- function(strata) { # the chances of S, named by it
  chances <- c("0" = 1)
  for (y in strata) {
    s <- table(signsOf(matrix(y[allArrangements[[length(y)]]], nrow = length(y))))
    sums <- outer(as.numeric(names(chances)), as.numeric(names(s)), "+")
    chances <- tapply(outer(as.numeric(chances), as.numeric(s) / sum(s)), sums, sum)
  }
  chances
}

methods[["mann-kendall"]] <- list(tolerance = closest, work = function(d) {
  strata <- Filter(function(y) length(y) > 1, split(d$y, d$stratum))
  s <- sum(sapply(strata, signsOf))
  untied <- sum(sapply(strata, function(y) sum(dist(y) > 0)))
  pairs <- sum(sapply(strata, function(y) choose(length(y), 2)))
  tau <- if (untied == 0) 0 else s / sqrt(pairs * untied)
  if (length(strata) == 1 && untied > 0 && abs(tau - cor(seq_along(d$y), d$y, method = "kendall")) > closest) stopAt("tau is not cor's")
  n <- length(d$y)
  if (length(strata) == 1 && untied == pairs && n > 7) {
    p <- function(way) cor.test(seq_len(n), d$y, method = "kendall", exact = TRUE, alternative = way)$p.value
    return(list(
      s = s, variance = n * (n - 1) * (2 * n + 5) / 18, upper = p("greater"), lower = p("less"),
      p = p("two.sided"), smallest = min(1, 2 / factorial(n)), tau = tau
    ))
  }
  chances <- enumerated(strata)
  at <- as.numeric(names(chances))
  upper <- sapply(at, function(x) sum(chances[at >= x]))
  lower <- sapply(at, function(x) sum(chances[at <= x]))
  p <- pmin(1, 2 * pmin(upper, lower))
  list(
    s = s, variance = sum(chances * at^2), upper = upper[at == s], lower = lower[at == s],
    p = p[at == s], smallest = min(p), tau = tau
  )
})

# ---- Theil-Sen, with the exact ranks
inversions <- function(n) { # the chances of 0, 1 ... inversions
  chances <- 1
  for (i in seq_len(n)) {
    longer <- numeric(length(chances) + i - 1)
    for (k in seq_len(i)) longer[k - 1 + seq_along(chances)] <- longer[k - 1 + seq_along(chances)] + chances / i
    chances <- longer
  }
  chances
}

methods[["theil-sen"]] <- list(tolerance = close, work = function(d) {
  pairs <- combn(length(d$x), 2)
  slopes <- sort((d$y[pairs[2, ]] - d$y[pairs[1, ]]) / (d$x[pairs[2, ]] - d$x[pairs[1, ]]))
  n <- length(slopes)
  tail <- cumsum(inversions(length(d$x))) # of S >= n, n - 2 ...
  rare <- max(1, sum(tail <= (1 - d$confidence) / 2))
  list(slope = median(slopes), low = slopes[rare], high = slopes[n + 1 - rare], achieved = 1 - 2 * tail[rare])
})

# ---- counts
methods$fisher <- list(tolerance = close, work = function(d) {
  p <- function(way) fisher.test(matrix(d$cells, 2, byrow = TRUE), alternative = way)$p.value
  list(less = p("less"), greater = p("greater"), "two-sided" = p("two.sided"))
})

methods[["fisher-within"]] <- list(tolerance = close, work = function(d) {
  tables <- array(0, c(2, 2, length(d$cells) / 4))
  for (i in seq_len(dim(tables)[3])) tables[, , i] <- matrix(d$cells[4 * i - 3:0], 2, byrow = TRUE)
  list(less = mantelhaen.test(tables, exact = TRUE, alternative = "less")$p.value)
})

methods$proportion <- list(tolerance = close, work = function(d) {
  k <- d$counts[1]
  n <- d$counts[2]
  list(
    wilson = suppressWarnings(prop.test(k, n, conf.level = d$confidence, correct = FALSE))$conf.int,
    exact = binom.test(k, n, conf.level = d$confidence)$conf.int
  )
})

methods$rates <- list(tolerance = close, work = function(d) {
  test <- function(way) poisson.test(d$counts, d$exposures, alternative = way, conf.level = d$confidence)
  both <- test("two.sided")
  list(
    ratio = unname(both$estimate), interval = both$conf.int, less = test("less")$p.value,
    greater = test("greater")$p.value, "two-sided" = both$p.value
  )
})

# ---- noncentral t: the share that lies above a mark
methods[["noncentral-t"]] <- list(tolerance = sharesEnds, work = function(d) {
  # Far off, pt warns of the digits it may lose; what it gives is compared all the same.
  chance <- function(z) suppressWarnings(sum(d$weight * pt((d$mean - d$mark) / sqrt(d$s2 * d$v), d$df, ncp = z / sqrt(d$v))))
  end <- function(p) {
    if (chance(9) >= p) return(1) # so near that no digit shows it
    if (chance(-9) <= p) return(0)
    pnorm(uniroot(function(z) chance(z) - p, c(-9, 9), tol = 1e-11)$root)
  }
  list(chance = chance(qnorm(d$want)), ends = c(end(.95), end(.05)))
})

# ---- least squares
methods[["two-way"]] <- list(tolerance = close, work = function(d) {
  fit <- lm(d$value ~ factor(d$row) + factor(d$column))
  columns <- length(unique(d$column))
  last <- length(coef(fit)) + 2 - columns:2
  all <- rbind(diag(columns - 1), -1) # the last effect is less all the others
  leverage <- hatvalues(fit)
  studentised <- suppressWarnings(rstudent(fit))
  studentised[leverage > 1 - 1e-9] <- 0
  list(
    mean = coef(fit)[1], columns = all %*% coef(fit)[last], errors = sqrt(diag(all %*% vcov(fit)[last, last] %*% t(all))),
    sigma = summary(fit)$sigma, fitted = fitted(fit), leverage = leverage, studentised = studentised
  )
})

methods$shift <- list(tolerance = close, work = function(d) {
  fit <- if (length(unique(d$stratum)) == 1) lm(d$y ~ d$after) else lm(d$y ~ d$after + factor(d$stratum))
  row <- summary(fit)$coefficients[2, ]
  list(change = row[1], t = row[3], error = row[2], df = fit$df.residual, interval = confint(fit, level = .9)[2, ])
})

# ---- the mixed model of where a series stands now, from its definition
clockOf <- function(days, now) {
  known <- sort(unique(c(days, now)))
  c(0, cumsum(pmin(diff(known), 90) / 150))[match(c(days, now), known)]
}

presentPoint <- function(d, rho, a, o, walk, slope) {
  n <- length(d$y)
  v <- (1 - rho) * diag(n) + rho * outer(d$groups, d$groups, "==") + a^2 * outer(slope, slope) + o^2 * outer(-walk, -walk, pmin)
  inverse <- solve(v)
  q <- sum(inverse)
  m <- sum(inverse %*% d$y) / q
  left <- inverse %*% (d$y - m)
  r <- sum((d$y - m) * left) + 1
  prior <- log(c(3, 2, 2, 1, 1)[1 + round(rho / .15)]) + log(ifelse(a == 0, .7, .1)) + log(ifelse(o == 0, .7, .1))
  c(
    rho = rho, steady = a == 0 && o == 0, m = m, v = 1 / q, r = r, drift = a^2 * sum(slope * left),
    log = prior - .5 * as.numeric(determinant(v)$modulus) - .5 * log(q) - .5 * (n - 1) * log(r)
  )
}

methods$present <- list(tolerance = close, work = function(d) {
  n <- length(d$y)
  clock <- clockOf(d$days, d$now)
  walk <- clock[1:n] - clock[n + 1]
  clock <- clockOf(d$days, min(d$now, max(d$days) + 30))
  slope <- clock[1:n] - clock[n + 1]
  grid <- expand.grid(rho = if (anyDuplicated(d$groups)) c(0, .15, .3, .45, .6) else 0, a = c(0, 2, 4, 8), o = c(0, 1.5, 3, 6))
  p <- as.data.frame(t(mapply(function(rho, a, o) presentPoint(d, rho, a, o, walk, slope), grid$rho, grid$a, grid$o)))
  w <- exp(p$log - max(p$log))
  w <- w / sum(w)
  s2 <- p$r / (n - 1)
  below <- function(x, v) sum(w * pt((x - p$m) / sqrt(s2 * v), n - 1))
  range <- function(v) sapply(c(.1, .9), function(at) uniroot(function(x) below(x, v) - at, mean(p$m) + c(-200, 200), tol = 1e-11)$root)
  list(
    level = sum(w * p$m), drift = sum(w * p$drift), steady = sum(w * p$steady), variance = sum(w * p$r) / (n - 3),
    rho = sum(w * p$rho), "now-80" = range(p$v), "next-80" = range(1 + p$v), "next-reaches" = 1 - below(d$mark, 1 + p$v)
  )
})

# ---- the mixed model of families and figures, from its definition
sharesPoint <- function(z, x, m, noise, tau, sa) {
  v <- tau^2 * x %*% t(x) + diag(sa^2 + noise)
  inverse <- solve(v)
  levels <- t(m) %*% inverse %*% m
  mu <- solve(levels, t(m) %*% inverse %*% z)
  p <- inverse - inverse %*% m %*% solve(levels, t(m) %*% inverse)
  pz <- p %*% z
  b <- tau^2 * t(x) %*% pz
  c <- tau^2 * diag(ncol(x)) - tau^4 * t(x) %*% p %*% x
  others <- (diag(ncol(x)) * ncol(x) - 1) / (ncol(x) - 1) # one less the mean of the others
  r <- v - diag(noise, length(noise))
  list(
    log = -.5 * as.numeric(determinant(v)$modulus + determinant(levels)$modulus) - .5 * sum(z * pz),
    mu = mu, b = b, gap = others %*% b, gapSD = sqrt(diag(others %*% c %*% t(others))),
    f = r %*% pz, fSD = sqrt(pmax(0, diag(r - r %*% p %*% r)))
  )
}

methods$shares <- list(tolerance = close, work = function(d) {
  x <- matrix(d$shares, nrow = length(d$z), byrow = TRUE)
  m <- outer(d$level, sort(unique(d$level)), "==") + 0
  pooled <- d$df >= 5
  noise <- if (pooled) d$variance / d$times else 0 * d$times
  grid <- expand.grid(tau = (1:12 - .5) * d$step, sa = (1:(if (pooled) 12 else 24) - .5) * d$step)
  points <- mapply(function(tau, sa) sharesPoint(d$z, x, m, noise, tau, sa), grid$tau, grid$sa, SIMPLIFY = FALSE)
  logs <- sapply(points, function(p) p$log) - (grid$tau^2 + (if (pooled) grid$sa^2 else 0)) / (72 * d$step^2)
  w <- exp(logs - max(logs))
  w <- w / sum(w)
  mean <- function(of) as.numeric(matrix(sapply(points, of), ncol = length(w)) %*% w)
  list(
    tau = sum(w * grid$tau), unit = sum(w * grid$sa), levels = mean(function(p) p$mu), parts = mean(function(p) p$b),
    gap = mean(function(p) p$gap), weak = mean(function(p) pnorm(-p$gap / p$gapSD)),
    shortfall = mean(function(p) p$gapSD * dnorm(p$gap / p$gapSD) - p$gap * pnorm(-p$gap / p$gapSD)),
    units = mean(function(p) p$f), "units-below" = mean(function(p) pnorm(-p$f / p$fSD))
  )
})

# ---- the comparison
differences <- function(says, works, tolerance) {
  off <- abs(says - works) > tolerance * pmax(1, abs(works))
  which(is.na(off) | off)
}

compared <- 0
for (method in names(methods)) {
  start <- proc.time()[["elapsed"]]
  data <- readSets(paste0(method, "-data"))
  says <- readSets(paste0(method, "-says"))
  works <- lapply(data, methods[[method]]$work)
  for (set in names(data)) {
    same <- identical(names(says[[set]]), names(works[[set]])) && all(lengths(says[[set]]) == lengths(works[[set]]))
    if (!same) stopAt(method, " set ", set, ": other names or numbers of numbers")
  }
  flat <- unlist(says, use.names = FALSE)
  again <- unlist(works, use.names = FALSE)
  label <- unlist(lapply(names(says), function(set) rep(paste0("set ", set, " ", names(says[[set]])), lengths(says[[set]]))))
  tolerance <- methods[[method]]$tolerance
  off <- differences(flat, again, tolerance)
  if (length(off) > 0) {
    first <- head(off, 10)
    lines <- sprintf("%s: %s: %.15g, and R has %.15g", method, label[first], flat[first], again[first])
    stopAt(length(off), " of ", length(flat), " differ\n", paste(lines, collapse = "\n"))
  }
  for (name in unique(sub("^set [0-9]+ ", "", label))) { # one number under each name
    of <- grep(paste0(" ", name, "$"), label)
    planted <- flat
    at <- of[1 + (length(flat) * 7919) %% length(of)]
    planted[at] <- planted[at] + 3 * tolerance * max(1, abs(planted[at]))
    if (!identical(differences(planted, again, tolerance), at)) stopAt(method, ": a changed ", name, " is not found")
  }
  compared <- compared + length(flat)
  cat(sprintf("%-13s %d sets, %6d numbers within %g, the furthest off %.1e (%.0f s)\n", method, length(data), length(flat), tolerance,
    max(abs(flat - again) / pmax(1, abs(again))), proc.time()[["elapsed"]] - start))
}
cat(compared, "numbers are R's\n")
