# Fits what ManyFarms wrote by lme4's glmer (Laplace) once; argument: file. Prints the seconds of the fit, NA, the most memory
# of this process in MiB, log-likelihood, coefficients, their standard errors, standard deviations of farm, level and tray.
suppressMessages(library(lme4))
data <- read.csv(commandArgs(TRUE)[1])
before <- proc.time()[["elapsed"]]
fit <- glmer(cbind(y, n - y) ~ level + (1 | farm) + (1 | farmlevel) + (1 | tray), data, family = binomial, nAGQ = 1)
seconds <- proc.time()[["elapsed"]] - before
memory <- as.numeric(gsub("[^0-9]", "", grep("^VmHWM", readLines("/proc/self/status"), value = TRUE))) / 1024
deviation <- function(group) attr(VarCorr(fit)[[group]], "stddev")
numbers <- c(seconds, NaN, memory, logLik(fit), fixef(fit), sqrt(diag(as.matrix(vcov(fit)))),
  deviation("farm"), deviation("farmlevel"), deviation("tray"))
cat(sprintf("%.12g", as.numeric(numbers)), "\n")
