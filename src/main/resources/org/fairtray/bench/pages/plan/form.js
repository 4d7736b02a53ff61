// The form over the plan: one fieldset for each part; every change goes through the text.
import {html} from '/assets/vendored/lit-html/lit-html.js';
import {live} from '/assets/vendored/lit-html/directives/live.js';
import {PARTS} from '/assets/plan/parts.js';
import {changed, listed} from '/assets/plan/text.js';

/** The form of a plan; `edit` takes the text's next state from its present one. */
export function form(plan, edit) {
  return PARTS.map((part, number) => html`<fieldset class="card part"><legend>${part.title}</legend>
    ${part.help ? html`<p class="soft">${part.help}</p>` : ''}
    ${part.key ? items(part, number, plan, edit) : html`<div class="fields">
      ${(part.each?.(plan) ?? part.fields).map((f, i) => field(f, [], `f${number}-${i}`, plan, edit))}</div>`}
  </fieldset>`);
}

function items(part, number, plan, edit) {
  const list = Array.isArray(plan[part.key]) ? plan[part.key] : [];
  // Where the keyboard was stays in sight: on the item that moved, on a new one, or on the button that adds one.
  const set = (change, then) => {
    edit(text => listed(text, [part.key], change));
    (document.getElementById(then) ?? document.getElementById(`f${number}-add`))?.focus();
  };
  return html`${list.map((item, i) => html`<fieldset class="item"><legend>${part.one} ${i + 1}${item?.name ? `: ${item.name}` : ''}</legend>
      <div class="fields">${(part.each?.(plan) ?? part.fields).map((f, j) => field(f, [part.key, i], `f${number}-${i}-${j}`, plan, edit))}</div>
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
  const value = path.reduce((at, key) => at?.[key], plan);
  const set = next => edit(text => changed(text, path, next));
  return html`<div class="field ${f.wide ? 'wide' : ''}"><label for=${id}>${f.label}</label>${entry(f, id, value, plan, set)}<small id="${id}-help" class="soft">${f.help}</small></div>`;
}

function entry(f, id, value, plan, set) {
  if (f.kind === 'choice') {
    const choices = f.of(plan);
    const said = value === undefined ? '' : String(value);
    const all = said === '' || choices.includes(said) ? choices : [...choices, said];
    return html`<select id=${id} aria-describedby="${id}-help" @change=${e => set(e.target.value === '' ? undefined : e.target.value)}>
      <option value="" .selected=${live(said === '')}>(left out)</option>
      ${all.map(c => html`<option value=${c} .selected=${live(c === said)}>${c}</option>`)}</select>`;
  }
  const list = f.kind === 'list';
  const parts = list && Array.isArray(value) ? value.map(String) : [];
  if (parts.some(p => p.includes(',')) || (value !== undefined && !list && typeof value !== 'string')) {
    return html`<input id=${id} disabled .value=${'(change this in the text)'}>`;
  }
  const said = list ? parts.join(', ') : value ?? '';
  const next = typed => list ? typed.split(',').map(p => p.trim()).filter(p => p !== '') : typed.trim();
  return html`<input id=${id} aria-describedby="${id}-help" autocomplete="off" .value=${live(said)}
    @change=${e => set(next(e.target.value).length === 0 ? undefined : next(e.target.value))}>`;
}
