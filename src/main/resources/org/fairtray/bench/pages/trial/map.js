// Where the trays of a laid out trial stand: their codes, never what they get.
import {html} from '/assets/vendored/lit-html/lit-html.js';

export function map({place, trays}) {
  return html`<section class="card"><h2>Where trays stand</h2>${level(place, trays, 0)}</section>`;
}

function level(place, trays, depth) {
  if (depth >= place.length - 1) {
    return html`<ol class="stands">${[...trays].sort((a, b) => a.at.at(-1) - b.at.at(-1)).map(t => html`<li value=${t.at.at(-1)}>${t.tray}</li>`)}</ol>`;
  }
  const numbers = [...new Set(trays.map(t => t.at[depth]))].sort((a, b) => a - b);
  return html`<div class="stand-group">${numbers.map(n => html`<div class="stand"><strong>${place[depth].name} ${n}</strong>
    ${level(place, trays.filter(t => t.at[depth] === n), depth + 1)}</div>`)}</div>`;
}
