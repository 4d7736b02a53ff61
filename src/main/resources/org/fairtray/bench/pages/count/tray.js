// One tray, one screen: its figures, the pad under them, save and next.
import {html, nothing} from '/assets/vendored/lit-html/lit-html.js';
import {live} from '/assets/vendored/lit-html/directives/live.js';
import * as rules from '/assets/count/rules.js';
import {conflictCards} from '/assets/count/conflicts.js';
import {photoPart} from '/assets/count/photo.js';
import {pad} from '/assets/count/pad.js';
import {seedsFaults, seedsFollow, seedsOpened, seedsPart} from '/assets/count/seeds.js';

/** What is typed for a tray, what stood when it was opened (`view`), and what stands now (`stood`). */
export function opened(state, tray, code) {
  const {sheet, day} = state;
  const fields = rules.frames(sheet).flatMap(frame => rules.wanted(sheet, day).map(column => {
    const stood = state.at(tray, day, frame)?.values[column.name] ?? '';
    return {frame, column, stood, view: stood, text: stood, touched: false, fresh: true};
  }));
  const refused = state.refused.filter(({body}) => body.tray === tray && body.day === day);
  refused.forEach(({body, reason}) => fields.filter(field => field.frame === body.frame && field.column.name in body.values)
    .forEach(field => Object.assign(field, {text: body.values[field.column.name] ?? '', touched: true, refusal: reason})));
  const seen = Object.fromEntries(rules.frames(sheet).map(frame => [frame, state.seen(tray, day, frame)]));
  const note = state.at(tray, day, 1)?.note ?? '';
  const seeds = rules.frames(sheet).map(frame => seedsOpened(state, tray, frame));
  return {tray, day, fields, seeds, current: 0, seen, note, noteStood: note, since: Date.now(), away: 0, code, quarrel: null, meanwhile: []};
}

/** Takes in what came from others: untouched fields follow, touched ones stay and say so. */
export function follow(state, open) {
  for (const field of open.fields) {
    const cell = state.at(open.tray, open.day, field.frame);
    const now = cell?.values[field.column.name] ?? '';
    if (now !== field.stood && !cell?.waiting) {
      if (field.touched && field.text !== now) {
        open.meanwhile = open.meanwhile.filter(each => each.field !== field);
        open.meanwhile.push({field, now, by: cell?.by ?? 'Someone'});
      } else {
        Object.assign(field, {text: now, view: now, touched: false});
      }
      field.stood = now;
    }
  }
  seedsFollow(state, open);
  if (open.fields.every(field => !field.touched) && open.note === open.noteStood) {
    rules.frames(state.sheet).forEach(frame => { open.seen[frame] = state.seen(open.tray, open.day, frame); });
    open.note = open.noteStood = state.at(open.tray, open.day, 1)?.note ?? '';
  }
}

/** Why figures can't be true, per field; also those typed in fields of the same frame are looked at. */
export function faults(state, open) {
  return rules.frames(state.sheet).flatMap(frame =>
    rules.impossible(state.sheet, state.at, open.tray, open.day, frame, typed(open, frame), sown(open, frame))
      .map(found => ({...found, frame})));
}

/** The seeds typed for a frame; undefined where nobody touched them. */
function sown(open, frame) {
  const seeds = open.seeds.find(each => each.frame === frame);
  return seeds.touched ? seeds.text : undefined;
}

/** Why the seeds typed can't be, per frame. */
export function wrongSeeds(state, open) {
  return seedsFaults(state, open, frame => typed(open, frame));
}

function typed(open, frame) {
  return Object.fromEntries(open.fields.filter(field => field.frame === frame)
    .map(field => [field.column.name, field.text]));
}

export function trayView(state, open, actions) {
  const {sheet, day} = state;
  const where = rules.walked(sheet, day).find(each => each.tray === open.tray)?.where;
  const found = faults(state, open);
  const heard = open.fields[open.current];
  return html`
    <h2 class="code" tabindex="-1">${open.tray} <small>${where}</small></h2>
    ${conflictCards(state, actions, state.conflicts.filter(each => each.tray === open.tray && each.day === day))}
    ${open.meanwhile.map(each => meanwhile(each, actions))}
    ${rules.frames(sheet).map(frame => html`
      <fieldset class="frame"><legend class=${sheet.frames > 1 ? '' : 'unseen'}>Frame ${frame}</legend>
        ${open.fields.map((field, i) => field.frame === frame ? row(state, open, field, i, found, actions) : nothing)}
      </fieldset>`)}
    ${seedsPart(state, open, wrongSeeds(state, open), actions)}
    ${more(state, open, actions)}
    ${actions.may ? html`<section class="thumb" aria-label="Enter figures">
      ${open.quarrel ? quarrelPart(state, open, actions) : pad(heard, actions)}
      ${open.quarrel ? nothing : moves(actions)}
    </section>` : html`<section class="thumb look"><p>You may look, but not count.</p>${moves(actions)}</section>`}`;
}

function row(state, open, field, i, found, actions) {
  const before = rules.earlier(state.sheet, state.at, open.tray, open.day, field.frame, field.column.name);
  const fault = found.find(each => each.frame === field.frame && each.column === field.column.name);
  const id = `figure-${i}`;
  const words = state.sheet.definitions?.[field.column.name];
  return html`<div class="figure ${i === open.current ? 'current' : ''}">
    <label for=${id}>${field.column.name}${words ? html`<small>${words}</small>` : nothing}</label>
    ${before === undefined ? html`<span class="before">no earlier figure</span>` : html`
      <button type="button" class="before" ?disabled=${!actions.may} @click=${() => actions.set(i, before.value)}
        aria-label=${`Day ${before.day}: ${before.value}. Put the same.`}>day ${before.day}: <b>${before.value}</b>
        ${state.sheet.cumulative || field.column.kind === 'measure' ? nothing : html`<br>so far ${before.total}`}</button>`}
    <input id=${id} type="text" inputmode="none" autocomplete="off" placeholder="not read" ?readonly=${!actions.may}
      aria-invalid=${fault ? 'true' : 'false'} aria-describedby=${`${id}-why`} .value=${live(field.text)}
      @focus=${() => actions.focus(i)} @input=${event => actions.set(i, event.target.value)}>
    <p id="${id}-why" class="why" role="status">${fault?.reason ?? (field.refusal ? `Refused: ${field.refusal}` : '')}</p>
  </div>`;
}

function meanwhile({field, now, by}, actions) {
  return html`<div class="warn" role="status">
    <p>${by} counted ${now === '' ? 'nothing' : now} ${field.column.name} meanwhile; you typed ${field.text || 'nothing'}.</p>
    <div class="row"><button type="button" @click=${() => actions.takeTheirs(field, now)}>Take ${now || 'nothing'}</button>
    <button type="button" @click=${() => actions.keepMine(field)}>Keep ${field.text || 'nothing'}</button></div></div>`;
}

function quarrelPart(state, open, actions) {
  const {quarrel} = open;
  const others = [...quarrel.higher, ...quarrel.lower];
  const which = quarrel.higher.length > 0 ? 'too high' : 'too low';
  return html`<div class="ask" role="group" aria-labelledby="asked">
    <h3 id="asked" tabindex="-1">${open.tray}, ${quarrel.column}: ${rules.quarrelWords(quarrel, open.day, state.today)}</h3>
    ${quarrel.stuck ? html`<p class="wrong" role="alert">${quarrel.stuck}</p>` : nothing}
    <button type="button" class="main" @click=${actions.countAgain}>Count again</button>
    <button type="button" @click=${actions.correctToo}>
      ${others.map(other => `Day ${other.day}`).join(' and ')} was ${which}: make it ${quarrel.value} too</button></div>`;
}

function moves(actions) {
  return html`<div class="moves">
    <button type="button" @click=${actions.previous}>Back</button>
    <button type="button" @click=${actions.skip}>Skip</button>
    ${actions.may ? html`<button type="button" class="main" ?disabled=${actions.saving} @click=${actions.save}>Save &amp; next</button>` : nothing}
  </div>`;
}

function more(state, open, actions) {
  return html`<details class="more"><summary>Note, photo, help${open.note ? ' (there is a note)' : ''}</summary>
    <label for="note">Note about this tray on day ${open.day}</label>
    <textarea id="note" rows="2" maxlength="500" ?readonly=${!actions.may} .value=${live(open.note)} @input=${event => actions.note(event.target.value)}></textarea>
    ${photoPart(state, open, actions)}
    <p class="soft">Keys: digits type, + and − change by one, Backspace deletes, ↑ ↓ change the field, Enter saves and goes on.
      An empty field means “not read”, never zero.</p></details>`;
}
