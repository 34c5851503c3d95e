# Answers each line of a file with what R's own functions say, one line of numbers each.
#   repeats K V…         subjects in rows of K trials: coefficients, SEM, detectable change, limits, growth
#   trend N T… V…        slope, Kendall's test, rank correlation
#   line E N T… V…       least squares with the known standard error E
#   quantiles P D1 D2    t, chi-square, F, normal
#   discoveries R P…     which p values stay at the false discovery rate R
#   bound V K            the sequential bound at visit V of K planned
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

discoveries <- function(x) as.numeric(p.adjust(x[-1], "BH") <= x[1])

bound <- function(x) {
  k <- x[2] * ceiling(x[1] / x[2])
  spent <- 0.05 * ((3:k) / k)^3
  qnorm(diff(c(0, spent))[x[1] - 2] / 2, lower.tail = FALSE)
}

for (words in strsplit(readLines(commandArgs(TRUE)[1]), " ")) {
  answer <- suppressWarnings(do.call(words[1], list(as.numeric(words[-1]))))
  cat(sprintf("%.17g", answer), "\n")
}
