// What a plan's text gives is anything; these take out what can be shown.

/** The names of a plan's list. */
export function names(list) {
  return items(list).map(item => item?.name).filter(isText);
}

/** Something as a list of texts. */
export function many(list) {
  return items(list).filter(item => isText(item));
}

/** Something as a list. */
export function items(list) {
  return Array.isArray(list) ? list : [];
}

/** The factors that have a name. */
export function factors(plan) {
  return items(plan.factors).filter(f => isText(f?.name));
}

export function isText(value) {
  return typeof value === 'string' && value !== '';
}
