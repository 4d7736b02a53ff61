// What can be said of the plan as it stands: problems first, else design, power, cost and what is unfair.
import {html} from '/assets/vendored/lit-html/lit-html.js';
import {rack, rackOf} from '/assets/plan/rack.js';

/** The most of it in a line: the design, its trays, the factor that is hardest to see, and how much is wrong. */
export function inOneLine(said) {
  if (said === null) {
    return 'One moment.';
  }
  const wrong = said.problems.length;
  if (wrong > 0) {
    return wrong === 1 ? 'One thing is wrong.' : `${wrong} things are wrong.`;
  }
  if (!said.design) {
    return said.notes[0] ?? '';
  }
  const [weakest] = said.power.filter(p => known(p.power)).sort((a, b) => a.power - b.power);
  const unfair = said.findings.length;
  return `${said.design}, ${said.trays} trays. ${weakest ? `${weakest.factor}: ${Math.round(100 * weakest.worthwhile)} points seen in ${chance(weakest.power)} of trials${
    weakest.power < weakest.wanted ? `, ${chance(weakest.wanted)} wanted` : ''}. ` : ''}${
    unfair === 0 ? 'Nothing unfair.' : unfair === 1 ? 'One thing to mend.' : `${unfair} things to mend.`}`;
}

export function advice(said, plan, toLine) {
  const place = rackOf(plan);
  const drawn = place === null ? '' : html`<section class="card"><h3>The rack</h3>${rack(place)}</section>`;
  if (said === null) {
    return html`${drawn}<p class="soft">One moment.</p>`;
  }
  return html`
    ${said.problems.map(p => html`<div class="wrong"><p>${p.sentence}</p>
      ${p.line > 0 ? html`<button type="button" @click=${() => toLine(p.line)}>Go to line ${p.line}</button>` : ''}</div>`)}
    ${said.design ? html`<section class="card"><h3>What this is</h3><p><strong>${said.design}</strong></p><p>${said.sentence}</p>
      <p>${said.treatments} treatments, ${said.trays} trays on ${said.places} places.</p></section>` : ''}
    ${drawn}
    ${said.power?.length ? html`<section class="card"><h3>What it would see</h3>${said.power.map(power)}</section>` : ''}
    ${said.design ? html`<section class="card"><h3>Is it fair?</h3>
      ${(said.findings ?? []).length === 0 ? html`<p>Nothing unfair was found.</p>` : said.findings.map(f => html`<div class="warn">
        <h4>${f.kind}</h4><p>${f.sentence}</p><p>What mends it: ${f.remedy}</p></div>`)}</section>` : ''}
    ${said.design ? html`<section class="card"><h3>What it takes</h3>${takes(said)}</section>` : ''}
    ${said.notes?.length ? html`<section class="card"><h3>Bear in mind</h3><ul>${said.notes.map(n => html`<li>${n}</li>`)}</ul></section>` : ''}`;
}

function power(p) {
  return html`<h4>${p.factor}</h4>
    ${p.power === null || p.power === undefined ? '' : html`<p class="row"><progress max="1" .value=${p.power} aria-label="Chance for ${p.factor}"></progress>
      <strong>${chance(p.power)}</strong> ${p.power < p.wanted ? `${chance(p.wanted)} are wanted` : ''}</p>`}<p>${p.sentence}</p>`;
}

/** Rounded down, as the audit does: what is a little too small must not look large enough. */
function chance(p) {
  return p >= 0.995 ? '> 99 %' : p < 0.01 ? '< 1 %' : `${Math.floor(100 * p + 1e-9)} %`;
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
