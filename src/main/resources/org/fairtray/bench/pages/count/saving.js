// What a save sends: for each frame what changed, with what the counter had in view.
import * as rules from '/assets/count/rules.js';
import {seedsBodies, seedsUnsaved} from '/assets/count/seeds.js';

/** The first figure that falls against another day. */
export function quarrel(state, open) {
  for (const frame of rules.frames(state.sheet)) {
    const touched = open.fields.filter(field => field.frame === frame && field.touched && field.text !== '');
    const values = Object.fromEntries(touched.map(field => [field.column.name, field.text]));
    const [found] = rules.quarrels(state.sheet, planned(state, open), open.tray, open.day, frame, values);
    if (found) {
      return {...found, frame};
    }
  }
  return null;
}

/** What will stand once the corrections of other days, agreed on but not saved yet, are saved. */
export function planned(state, open) {
  return (tray, day, frame) => {
    const cell = state.at(tray, day, frame);
    const mended = (open.corrections ?? []).filter(each => tray === open.tray && each.day === day && each.frame === frame);
    return mended.length === 0 ? cell
      : {...cell, values: {...cell?.values, ...Object.assign({}, ...mended.map(each => each.values))}};
  };
}

/** Corrects the other days of a quarrel too; a reason where that can't be. */
export function correct(state, open, found) {
  const {sheet} = state;
  const values = {[found.column]: found.value};
  const at = planned(state, open);
  for (const day of rules.corrections(found)) {
    const [fault] = rules.impossible(sheet, at, open.tray, day, found.frame, values);
    if (fault) {
      return `Day ${day} can't be ${found.value} too: ${fault.reason}`;
    }
  }
  open.corrections = [...(open.corrections ?? []),
    ...rules.corrections(found).map(day => ({day, frame: found.frame, values}))];
  return null;
}

/** The counts of a save, in the order in which no count falls or exceeds its seeds meanwhile. */
export function bodies(state, open) {
  const saidAt = new Date().toISOString();
  const body = (day, frame, values, seen, view) => ({tray: open.tray, day, frame, seen, values, saidAt, view});
  const others = (open.corrections ?? []).map(each =>
    body(each.day, each.frame, each.values, state.seen(open.tray, each.day, each.frame),
      view(state, {tray: open.tray, ...each})));
  const own = rules.frames(state.sheet).map(frame => {
    const fields = open.fields.filter(field => field.frame === frame && field.touched && field.text !== field.stood);
    const values = Object.fromEntries(fields.map(field =>
      [field.column.name, rules.figure(field.text, field.column).value]));
    const saw = Object.fromEntries(fields.map(field => [field.column.name, field.view]));
    const made = body(open.day, frame, values, open.seen[frame], saw);
    return frame === 1 && open.note !== open.noteStood
      ? {...made, note: open.note.replace(/\s+/g, ' ').trim(), view: {...saw, note: open.noteStood}} : made;
  }).filter(each => Object.keys(each.values).length > 0 || each.note !== undefined);
  if (own.length > 0) {
    own[0].seconds = seconds(open);
  }
  const sown = more => open.seeds.filter(each => rules.seedsTyped(state.sheet, each.text) > Number(each.stood) === more)
    .flatMap(each => seedsBodies(state.sheet, open, each)).map(each => ({...each, saidAt}));
  return [...sown(true), ...others, ...own, ...sown(false)];
}

/** What stands of what a count gives, as its counter sees it now. */
export function view(state, {tray, day, frame, values, note, sown}) {
  const cell = state.at(tray, day, frame);
  const saw = Object.fromEntries(Object.keys(values).map(name => [name, cell?.values[name] ?? null]));
  return {...saw, ...(note === undefined ? {} : {note: cell?.note ?? null}), ...(sown === undefined ? {} : {sown: cell?.sown ?? null})};
}

/** Seconds since the tray was opened, without those in which the page wasn't in view. */
export function seconds(open) {
  return Math.round((Date.now() - open.since - open.away) / 1000);
}

/** What puts the former figures back: newest first. `seen` is filled in when it is sent. */
export function former(state, made) {
  return made.map(({tray, day, frame, values, note, sown}) => {
    const {note: noted, sown: seeds, ...figures} = view(state, {tray, day, frame, values, note, sown});
    return {tray, day, frame, values: figures, ...(note === undefined ? {} : {note: noted ?? ''}),
      ...(sown === undefined ? {} : {sown: seeds ?? ''})};
  }).reverse();
}

/** Whether a tray has what isn't saved. */
export function unsaved(state, open) {
  return open.fields.some(field => field.touched && field.text !== field.stood) || open.note !== open.noteStood
    || open.seeds.some(each => seedsUnsaved(state.sheet, each));
}
