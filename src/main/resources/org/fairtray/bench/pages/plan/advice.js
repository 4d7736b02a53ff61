// What can be said of the plan as it stands: problems first, else design, power, cost and what is unfair.
import {html} from '/assets/vendored/lit-html/lit-html.js';
import {rack} from '/assets/plan/rack.js';

export function advice(said, toLine) {
  if (said === null) {
    return html`<p class="soft">One moment.</p>`;
  }
  return html`
    ${said.problems.map(p => html`<div class="wrong"><p>${p.sentence}</p>
      ${p.line > 0 ? html`<button type="button" @click=${() => toLine(p.line)}>Go to line ${p.line}</button>` : ''}</div>`)}
    ${said.place?.length ? html`<section class="card"><h2>The rack</h2>${rack(said.place, said.applied ?? [], said.places)}</section>` : ''}
    ${said.design ? html`<section class="card"><h2>What this is</h2><p><strong>${said.design}</strong></p><p>${said.sentence}</p>
      <p>${said.treatments} treatments, ${said.trays} trays on ${said.places} places.</p></section>` : ''}
    ${said.power?.length ? html`<section class="card"><h2>What it would see</h2>${said.power.map(power)}</section>` : ''}
    ${said.design ? html`<section class="card"><h2>What it takes</h2>${takes(said)}</section>` : ''}
    ${said.design ? html`<section class="card"><h2>Is it fair?</h2>
      ${(said.findings ?? []).length === 0 ? html`<p>Nothing unfair was found.</p>` : said.findings.map(f => html`<div class="warn">
        <h3>${f.kind}</h3><p>${f.sentence}</p><p>What mends it: ${f.remedy}</p></div>`)}</section>` : ''}
    ${said.notes?.length ? html`<section class="card"><h2>Bear in mind</h2><ul>${said.notes.map(n => html`<li>${n}</li>`)}</ul></section>` : ''}`;
}

function power(p) {
  return html`<h3>${p.factor}</h3>
    ${p.power === null || p.power === undefined ? '' : html`<p class="row"><progress max="1" .value=${p.power} aria-label="Chance for ${p.factor}"></progress>
      <strong>${chance(p.power)}</strong></p>`}<p>${p.sentence}</p>`;
}

function chance(p) {
  return p >= 0.995 ? '> 99 %' : p < 0.005 ? '< 1 %' : `${Math.round(100 * p)} %`;
}

function takes(said) {
  return html`<dl>
    <dt>Cost</dt><dd>${said.cost ? html`${money(said.cost.total)} ${said.cost.currency}
      <ul>${said.cost.items.map(i => html`<li>${i.what}: ${money(i.amount)}</li>`)}</ul>` : 'Not known: say under Costs what things cost.'}</dd>
    <dt>Counting</dt><dd>${known(said.minutesADay) ? `${Math.round(said.minutesADay)} minutes on each counting day` : 'Not known: say under Costs how long one frame takes.'}</dd>
    <dt>Seed</dt><dd>${known(said.seedGrams) ? `${said.seedGrams.toPrecision(3)} g` : 'Not known: say what 1000 seeds weigh.'}</dd></dl>`;
}

const known = value => value !== null && value !== undefined;
const money = value => value.toFixed(2);
