// What the form asks, part by part: the plan's keys with their label, unit and a sentence of help.
// kind: text (default), list (several, with commas), choice. `of` gives the choices from what the plan says.
const placesAndTray = plan => ['tray', ...names(plan.place)];
const days = plan => many(plan.counting?.days);

export const PARTS = [
  {title: 'The question', fields: [
    {path: ['trial'], wide: true, label: 'Title', help: 'A short name for this trial.'},
    {path: ['question'], wide: true, label: 'Question', help: 'What you want to know, in your own words.'}]},
  {title: 'What is sown', fields: [
    {path: ['crop', 'name'], label: 'Crop', help: 'Such as cress or beet.'},
    {path: ['crop', 'seed_lot'], label: 'Seed lot', help: 'The number on the bag.'},
    {path: ['crop', 'thousand_seed_weight_g'], label: 'Weight of 1000 seeds (g)', help: 'With it the seed you need is worked out.'},
    {path: ['crop', 'seeds_per_unit'], label: 'Seeds in one cluster', help: '1 for single seeds; more where several grow together, as in beet.'}]},
  {title: 'What you vary', key: 'factors', one: 'factor', fresh: n => ({name: `factor ${n}`, levels: ['low', 'high']}), fields: [
    {path: ['name'], label: 'Name', help: 'Such as soak or mat.'},
    {path: ['unit'], label: 'Unit', help: 'Such as h or kg, where levels are numbers.'},
    {path: ['levels'], kind: 'list', label: 'Levels, with commas between', help: 'Two or more. Numbers are looked at for a trend too.'},
    {path: ['applied_to'], kind: 'choice', of: placesAndTray, label: 'Given to', help: 'What gets one level as a whole. Left out: single trays.'}]},
  {title: 'Compared with', each: plan => (plan.factors ?? []).filter(f => f?.name).map(f => (
    {path: ['control', f.name], kind: 'choice', of: () => many(f.levels), label: `Control of ${f.name}`,
      help: 'The level that others are compared with. Left out: the first.'}))},
  {title: 'Never together', key: 'never', one: 'combination', fresh: (n, plan) => firstOfTwo(plan), each: plan => (plan.factors ?? []).filter(f => f?.name).map(f => (
    {path: [f.name], kind: 'choice', of: () => many(f.levels), label: f.name, help: 'Empty: with any level.'}))},
  {title: 'Where trays stand', key: 'place', one: 'level', fresh: n => ({name: `level ${n}`, count: '2'}),
    help: 'From the largest to the smallest; the last is where one tray stands.', fields: [
      {path: ['name'], label: 'Name', help: 'Such as shelf, stack or spot.'},
      {path: ['count'], label: 'How many in each one around it', help: 'A whole number.'},
      {path: ['across'], kind: 'choice', of: plan => names(plan.place), label: 'Across', help: 'Where place 1 of every stack is alike (the height, say), choose stack here.'}]},
  {title: 'Shared by several trays', key: 'batches', one: 'batch', fresh: (n, plan) => ({name: `jar ${n}`, of: names(plan.factors)[0] ?? '', count: '2'}), fields: [
    {path: ['name'], label: 'Name', help: 'Such as a soaking jar.'},
    {path: ['of'], kind: 'choice', of: plan => names(plan.factors), label: 'For the levels of', help: 'The factor whose levels it gets.'},
    {path: ['count'], label: 'For each level', help: 'How many jars each level has. One is too few to compare.'}]},
  {title: 'How many trays', fields: [
    {path: ['replicates'], label: 'Trays of each treatment', help: 'Left out: as many as the place holds.'}]},
  {title: 'Counting', fields: [
    {path: ['counting', 'days'], kind: 'list', label: 'On days after sowing', help: 'Sowing is day 0. With commas between.'},
    {path: ['counting', 'frames_per_tray'], label: 'Frames in a tray', help: 'Small areas that are counted; 1 for the whole tray.'},
    {path: ['counting', 'seeds_per_frame'], label: 'Seeds in a frame', help: 'How many were sown there.'},
    {path: ['counting', 'counts'], kind: 'choice', of: () => ['cumulative', 'new'], label: 'What is written', help: 'cumulative: all so far. new: only what is new since the last count.'}]},
  {title: 'What answers the question', key: 'outcomes', one: 'outcome', help: 'The first is the question’s own.',
    fresh: (n, plan) => ({name: `outcome_${n}`, kind: 'count', of: 'sown', day: days(plan).at(-1) ?? '1'}), fields: [
      {path: ['name'], label: 'Name', help: 'The column of the readings, such as through or height_mm.'},
      {path: ['kind'], kind: 'choice', of: () => ['count', 'measure'], label: 'Kind', help: 'count: so many of so many. measure: a number with a unit.'},
      {path: ['of'], kind: 'choice', of: () => ['sown', 'germinated'], label: 'Counted of', help: 'For a count only.'},
      {path: ['day'], kind: 'choice', of: days, label: 'Day', help: 'The day whose reading decides.'}]},
  {title: 'What counts as such', each: plan => [...new Set(['germinated', 'through', ...names(plan.outcomes)])].map(name => (
    {path: ['definitions', name], wide: true, label: name, help: 'In words that your helper understands; on every sheet.'}))},
  {title: 'What you expect', fields: [
    {path: ['expect', 'control_rate'], label: 'Rate of the control (0 to 1)', help: '0.4: of 100 seeds, 40.'},
    {path: ['expect', 'worthwhile'], label: 'Change worth acting on (0 to 1)', help: '0.15 is 15 points: from 40 to 55 of 100.'},
    {path: ['expect', 'tray_correlation'], label: 'How alike seeds of one tray are (0 to 1)', help: 'If you don’t know, 0.05 is cautious.'},
    {path: ['expect', 'power'], label: 'Power wanted (0 to 1)', help: '0.8: in 8 of 10 such trials the change would be seen.'}]},
  {title: 'Costs', fields: [
    {path: ['costs', 'currency'], label: 'Currency', help: 'Such as EUR.'},
    {path: ['costs', 'tray'], label: 'One tray with its medium (money)', help: 'What one tray costs, without seed.'},
    {path: ['costs', 'seed_per_g'], label: 'One gram of seed (money)', help: 'What you pay for it.'},
    {path: ['costs', 'labour_per_hour'], label: 'One hour of work (money)', help: 'What an hour is worth to you.'},
    {path: ['costs', 'minutes_per_frame'], label: 'Counting one frame (minutes)', help: 'Once. Time yourself.'}]},
  {title: 'How it is judged', fields: [
    {path: ['analysis', 'alpha'], label: 'Error rate of a test (alpha)', help: 'Left out: 0.05.'}]},
];

/** Something as a list: the names of a plan's list. */
export function names(list) {
  return (Array.isArray(list) ? list : []).map(item => item?.name).filter(name => typeof name === 'string');
}

export function many(list) {
  return (Array.isArray(list) ? list : []).map(String);
}

function firstOfTwo(plan) {
  return Object.fromEntries((plan.factors ?? []).slice(0, 2).map(f => [f.name, many(f.levels).at(-1) ?? '']));
}
