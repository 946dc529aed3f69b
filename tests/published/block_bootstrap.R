# Prints the values that block_bootstrap_test.cpp expects. Run by hand: Rscript block_bootstrap.R
# They were taken with R 4.2.2 and boot 1.3-28.1 (Debian 12: r-base-core, r-cran-boot).
library(boot)

part  <- c(3, 5, 4, 2, 6, 4, 0, 3, 5, 5, 2, 1, 4, 6, 3, 2)
whole <- c(4, 8, 6, 5, 8, 5, 1, 6, 7, 8, 5, 4, 6, 8, 7, 4)
ratio <- function(bars) sum(bars[, 1]) / sum(bars[, 2])
set.seed(1)
for (l in 1:4) {
  b <- tsboot(cbind(part, whole), ratio, R = 100000, l = l, sim = "fixed", endcorr = TRUE)
  cat("block", l, "sd", sd(b$t), "percentiles", boot.ci(b, type = "perc")$percent[4:5], "\n")
}

# Politis & White 2004, corrected 2009; written down from the papers, with acf() of R.
b_star <- function(x) {
  n <- length(x); k <- max(5, ceiling(log10(n))); m_max <- ceiling(sqrt(n)) + k
  rho <- acf(x, lag.max = m_max, plot = FALSE)$acf[-1]
  quiet <- abs(rho) < 2 * sqrt(log10(n) / n)
  runs <- sapply(1:(m_max - k + 1), function(j) all(quiet[j:(j + k - 1)]))
  m <- if (any(runs)) which(runs)[1] else if (any(!quiet)) max(which(!quiet)) else 1
  M <- min(2 * m, m_max)
  lags <- -M:M
  gamma <- acf(x, lag.max = M, type = "covariance", plot = FALSE)$acf[abs(lags) + 1]
  weight <- pmin(1, 2 * (1 - abs(lags) / M))
  g <- sum(weight * abs(lags) * gamma); s2 <- sum(weight * gamma)
  min(max(1, (2 * g^2 / (4 / 3 * s2^2))^(1/3) * n^(1/3)), ceiling(min(3 * sqrt(n), n / 3)))
}
cat("lh", b_star(as.numeric(lh)), "Nile", b_star(as.numeric(Nile)), "\n")

# Hesterberg 2015, section 4: how far out the percentiles of n blocks are taken.
n <- c(4, 8, 16, 32)
cat("tails", pnorm(-sqrt(n / (n - 1)) * qt(0.975, n - 1)), "\n")
