# Times simulated trials of a split plot of 24 trays with the likelihood ratio tests of all six terms by lme4's glmer, as SimulationBenchmark runs them
# here; argument: how many trials. Prints elapsed and processor seconds.
suppressMessages(library(lme4))
trials <- as.integer(commandArgs(TRUE)[1])
d <- expand.grid(soak = factor(1:2), mat = factor(1:3), stack = factor(1:4))
d$cover <- factor(as.integer(d$stack) %% 2)
d$tray <- factor(seq_len(nrow(d)))
with <- c(soak = "soak + mat * cover", mat = "mat + soak * cover", cover = "cover + soak * mat",
  "soak:mat" = "(soak + mat + cover)^2", "soak:cover" = "(soak + mat + cover)^2", "mat:cover" = "(soak + mat + cover)^2")
without <- c(soak = "mat * cover", mat = "soak * cover", cover = "soak * mat",
  "soak:mat" = "soak * cover + mat * cover", "soak:cover" = "soak * mat + mat * cover", "mat:cover" = "soak * mat + soak * cover")
fit <- function(fixed) suppressWarnings(suppressMessages(logLik(glmer(
  as.formula(paste("cbind(y, f) ~", fixed, "+ (1 | stack) + (1 | tray)")), d, binomial, control = glmerControl(calc.derivs = FALSE)))))
set.seed(1)
start <- proc.time()
for (i in seq_len(trials)) for (term in names(with)) {
  raised <- Reduce(`&`, lapply(strsplit(term, ":")[[1]], function(f) d[[f]] == tail(levels(d[[f]]), 1)))
  p <- plogis(qlogis(ifelse(raised, 0.6, 0.4)) + rnorm(4, 0, 0.2)[as.integer(d$stack)])
  s <- (1 - 0.03) / 0.03
  d$y <- rbinom(24, 100, rbeta(24, p * s, (1 - p) * s))
  d$f <- 100 - d$y
  ratio <- 2 * (fit(with[[term]]) - fit(without[[term]]))
}
taken <- proc.time() - start
cat(taken[["elapsed"]], taken[["user.self"]] + taken[["sys.self"]], "\n")
