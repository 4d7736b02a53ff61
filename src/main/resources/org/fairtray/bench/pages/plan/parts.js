// What the form asks, part by part: the plan's keys with their label, unit and a sentence of help.
// kind: text (default), list (several, with commas), choice. `of` gives the choices from what the plan says; `get` and
// `put` read and change an item of a list where a field isn't simply one of its keys.
import {ASKS, asked, overOf, withAsked, withOver, withWhat, whatOf} from '/assets/plan/restrictions.js';
import * as now from '/assets/plan/now.js';
import {factors, many, names} from '/assets/plan/values.js';

const placesAndTray = plan => ['tray', ...names(plan.place)];
const outerAndTray = plan => [...new Set([...names(plan.place).slice(0, -1), 'tray', ...Object.keys(plan.expect?.place_sd ?? {})])];
const days = plan => many(plan.counting?.days);

const CONDITIONS = {medium: 'Such as hemp mat or coir.', temperature_c: 'Of the room, in °C.'};
const conditionNames = plan => [...new Set([...Object.keys(CONDITIONS), ...Object.keys(plan.conditions ?? {})])].filter(name => !names(plan.factors).includes(name));

const USUAL = [
  {title: 'The question', now: now.question, fields: [
    {path: ['trial'], wide: true, label: 'Title', help: 'A short name for this trial.'},
    {path: ['question'], wide: true, label: 'Question', help: 'What you want to know, in your own words.'}]},
  {title: 'What you vary', now: now.varied, key: 'factors', one: 'factor', fresh: n => ({name: `factor ${n}`, levels: ['low', 'high']}), fields: [
    {path: ['name'], label: 'Name', help: 'Such as soak or mat.'},
    {path: ['unit'], label: 'Unit', help: 'Such as h or kg, where levels are numbers.'},
    {path: ['levels'], kind: 'list', label: 'Levels, with commas between', help: 'Two or more. Numbers are looked at for a trend too.'},
    {path: ['applied_to'], kind: 'choice', of: placesAndTray, label: 'Given to', help: 'What gets one level as a whole. Left out: single trays.'}]},
  {title: 'Compared with', now: now.control, each: plan => factors(plan).map(f => (
    {path: ['control', f.name], kind: 'choice', of: () => many(f.levels), label: `Control of ${f.name}`,
      help: 'The level that others are compared with. Left out: the first.'}))},
  {title: 'Where trays stand', now: now.place, key: 'place', one: 'level', fresh: n => ({name: `level ${n}`, count: '2'}),
    help: 'From the largest to the smallest; the last is where one tray stands.', fields: [
      {path: ['name'], label: 'Name', help: 'Such as shelf, stack or spot.'},
      {path: ['count'], label: 'How many in each one around it', help: 'A whole number.'},
      {path: ['across'], kind: 'choice', of: plan => names(plan.place), label: 'Across', help: 'Where place 1 of every stack is alike (the height, say), choose stack here.'}]},
  {title: 'How many trays', now: now.replicates, fields: [
    {path: ['replicates'], label: 'Trays of each treatment', help: 'Left out: as many as the place holds.'}]},
  {title: 'Counting', now: now.counting, fields: [
    {path: ['counting', 'days'], kind: 'list', label: 'On days after sowing', help: 'Sowing is day 0. With commas between.'},
    {path: ['counting', 'frames_per_tray'], label: 'Frames in a tray', help: 'Small areas that are counted; 1 for the whole tray.'},
    {path: ['counting', 'seeds_per_frame'], label: 'Seeds in a frame', help: 'How many were sown there.'},
    {path: ['counting', 'counts'], kind: 'choice', of: () => ['cumulative', 'new'], label: 'What is written', help: 'cumulative: all so far. new: only what is new since the last count.'}]},
  {title: 'What answers the question', now: now.outcomes, key: 'outcomes', one: 'outcome', help: 'The first is the question’s own.',
    fresh: (n, plan) => ({name: `outcome_${n}`, kind: 'count', of: 'sown', day: days(plan).at(-1) ?? '1'}), fields: [
      {path: ['name'], label: 'Name', help: 'The column of the readings, such as through or height_mm.'},
      {path: ['kind'], kind: 'choice', of: () => ['count', 'measure'], label: 'Kind', help: 'count: so many of so many. measure: a number with a unit.'},
      {path: ['of'], kind: 'choice', of: () => ['sown', 'germinated'], label: 'Counted of', help: 'For a count only.'},
      {path: ['day'], kind: 'choice', of: days, label: 'Day', help: 'The day whose reading decides.'}]},
  {title: 'What counts as such', now: now.definitions, each: plan => [...new Set(['germinated', 'through', ...names(plan.outcomes)])].map(name => (
    {path: ['definitions', name], wide: true, label: name, help: 'In words that your helper understands; on every sheet.'}))},
  {title: 'What you expect', now: now.expected, each: plan => [
    {path: ['expect', 'control_rate'], label: 'Rate of the control (0 to 1)', help: '0.4: of 100 seeds, 40.'},
    {path: ['expect', 'worthwhile'], label: 'Change worth acting on (0 to 1)', help: '0.15 is 15 points: from 40 to 55 of 100.'},
    {path: ['expect', 'power'], label: 'Power wanted (0 to 1)', help: '0.8: in 8 of 10 such trials the change would be seen.'},
    {path: ['expect', 'tray_correlation'], label: 'How alike seeds of one tray are (0 to 1)', help: 'Left out: 0.05 is taken, a cautious guess.'},
    ...outerAndTray(plan).map(level => (
      {path: ['expect', 'place_sd', level], label: `How far one ${level} differs from another`, help: 'Standard deviation in log-odds: 0.2 is about 5 points at a rate of 50 %.'}))]},
  {title: 'What is sown', now: now.sown, fields: [
    {path: ['crop', 'name'], label: 'Crop', help: 'Such as cress or beet.'},
    {path: ['crop', 'seed_lot'], label: 'Seed lot', help: 'The number on the bag.'},
    {path: ['crop', 'thousand_seed_weight_g'], label: 'Weight of 1000 seeds (g)', help: 'With it the seed you need is worked out.'},
    {path: ['crop', 'seeds_per_unit'], label: 'Seeds in one cluster', help: '1 for single seeds; more where several grow together, as in beet.'},
    {path: ['sowing', 'grams_per_tray'], label: 'Seed on one tray (g)', help: 'Where you weigh it. With the weight of 1000 seeds you are told how many that is.'}]},
  {title: 'Costs', now: now.costs, fields: [
    {path: ['costs', 'currency'], label: 'Currency', help: 'Such as EUR.'},
    {path: ['costs', 'tray'], label: 'One tray with its medium (money)', help: 'What one tray costs, without seed.'},
    {path: ['costs', 'seed_per_g'], label: 'One gram of seed (money)', help: 'What you pay for it.'},
    {path: ['costs', 'labour_per_hour'], label: 'One hour of work (money)', help: 'What an hour is worth to you.'},
    {path: ['costs', 'minutes_per_frame'], label: 'Counting one frame (minutes)', help: 'Once. Time yourself.'}]},
];

const RARE = [
  {title: 'When covers come off', now: now.handling, fields: [
    {path: ['handling', 'uncover_day'], label: 'On day after sowing', help: 'When weights and covers come off for good and trays go to light. Left out: you say so at the bench.'}]},
  {title: 'The same for all trays', now: now.conditions, help: 'What isn’t varied here but may be elsewhere: with it trials of several growers can be put together.',
    each: plan => conditionNames(plan).map(name => ({path: ['conditions', name], label: name, help: CONDITIONS[name] ?? 'A word or a number.'}))},
  {title: 'Never together', now: now.never, key: 'never', one: 'combination', fresh: (n, plan) => firstOfTwo(plan), each: plan => factors(plan).map(f => (
    {path: [f.name], kind: 'choice', of: () => many(f.levels), label: f.name, help: 'Empty: with any level.'}))},
  {title: 'Shared by several trays', now: now.batches, key: 'batches', one: 'batch', fresh: (n, plan) => ({name: `jar ${n}`, of: names(plan.factors)[0] ?? '', count: '2'}), fields: [
    {path: ['name'], label: 'Name', help: 'Such as a soaking jar.'},
    {path: ['of'], kind: 'choice', of: plan => names(plan.factors), label: 'For the levels of', help: 'The factor whose levels it gets.'},
    {path: ['count'], label: 'For each level', help: 'How many jars each level has. One is too few to compare.'}]},
  {title: 'Sizes of trays and frames', now: now.sizes, help: 'With both sizes it is drawn where frames lie. Whole or half centimetres.', fields: [
    {path: ['counting', 'tray_cm'], kind: 'list', label: 'Tray: two sides (cm)', help: 'From left to right, from front to back: 40, 30.'},
    {path: ['counting', 'frame_cm'], kind: 'list', label: 'Counting frame: two sides (cm)', help: 'Likewise: 8, 8.'},
    {path: ['counting', 'margin_cm'], label: 'Edge without frames (cm)', help: 'Along every edge. Left out: none.'}]},
  {title: 'Trays that change places', now: now.rotation, help: 'Instead of standing still, so that none keeps a good or a bad place.', fields: [
    {path: ['rotation', 'level'], kind: 'choice', of: plan => names(plan.place), label: 'They exchange their', help: 'The kind of place that trays exchange.'},
    {path: ['rotation', 'days'], kind: 'list', label: 'On days after sowing', help: 'With commas between.'}]},
  {title: 'What chance must keep to', now: now.restrictions, key: 'restrictions', one: 'restriction', fresh: () => ({keep_apart: 'treatment'}),
    help: 'Only layouts that keep to these are drawn. Each one leaves chance less room.', fields: [
      {path: [], wide: true, kind: 'choice', of: () => Object.values(ASKS), always: true, get: asked, put: withAsked, label: 'What is asked', help: 'Side by side: neighbours along the numbers of a place.'},
      {path: [], kind: 'choice', of: plan => ['treatment', ...names(plan.factors)], get: whatOf, put: withWhat, label: 'Of', help: 'Of a factor, or of what trays get as a whole (treatment).'},
      {path: [], kind: 'choice', of: plan => names(plan.place), only: item => asked(item) === ASKS.even_over, get: overOf, put: withOver, label: 'Evenly over', help: 'Each comes equally often at every number of it.'}]},
  {title: 'How it is judged', now: now.judged, fields: [
    {path: ['analysis', 'alpha'], label: 'Error rate of a test (alpha)', help: 'Left out: 0.05.'},
    {path: ['analysis', 'interactions'], label: 'Factors in one interaction, at most', help: 'How many may act together in what is fitted; 1: each by itself. Left out: 2.'},
    {path: ['analysis', 'anova_scale'], kind: 'choice', of: () => ['angular', 'proportion', 'logit'], label: 'Scale of the analysis of variance', help: 'Left out: angular, which suits rates.'}]},
];

/** The parts that most plans need, then those that few do. */
export const PARTS = [...USUAL, ...RARE.map(part => ({...part, rare: true}))];

/** The fields of a part; of a list, of each of its items. */
export function fieldsOf(part, plan) {
  return part.each?.(plan) ?? part.fields;
}

function firstOfTwo(plan) {
  return Object.fromEntries(factors(plan).slice(0, 2).map(f => [f.name, many(f.levels).at(-1) ?? '']));
}
