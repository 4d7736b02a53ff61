// Seeds sown in a frame, where they are others than the plan says: seen in one line, changed on request.
import {html, nothing} from '/assets/vendored/lit-html/lit-html.js';
import {live} from '/assets/vendored/lit-html/directives/live.js';
import * as rules from '/assets/count/rules.js';

/** What the counter had in view of the seeds in a frame: how many, and on which days that was said. */
export function seedsOpened(state, tray, frame) {
  const stood = String(rules.seeds(state.sheet, state.at, tray, frame));
  const said = state.sheet.days.filter(day => state.at(tray, day, frame)?.sown)
    .map(day => ({day, sown: state.at(tray, day, frame).sown, seen: state.seen(tray, day, frame)}));
  return {frame, text: stood, stood, said, touched: false};
}

/** Seeds that nobody has typed follow what others say. */
export function seedsFollow(state, open) {
  open.seeds = open.seeds.map(each => each.touched ? each : seedsOpened(state, open.tray, each.frame));
}

export function seedsUnsaved(sheet, seeds) {
  return seeds.touched && String(rules.seedsTyped(sheet, seeds.text)) !== seeds.stood;
}

/** Why the seeds typed can't be: [{frame, reason}]. */
export function seedsFaults(state, open, values) {
  const at = (tray, day, frame) => day !== open.day ? state.at(tray, day, frame)
    : {values: {...state.at(tray, day, frame)?.values, ...values(frame)}};
  return open.seeds.filter(each => each.touched).flatMap(({frame, text}) => {
    const reason = rules.seedsFault(state.sheet, at, open.tray, frame, text);
    return reason ? [{frame, reason}] : [];
  });
}

/** The counts that say the seeds of a frame: on the day that says them already, and taken back on all others. */
export function seedsBodies(sheet, open, seeds) {
  if (!seedsUnsaved(sheet, seeds)) {
    return [];
  }
  const typed = rules.seedsTyped(sheet, seeds.text);
  const [first = {day: open.day, sown: null, seen: open.seen[seeds.frame]}, ...others] = seeds.said;
  const body = ({day, sown, seen}, now) => ({tray: open.tray, day, frame: seeds.frame, seen, values: {}, sown: now, view: {sown}});
  return [...others.map(each => body(each, '')), body(first, typed === sheet.seedsPerFrame ? '' : String(typed))];
}

export function seedsPart(state, open, found, actions) {
  const {sheet} = state;
  if (!sheet.columns.some(column => column.kind === 'count')) {
    return nothing;
  }
  const each = open.seeds.map(({frame, text}) => `${sheet.frames > 1 ? `frame ${frame}` : 'this frame'}: ${text || sheet.seedsPerFrame}`);
  const planned = open.seeds.every(({text}) => rules.seedsTyped(sheet, text) === sheet.seedsPerFrame);
  const words = `Seeds in ${each.join(', ')} (${planned ? 'as planned' : `plan: ${sheet.seedsPerFrame}`}).`;
  return !actions.may ? html`<p class="seeds">${words}</p>` : html`<details class="more seeds" ?open=${open.seedsShown ?? false}
    @toggle=${event => { open.seedsShown = event.target.open; }}>
    <summary><span>${words} <b>Change</b></span></summary>
    ${open.seeds.map(seeds => seedsRow(sheet, seeds, found.find(fault => fault.frame === seeds.frame), actions))}
    <p class="soft">As they were sown, on all days. They are kept when you save.</p></details>`;
}

function seedsRow(sheet, {frame, text}, fault, actions) {
  const id = `seeds-${frame}`;
  return html`<div class="sown"><label for=${id}>Seeds sown${sheet.frames > 1 ? ` in frame ${frame}` : ''}</label>
    <input id=${id} type="text" inputmode="numeric" autocomplete="off" maxlength="7" placeholder=${sheet.seedsPerFrame}
      aria-invalid=${fault ? 'true' : 'false'} aria-describedby=${`${id}-why`} .value=${live(text)}
      @input=${event => actions.seeds(frame, event.target.value)}>
    <p id="${id}-why" class="why" role="status">${fault?.reason ?? ''}</p></div>`;
}
