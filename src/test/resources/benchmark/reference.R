# Times base R and lme4 on data that AgainstReference wrote; arguments: what, file, least seconds. Prints the median time of
# one call in microseconds and the log-likelihood (or NA).
suppressMessages(library(lme4))
argument <- commandArgs(TRUE)
what <- argument[1]
data <- read.csv(argument[2])
least <- as.numeric(argument[3])
columns <- grep("^x", names(data))
x <- as.matrix(data[columns])
plots <- if (what == "aov") within(data, {
  block <- factor(block); variety <- factor(variety); nitro <- factor(nitro)
})
formula <- if (what == "glmer") as.formula(paste(
  "cbind(y, n - y) ~ 0 +", paste(names(data)[columns], collapse = " + "), "+",
  paste0("(1 | ", grep("^g", names(data), value = TRUE), ")", collapse = " + ")))
call <- switch(what,
  glm.fit = function() glm.fit(x, data$y / data$n, weights = data$n, family = binomial()),
  glmer = function() suppressMessages(glmer(formula, data, family = binomial)),
  aov = function() summary(aov(yield ~ variety * nitro + Error(block / variety), plots)))
fit <- call()
times <- c()
started <- proc.time()[["elapsed"]]
repeats <- 1
while (length(times) < 5 || proc.time()[["elapsed"]] - started < least) {
  before <- as.numeric(Sys.time())
  for (i in seq_len(repeats)) call()
  taken <- as.numeric(Sys.time()) - before
  if (taken < 0.02) repeats <- 2 * repeats
  else times <- c(times, taken / repeats)
  if (taken > 20 && length(times) >= 3) break
}
likelihood <- switch(what,
  glm.fit = fit$rank - fit$aic / 2,
  glmer = as.numeric(logLik(fit)),
  aov = NA)
cat(sprintf("%.3f %.10g\n", 1e6 * median(times), likelihood))
