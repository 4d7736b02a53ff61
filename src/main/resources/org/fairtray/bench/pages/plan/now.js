// What each part of the form says now, in one line.
import {ASKS, asked, overOf, whatOf} from '/assets/plan/restrictions.js';
import {factors, isText, items, many, names} from '/assets/plan/values.js';

const NOTHING = 'nothing said';

export const question = plan => said([plan.trial, plan.question], ' — ');
export const varied = plan => said(factors(plan).map(f => `${f.name} (${number(many(f.levels).length, 'level')}${
  isText(f.applied_to) && f.applied_to !== 'tray' ? `, for each ${f.applied_to}` : ''})`));
export const control = plan => said(factors(plan).map(f => `${f.name} ${text(plan.control?.[f.name]) ?? many(f.levels)[0] ?? ''}`));
export const place = plan => said(items(plan.place).map(l => `${text(l?.count) ?? '?'} × ${text(l?.name) ?? '?'}`), ', in each ');
export const replicates = plan => isText(plan.replicates) ? `${plan.replicates} of each treatment` : 'as many as the place holds';
export const counting = ({counting: c}) => said([
  many(c?.days).length > 0 && `on ${many(c.days).length === 1 ? 'day' : 'days'} ${many(c.days).join(', ')}`,
  (isText(c?.frames_per_tray) || isText(c?.seeds_per_frame))
    && `${number(text(c.frames_per_tray) ?? '1', 'frame')}${isText(c.seeds_per_frame) ? ` of ${c.seeds_per_frame} seeds` : ''}`]);
export const outcomes = plan => said(items(plan.outcomes).map(o => `${text(o?.name) ?? '?'} on day ${text(o?.day) ?? '?'}`));
export const definitions = plan => said(Object.entries(plan.definitions ?? {}).map(([name, words]) => isText(words) && `${name}: ${words}`), '; ');
export const expected = ({expect: e}) => said([
  isText(e?.control_rate) && `control ${e.control_rate}`,
  isText(e?.worthwhile) && `a change of ${e.worthwhile} matters`,
  isText(e?.power) && `power ${e.power}`,
  isText(e?.tray_correlation) && `seeds alike by ${e.tray_correlation}`,
  ...Object.entries(e?.place_sd ?? {}).map(([level, sd]) => isText(sd) && `${level} ${sd}`)]);
export const sown = ({crop, sowing}) => said([crop?.name, isText(crop?.seed_lot) && `lot ${crop.seed_lot}`,
  isText(crop?.thousand_seed_weight_g) && `1000 weigh ${crop.thousand_seed_weight_g} g`,
  isText(sowing?.grams_per_tray) && `${sowing.grams_per_tray} g on a tray`]);
export const costs = ({costs: c}) => said([
  isText(c?.tray) && `a tray ${c.tray}`,
  isText(c?.seed_per_g) && `a gram of seed ${c.seed_per_g}`,
  isText(c?.labour_per_hour) && `an hour ${c.labour_per_hour}`,
  isText(c?.minutes_per_frame) && `${c.minutes_per_frame} minutes for a frame`,
  c?.currency]);
export const handling = plan => isText(plan.handling?.uncover_day) ? `on day ${plan.handling.uncover_day}` : NOTHING;
export const conditions = plan => said(Object.entries(plan.conditions ?? {}).map(([name, word]) => isText(word) && `${name} ${word}`));
export const never = plan => said(items(plan.never).map(n => said(Object.entries(n ?? {}).map(([name, level]) => isText(level) && `${name} ${level}`), ' with ')),
  '; ', 'every combination is made');
export const batches = plan => said(items(plan.batches).map(b => `${text(b?.count) ?? '?'} × ${text(b?.name) ?? '?'} for each ${text(b?.of) ?? '?'}`),
  ', ', 'nothing is shared');
export const sizes = ({counting: c}) => said([sides('tray', c?.tray_cm), sides('frame', c?.frame_cm), isText(c?.margin_cm) && `edge ${c.margin_cm} cm`]);
export const rotation = ({rotation: r}) => isText(r?.level) || many(r?.days).length > 0
  ? `${text(r.level) ?? '?'} on days ${many(r.days).join(', ')}` : 'trays stay where they are';
export const restrictions = plan => said(items(plan.restrictions).map(r => asked(r) === undefined ? '?'
  : `${text(whatOf(r)) ?? '?'}: ${asked(r) === ASKS.even_over ? `evenly over ${text(overOf(r)) ?? '?'}` : asked(r)}`), '; ', 'any fair layout');
export const judged = ({analysis: a}) => said([isText(a?.alpha) && `alpha ${a.alpha}`,
  isText(a?.interactions) && `interactions of ${a.interactions}`, a?.anova_scale], ', ', 'as usual');

function said(parts, between = ', ', none = NOTHING) {
  const all = parts.filter(isText);
  return all.length === 0 ? none : all.join(between);
}

function number(count, one) {
  return `${count} ${one}${String(count) === '1' ? '' : 's'}`;
}

function sides(what, list) {
  return many(list).length > 0 && `${what} ${many(list).join(' × ')} cm`;
}

function text(value) {
  return isText(value) ? value : undefined;
}
