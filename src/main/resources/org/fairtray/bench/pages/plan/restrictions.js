// The three things that a layout may have to keep to, each written under a key of its own.
export const ASKS = {
  keep_apart: 'like ones never side by side',
  even_over: 'evenly over a place level',
  even_at_edges: 'evenly at the edges',
};

/** What an item asks, in words; nothing where it asks none of the three. */
export function asked(item) {
  return ASKS[keyOf(item)];
}

/** Of what it asks that: a factor or the treatments. */
export function whatOf(item) {
  const key = keyOf(item);
  return key === 'even_over' ? item.of : item?.[key];
}

/** The place level that it speaks of. */
export function overOf(item) {
  return item?.even_over;
}

export function withAsked(item, words, plan) {
  const key = Object.keys(ASKS).find(k => ASKS[k] === words);
  const what = whatOf(item) ?? 'treatment';
  const over = plan.place?.at?.(-1)?.name ?? '';
  return {...rest(item), ...(key === 'even_over' ? {even_over: over, of: what} : {[key]: what})};
}

export function withWhat(item, what) {
  return keyOf(item) === 'even_over' ? {...item, of: what ?? ''} : {...item, [keyOf(item) ?? 'keep_apart']: what ?? ''};
}

export function withOver(item, level) {
  return {...item, even_over: level ?? ''};
}

function keyOf(item) {
  return Object.keys(ASKS).find(key => item !== null && typeof item === 'object' && key in item);
}

function rest(item) {
  return Object.fromEntries(Object.entries(item ?? {}).filter(([key]) => !(key in ASKS) && key !== 'of'));
}
