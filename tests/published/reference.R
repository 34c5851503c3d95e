# Answers each line of a file with what R's own functions say, one line of numbers each.
#   repeats K V…         subjects in rows of K trials: coefficients, SEM, detectable change, limits, growth
#   trend N T… V…        slope, Kendall's test, rank correlation
#   line E N T… V…       least squares with the known standard error E
#   quantiles P D1 D2    t, chi-square, F, normal
#   quartiles V…         of numbers (type 7), then of steps (type 1)
#   discoveries R P…     which p values stay at the false discovery rate R
#   bounds K L T…        the sequential bounds at visits from the third on, plans of K visits at level L
#   watch E N T… V…      error drawn toward the own scatter, slope and turn in it
#   crowd K P B T…       share of stable people flagged in plan P of K visits by the turn bound B or the trend's T
#   signs U D            exact two-sided sign test of U rises and D falls
#   taps V…              rate, mean, variation, longest and slowing of the intervals between instants
#   beyond N L           probability that a stable value exceeds the limit L after N earlier visits; their degrees
options(digits = 17)

repeats <- function(x) {
  k <- x[1]
  v <- x[-1]
  n <- length(v) / k
  subject <- factor(rep(seq_len(n), each = k))
  trial <- factor(rep(seq_len(k), times = n))
  two <- anova(lm(v ~ subject + trial))$"Mean Sq"
  b <- two[1]; j <- two[2]; e <- two[3]
  w <- anova(lm(v ~ subject))$"Mean Sq"[2]
  one.way <- function(ratio, df1, df2) {
    low <- ratio / qf(0.975, df1, df2)
    high <- ratio * qf(0.975, df2, df1)
    c((ratio - 1) / (ratio + k - 1), (low - 1) / (low + k - 1), (high - 1) / (high + k - 1))
  }
  agreement <- function() {
    icc <- (b - e) / (b + (k - 1) * e + k * (j - e) / n)
    fj <- j / e
    part <- n * (1 + (k - 1) * icc) - k * icc
    v <- (k - 1) * (n - 1) * (k * icc * fj + part)^2 / ((n - 1) * k^2 * icc^2 * fj^2 + part^2)
    f1 <- qf(0.975, n - 1, v)
    f2 <- qf(0.975, v, n - 1)
    noise <- k * j + (k * n - k - n) * e
    c(icc, n * (b - f1 * e) / (f1 * noise + n * b), n * (f2 * b - e) / (noise + n * f2 * b))
  }
  df <- (n - 1) * (k - 1)
  sem <- sqrt(c(e, df * e / qchisq(0.975, df), df * e / qchisq(0.025, df)))
  rows <- matrix(v, ncol = k, byrow = TRUE)
  limits <- c()
  if (k == 2) {
    d <- rows[, 1] - rows[, 2]
    test <- t.test(d)
    half <- qt(0.975, n - 1) * sd(d) * sqrt(1 / n + 1.96^2 / (2 * (n - 1)))
    lower <- mean(d) - 1.96 * sd(d)
    upper <- mean(d) + 1.96 * sd(d)
    limits <- c(mean(d), test$conf.int, lower, lower - half, lower + half, upper, upper - half, upper + half)
  }
  c(one.way(b / w, n - 1, n * (k - 1)), agreement(), one.way(b / e, n - 1, df), sem,
    sem * qnorm(0.95) * sqrt(2), sem * qnorm(0.975) * sqrt(2), limits)
}

taps <- function(x) {
  i <- diff(x)
  third <- length(i) %/% 3
  c(1 / mean(i), mean(i), 100 * sd(i) / mean(i), max(i), 100 * (mean(tail(i, third)) / mean(head(i, third)) - 1))
}

trend <- function(x) {
  n <- x[1]
  t <- x[2:(n + 1)]
  v <- x[(n + 2):(2 * n + 1)]
  slopes <- outer(v, v, "-") / outer(t, t, "-")
  exact <- n < 10 && !anyDuplicated(v)
  test <- cor.test(t, v, method = "kendall", exact = exact, continuity = TRUE)
  c(median(slopes[lower.tri(slopes)]), test$p.value, cor(t, v, method = "spearman"))
}

line <- function(x) {
  n <- x[2]
  t <- x[3:(n + 2)]
  v <- x[(n + 3):(2 * n + 2)]
  slope <- unname(coef(lm(v ~ t))[2])
  half <- qnorm(0.975) * x[1] / sqrt(sum((t - mean(t))^2))
  c(slope, slope - half, slope + half)
}

quantiles <- function(x) c(qt(x[1], x[2]), qchisq(x[1], x[2]), qf(x[1], x[2], x[3]), qnorm(x[1]))

quartiles <- function(x) unname(c(quantile(x, 1:3 / 4, type = 7), quantile(x, 1:3 / 4, type = 1)))

discoveries <- function(x) as.numeric(p.adjust(x[-1], "BH") <= x[1])

# Points and weights of Gauss and Legendre's integration over -1 to 1 (Golub & Welsch 1969, Math Comput 23:221).
legendre <- local({
  n <- 140
  beside <- seq_len(n - 1) / sqrt(4 * seq_len(n - 1)^2 - 1)
  jacobi <- matrix(0, n, n)
  jacobi[cbind(1:(n - 1), 2:n)] <- beside
  jacobi[cbind(2:n, 1:(n - 1))] <- beside
  own <- eigen(jacobi, symmetric = TRUE)
  list(at = own$values, weight = 2 * own$vectors[1, ]^2)
})

# The bounds of one plan's looks: what is left of stable people, as a score whose increments are independent.
plan.bounds <- function(information, spent) {
  bounds <- c()
  score <- 0
  left <- 1
  before <- 0
  for (look in seq_along(information)) {
    root <- sqrt(information[look])
    step <- sqrt(information[look] - before)
    beyond <- function(b) sum(left * (pnorm((score - b * root) / step) + pnorm((-score - b * root) / step)))
    due <- spent[look] - if (look > 1) spent[look - 1] else 0
    bound <- uniroot(function(b) beyond(b) - due, c(0, 12), tol = 1e-10)$root
    at <- legendre$at * bound * root
    density <- as.vector(dnorm(outer(at, score, "-") / step) %*% left) / step
    left <- density * legendre$weight * bound * root
    score <- at
    before <- information[look]
    bounds <- c(bounds, bound)
  }
  bounds
}

bounds <- function(x) {
  k <- x[1]
  times <- x[-(1:2)]
  n <- length(times)
  information <- sapply(seq_len(n), function(i) sum((times[1:i] - mean(times[1:i]))^2))
  all <- c()
  for (plan in unique((3:n - 1) %/% k)) {
    visits <- (3:n)[(3:n - 1) %/% k == plan]
    share <- ((visits - 1) %% k + 1) / k
    spent <- x[2] * if (plan == 0) 0.8 * share^3 else 0.6 * share
    all <- c(all, plan.bounds(information[visits], spent))
  }
  all
}

watch <- function(x) {
  n <- x[2]
  t <- x[3:(n + 2)]
  v <- x[(n + 3):(2 * n + 2)]
  error <- x[1]
  if (n >= 5) {
    halves <- diff(diag(n)) / sqrt(2 * (n - 1)) # whose squared length is the scatter's variance
    form <- crossprod(halves)
    df <- sum(diag(form))^2 / sum(form^2)
    error <- sqrt((20 * error^2 + df * sum((halves %*% v)^2)) / (20 + df))
  }
  pairs <- (v[-1] + v[-n]) / 2
  now <- pairs[n - 1]
  earlier <- pairs[seq_len(n - 3)]
  slope <- unname(coef(lm(v ~ t))[2])
  c(error, slope * sqrt(sum((t - mean(t))^2)) / error, max(max(earlier) - now, now - min(earlier)) / error)
}

# The share of 200,000 stable people that trend or turn flags within one plan.
crowd <- function(x) {
  k <- x[1]; plan <- x[2]; turn <- x[3]; bounds <- x[-(1:3)]
  people <- 200000
  n <- (plan + 1) * k
  set.seed(20261130)
  v <- matrix(rnorm(people * n), people)
  flagged <- rep(FALSE, people)
  high <- rep(-Inf, people)
  low <- rep(Inf, people)
  look <- 0
  for (visit in seq_len(n)) {
    is.plan <- visit > plan * k
    if (visit >= 3 && is.plan) {
      look <- look + 1
      t <- seq_len(visit) - mean(seq_len(visit))
      z <- v[, seq_len(visit)] %*% t / sqrt(sum(t^2))
      flagged <- flagged | abs(as.vector(z)) > bounds[look]
    }
    if (visit >= 4) {
      pair <- (v[, visit - 3] + v[, visit - 2]) / 2
      high <- pmax(high, pair)
      low <- pmin(low, pair)
      now <- (v[, visit - 1] + v[, visit]) / 2
      if (is.plan) flagged <- flagged | pmax(high - now, now - low) > turn
    }
  }
  mean(flagged)
}

signs <- function(x) binom.test(x[1], x[1] + x[2])$p.value

# The probability that a stable value lies beyond so many deviations of the scatter of n earlier ones from their
# mean: Imhof 1961, Biometrika 48:419.
beyond <- function(x) {
  n <- x[1]
  form <- crossprod(diff(diag(n))) / (2 * (n - 1))
  parts <- c(1, -x[2]^2 * eigen(form, symmetric = TRUE)$values[seq_len(n - 1)])
  turned <- function(u) {
    sapply(u, function(w) {
      angle <- sum(atan(parts * w)) / 2
      sin(angle) / (w * prod((1 + parts^2 * w^2)^0.25))
    })
  }
  whole <- integrate(turned, 0, 1, rel.tol = 1e-10, subdivisions = 2000)$value +
    integrate(function(s) turned(exp(s)) * exp(s), 0, 40, rel.tol = 1e-10, subdivisions = 2000)$value
  df <- sum(diag(form))^2 / sum(form^2)
  c(0.5 + whole / pi, df)
}

for (words in strsplit(readLines(commandArgs(TRUE)[1]), " ")) {
  answer <- suppressWarnings(do.call(words[1], list(as.numeric(words[-1]))))
  cat(sprintf("%.17g", answer), "\n")
}
