// The form over the plan, its parts folded; every change goes through the text.
import {html} from '/assets/vendored/lit-html/lit-html.js';
import {live} from '/assets/vendored/lit-html/directives/live.js';
import {PARTS, fieldsOf} from '/assets/plan/parts.js';
import {changed, listed} from '/assets/plan/text.js';
import {canShow, onlyInText} from '/assets/plan/unknown.js';

/**
 * The form of a plan.
 *
 * @param open the titles of the parts that are open; they stay so while one types
 * @param turn is told when a part was opened or folded
 * @param edit takes the text's next state from its present one
 */
export function form(plan, open, turn, edit) {
  const parts = PARTS.map((part, number) => ({part, shown: folded(part, number, plan, open, turn, edit)}));
  const left = onlyInText(plan);
  return html`${parts.filter(p => !p.part.rare).map(p => p.shown)}
    <h3>Needed less often</h3>${parts.filter(p => p.part.rare).map(p => p.shown)}
    ${left.length === 0 ? '' : html`<p class="only">Only in the text: ${left.join(', ')}.</p>`}`;
}

/** The titles of all parts. */
export const TITLES = PARTS.map(part => part.title);

function folded(part, number, plan, open, turn, edit) {
  return html`<details class="card part" ?open=${open.has(part.title)} @toggle=${e => turn(part.title, e.target.open)}>
    <summary><strong>${part.title}</strong> <span class="soft now">${part.now(plan)}</span></summary>
    ${part.help ? html`<p class="soft">${part.help}</p>` : ''}
    ${part.key ? items(part, number, plan, edit) : html`<div class="fields" role="group" aria-label=${part.title}>
      ${fieldsOf(part, plan).map((f, i) => field(f, [], `f${number}-${i}`, plan, edit))}</div>`}
  </details>`;
}

function items(part, number, plan, edit) {
  const list = Array.isArray(plan[part.key]) ? plan[part.key] : [];
  // Where the keyboard was stays in sight: on the item that moved, on a new one, or on the button that adds one.
  const set = (change, then) => {
    edit(text => listed(text, [part.key], change));
    (document.getElementById(then) ?? document.getElementById(`f${number}-add`))?.focus();
  };
  return html`${list.map((item, i) => html`<fieldset class="item"><legend>${part.one} ${i + 1}${item?.name ? `: ${item.name}` : ''}</legend>
      <div class="fields">${fieldsOf(part, plan).map((f, j) => f.only?.(item) === false ? ''
        : field(f, [part.key, i], `f${number}-${i}-${j}`, plan, edit))}</div>
      <div class="row">
        <button type="button" ?disabled=${i === 0} @click=${() => set(all => swapped(all, i - 1), `f${number}-${i - 1}-0`)} aria-label="Move ${part.one} ${i + 1} up">Up</button>
        <button type="button" ?disabled=${i === list.length - 1} @click=${() => set(all => swapped(all, i), `f${number}-${i + 1}-0`)} aria-label="Move ${part.one} ${i + 1} down">Down</button>
        <button type="button" @click=${() => set(all => all.filter((x, j) => j !== i), `f${number}-add`)} aria-label="Remove ${part.one} ${i + 1}">Remove</button>
      </div></fieldset>`)}
    <button type="button" id="f${number}-add" @click=${() => set(all => [...all, part.fresh(list.length + 1, plan)], `f${number}-${list.length}-0`)}>
      Add ${/^[aeiou]/.test(part.one) ? 'an' : 'a'} ${part.one}</button>`;
}

function swapped(all, i) {
  [all[i], all[i + 1]] = [all[i + 1], all[i]];
  return all;
}

function field(f, base, id, plan, edit) {
  const path = [...base, ...f.path];
  const held = path.reduce((at, key) => at?.[key], plan);
  const value = f.get ? f.get(held) : held;
  const set = next => edit(text => changed(text, path, f.put ? f.put(held, next, plan) : next));
  return html`<div class="field ${f.wide ? 'wide' : ''}"><label for=${id}>${f.label}</label>${entry(f, id, value, plan, set)}<small id="${id}-help" class="soft">${f.help}</small></div>`;
}

function entry(f, id, value, plan, set) {
  if (value !== undefined && !canShow(value, f.kind)) {
    return html`<input id=${id} disabled aria-describedby="${id}-help" .value=${'(change this in the text)'}>`;
  }
  return f.kind === 'choice' ? choice(f, id, value ?? '', plan, set) : typed(f, id, value, set);
}

function choice(f, id, said, plan, set) {
  const choices = f.of(plan);
  const all = said === '' || choices.includes(said) ? choices : [...choices, said];
  return html`<select id=${id} aria-describedby="${id}-help" @change=${e => set(e.target.value === '' ? undefined : e.target.value)}>
    ${f.always && said !== '' ? '' : html`<option value="" .selected=${live(said === '')}>(left out)</option>`}
    ${all.map(c => html`<option value=${c} .selected=${live(c === said)}>${c}</option>`)}</select>`;
}

function typed(f, id, value, set) {
  const list = f.kind === 'list';
  const next = words => list ? words.split(',').map(p => p.trim()).filter(p => p !== '') : words.trim();
  const said = list ? (value || []).join(', ') : value ?? '';
  // While one types, a comma or a space at the end stays; nothing is taken out before the field is left.
  const field = document.getElementById(id);
  const typing = field !== null && field === document.activeElement && String(next(field.value)) === String(next(said));
  return html`<input id=${id} aria-describedby="${id}-help" autocomplete="off" .value=${live(typing ? field.value : said)}
    @input=${e => next(e.target.value).length > 0 && set(next(e.target.value))}
    @change=${e => set(next(e.target.value).length === 0 ? undefined : next(e.target.value))}>`;
}
