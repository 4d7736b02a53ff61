// The place as a rack: shelves, stacks and spots drawn inside each other, a few of each.
import {html} from '/assets/vendored/lit-html/lit-html.js';
import {factors, isText, items, names} from '/assets/plan/values.js';

const SHOWN = [3, 4, 6];
const NUMBER = /^[1-9][0-9]{0,6}$/;

/** What a plan says of its place as far as it is written; null where no rack can be drawn of it yet. */
export function rackOf(plan) {
  const place = items(plan.place).map(l => ({name: l?.name, count: l?.count, across: l?.across}));
  if (place.length === 0 || !place.every(l => isText(l.name) && NUMBER.test(l.count))) {
    return null;
  }
  const levels = place.map(l => ({...l, count: Number(l.count)}));
  const outer = names(place).slice(0, -1);
  const applied = factors(plan).map(f => ({factor: f.name, level: outer.includes(f.applied_to) ? f.applied_to : 'tray'}));
  return {place: levels, applied, places: levels.reduce((all, l) => all * l.count, 1)};
}

/** Draws a place; units that get one level as a whole have a thick outline and a word. */
export function rack({place, applied, places}) {
  const whole = new Map();
  for (const a of applied.filter(a => a.level !== 'tray')) {
    whole.set(a.level, [...(whole.get(a.level) ?? []), a.factor]);
  }
  return html`<div class="rack" role="img" aria-label=${words(place, places)}>${units(place, 0, whole)}</div>
    <p>${words(place, places)}</p>
    ${[...whole].map(([level, factors]) => html`<p><span class="key"></span> ${factors.join(', ')}: one level for each whole ${level}.</p>`)}
    ${applied.some(a => a.level === 'tray') ? html`<p><span class="key tray"></span> ${applied.filter(a => a.level === 'tray').map(a => a.factor).join(', ')}: one level for each tray.</p>` : ''}`;
}

function words(place, places) {
  return `${place.map(l => `${l.count} × ${l.name}${l.across ? ` (across ${l.across})` : ''}`).join(', in each ')}: ${places} places for trays.`;
}

function units(place, depth, whole) {
  const level = place[depth];
  const last = depth === place.length - 1;
  const shown = Math.min(level.count, last ? 12 : SHOWN[Math.min(depth, 2)]);
  const left = level.count - shown;
  return html`<div class="units ${depth === 0 && !last ? 'down' : ''}">
    ${Array.from({length: shown}, (x, i) => html`<div class="unit ${last ? 'spot' : ''} ${whole.has(level.name) ? 'whole' : ''}">
      <span class="name">${last ? i + 1 : `${level.name} ${i + 1}`}</span>${last ? '' : units(place, depth + 1, whole)}</div>`)}
    ${left > 0 ? html`<span class="more">… and ${left} more</span>` : ''}</div>`;
}
