# Rscript one-stage.R: the numbers of OneStageTest, from one-stage.csv beside it (invented counts).
suppressPackageStartupMessages(library(lme4))
d <- read.csv("one-stage.csv"); d$soak <- factor(d$soak); d$tray <- seq_len(nrow(d))
f <- glmer(cbind(y, m - y) ~ soak + (1 | farm) + (1 | farm:soak) + (1 | farm:mat) + (1 | shelf) + (1 | tray), d, family = binomial,
           control = glmerControl(optimizer = "bobyqa", optCtrl = list(maxfun = 1e5, rhoend = 1e-10)))
cat(R.version.string, "lme4", format(packageVersion("lme4")), "\n")
print(summary(f)$coefficients, digits = 10); print(sapply(VarCorr(f), function(v) sqrt(v[1])), digits = 8)
print(logLik(f), digits = 12)
