// Photos of a tray: made smaller on the phone, which also drops where they were taken.
import {html, nothing} from '/assets/vendored/lit-html/lit-html.js';
import {keepPhoto, outbox} from '/assets/count/sender.js';

const LONGEST = 1600;

export function photoPart(state, open, actions) {
  const there = state.photos.filter(each => each.tray === open.tray && each.day === open.day);
  const waiting = outbox.photos.filter(each => each.trial === state.trial && each.tray === open.tray && each.day === open.day);
  return html`<div class="photos">
    ${actions.may ? html`<label class="button">Take a photo<input class="unseen" type="file" accept="image/*" capture="environment"
      @change=${event => take(event, state, open, actions)}></label>` : nothing}
    ${there.map(each => html`<a href="/api/trials/${encodeURIComponent(state.trial)}/photos/${encodeURIComponent(each.file)}"
      target="_blank" rel="noopener">Photo by ${each.by}</a>`)}
    ${waiting.map(each => html`<span>${each.state === 'refused' ? `Photo refused: ${each.reason}` : 'Photo waits on this phone'}</span>
      ${each.state === 'refused' ? html`<button type="button" @click=${() => actions.dropPhoto(each.id)}>Throw the photo away</button>` : nothing}`)}
  </div>`;
}

async function take(event, state, open, actions) {
  const file = event.target.files[0];
  event.target.value = '';
  if (!file) {
    return;
  }
  try {
    await keepPhoto({trial: state.trial, tray: open.tray, day: open.day, blob: await smaller(file)});
    actions.tell(`The photo of ${open.tray} is kept.`);
  } catch (error) {
    actions.tell(`The photo can't be used: ${error.message}`, 'wrong');
  }
}

async function smaller(file) {
  const image = new Image();
  image.src = URL.createObjectURL(file);
  try {
    await image.decode();
    const scale = Math.min(1, LONGEST / Math.max(image.naturalWidth, image.naturalHeight));
    const canvas = document.createElement('canvas');
    canvas.width = Math.max(1, Math.round(image.naturalWidth * scale));
    canvas.height = Math.max(1, Math.round(image.naturalHeight * scale));
    canvas.getContext('2d').drawImage(image, 0, 0, canvas.width, canvas.height);
    return await new Promise((done, fail) => canvas.toBlob(
      blob => blob ? done(blob) : fail(new Error('it is no picture.')), 'image/jpeg', 0.85));
  } finally {
    URL.revokeObjectURL(image.src);
  }
}
