# The naive Bayes classifier of e1071 on the equine colic data of VIM: frequency tables, posteriors
# and the data themselves, written as plain text for what compares them with the engine.
# Data: 300 horses with colic (UCI Machine Learning Repository, horse colic), as in R package VIM.
suppressMessages({
  library(e1071)
  data(colic, package = "VIM")
})

# Vitals in bands, closed below; the cuts are ours.
bands <- list(temp_rectal = c(37.5, 38.5), pulse = c(48, 80), respiratory_rate = c(24, 36),
              cell_volume = c(40, 50))
kinds <- c("temp_extreme", "pulse_peripheral", "pain", "peristalsis", "abdominal_distension",
           "rectal_examination", "abdomen", "mucous_membranes_group")

signs <- data.frame(row.names = seq_len(nrow(colic)))
for (name in names(bands))
  signs[[name]] <- cut(colic[[name]], c(-Inf, bands[[name]], Inf), right = FALSE)
for (name in kinds) signs[[name]] <- factor(colic[[name]])

model <- naiveBayes(signs, colic$surgical_lesion, laplace = 1)
posterior <- predict(model, signs, type = "raw")

show <- function(x) formatC(x, digits = 17, format = "g")
cat("prior", show(model$apriori[["no"]]), show(model$apriori[["yes"]]), "\n")
for (name in names(signs)) {
  cat("sign", name, if (name %in% names(bands)) paste("bands", paste(bands[[name]], collapse = " "))
      else paste("levels", nlevels(signs[[name]])), "\n")
  for (class in c("no", "yes")) cat(class, show(model$tables[[name]][class, ]), "\n")
}
for (i in seq_len(nrow(signs))) {
  answers <- vapply(names(signs), function(name) {
    if (is.na(signs[[name]][i])) "NA"
    else if (name %in% names(bands)) show(colic[[name]][i])
    else as.character(as.integer(signs[[name]][i]))
  }, "")
  cat("case", show(posterior[i, "yes"]), as.character(colic$surgical_lesion[i]), answers, "\n")
}
