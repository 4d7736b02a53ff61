// The number pad, with a big minus and plus at its sides; and what keys do.
import {html} from '/assets/vendored/lit-html/lit-html.js';

export function pad(field, actions) {
  const key = (text, name, act) => html`<button type="button" aria-label=${name} @click=${act}>${text}</button>`;
  const digit = text => key(text, text, () => actions.type(text));
  const measure = field.column.kind === 'measure';
  return html`
    <p class="hears">${actions.hears()} <b>${field.text || 'not read'}</b></p>
    <div class="pad">
      <button type="button" class="step minus" aria-label="One less" @click=${() => actions.step(-1)}>−</button>
      <div class="keys">${[...'123456789'].map(digit)}
        ${measure ? key('.', 'Point', () => actions.type('.')) : key('empty', 'Empty: not read', actions.empty)}
        ${digit('0')}${key('⌫', 'Delete the last digit', actions.rub)}</div>
      <button type="button" class="step plus" aria-label="One more" @click=${() => actions.step(1)}>+</button>
    </div>`;
}

/** What a key does on a tray; false where it's not ours. */
export function press(event, actions) {
  const elsewhere = event.target.closest?.('textarea, select, input:not([id^=figure-])');
  if (event.ctrlKey || event.metaKey || event.altKey || event.isComposing || elsewhere) {
    return false;
  }
  const acts = event.target.closest?.('button, a, summary');
  if (/^[0-9.,]$/.test(event.key)) {
    actions.type(event.key.replace(',', '.'));
  } else if (event.key === '+' || event.key === '-') {
    actions.step(event.key === '+' ? 1 : -1);
  } else if (event.key === 'ArrowDown' || event.key === 'ArrowUp') {
    actions.move(event.key === 'ArrowDown' ? 1 : -1);
  } else if (event.key === 'Backspace') {
    actions.rub();
  } else if (event.key === 'Enter' && !acts) {
    actions.save();
  } else {
    return false;
  }
  event.preventDefault();
  return true;
}
