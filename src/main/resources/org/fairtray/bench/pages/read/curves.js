// How counts came on by day: pictures, and the same numbers as tables.
import {html} from '/assets/vendored/lit-html/lit-html.js';

/** Pictures that are seen at once; the others wait until they are asked for. */
const FIRST = 4;

/** The curves of every column, tray by tray, and by treatment once that is known. */
export function curves(address, progress) {
  return progress.columns.map(column => html`<section class="card"><h2>${column.name}, day by day</h2>
    ${nothingYet(column) ? html`<p>Nothing has been counted yet.</p>` : [
      progress.treatments === null ? '' : byTreatment(address, column, progress.treatments),
      html`<h3>Each tray</h3>`, byTray(address, column)]}</section>`);
}

function nothingYet(column) {
  return column.table.every(row => Object.keys(row.rates).length === 0);
}

function byTreatment(address, column, treatments) {
  const rows = treatments.filter(t => t.column === column.name);
  return html`<h3>Each treatment, the mean of its trays</h3>
    <img class="chart" src="${address}/curves/treatment/${encodeURIComponent(column.name)}.svg"
      alt="${column.name} by day, a line for each treatment. The table below has the numbers.">
    <details><summary>The numbers by treatment</summary>
      ${table(column, rows, ['Treatment', 'Trays counted'], row => [row.treatment, row.trays])}</details>`;
}

function byTray(address, column) {
  const all = Array.from({length: column.trayCharts}, (unused, i) => chart(address, column, i + 1));
  const later = all.slice(FIRST);
  return html`${all.slice(0, FIRST)}
    ${later.length === 0 ? '' : html`<details><summary>The other ${later.length} pictures</summary>${later}</details>`}
    <details><summary>The numbers by tray</summary>${table(column, column.table, ['Tray'], row => [row.tray])}</details>`;
}

function chart(address, column, number) {
  return html`<img class="chart" loading="lazy" src="${address}/curves/tray/${encodeURIComponent(column.name)}/${number}.svg"
    alt="${column.name} by day, a line for each tray, picture ${number} of ${column.trayCharts}. The table below has the numbers.">`;
}

function table(column, rows, heads, cells) {
  const days = [...new Set(rows.flatMap(row => Object.keys(row.rates).map(Number)))].sort((a, b) => a - b);
  return html`<div class="wide" tabindex="0" role="region" aria-label="Numbers of ${column.name}"><table>
    <thead><tr>${heads.map(head => html`<th scope="col">${head}</th>`)}
      ${days.map(day => html`<th scope="col" class="number">day ${day}</th>`)}</tr></thead>
    <tbody>${rows.map(row => html`<tr>${cells(row).map((cell, i) => i === 0 ? html`<th scope="row">${cell}</th>` : html`<td class="number">${cell}</td>`)}
      ${days.map(day => html`<td class="number">${shown(column, row.rates[day])}</td>`)}</tr>`)}</tbody></table></div>`;
}

function shown(column, rate) {
  if (rate === undefined || rate === null) {
    return '–';
  }
  return column.kind === 'measure' ? String(Math.round(rate * 100) / 100) : `${Math.round(rate * 1000) / 10} %`;
}
