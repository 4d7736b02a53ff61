// The photos of a trial, and which of them stand in the report.
import {html, nothing} from '/assets/vendored/lit-html/lit-html.js';
import {live} from '/assets/vendored/lit-html/directives/live.js';

/** `choose` is given {file, shown, words}; null for those who may not choose. */
export function photos(address, all, shown, choose) {
  return all.length === 0 ? nothing : html`<section class="card"><h2>Photos</h2>
    <p class="soft">They lie in the trial’s folder, in photos. The report shows those that are chosen here, made small, each with
      what its tray got; place and time that a camera may have written into them are left out.
      ${choose ? 'A change is in the report when you analyse again.' : ''}</p>
    <ul class="photos">${all.map((photo, i) => one(address, photo, i, shown.find(each => each.file === photo.file), choose))}</ul></section>`;
}

function one(address, photo, i, chosen, choose) {
  const source = `${address}/photos/${encodeURIComponent(photo.file)}`;
  const about = `Tray ${photo.tray}, day ${photo.day}`;
  return html`<li><a href=${source} target="_blank"><img loading="lazy" src=${source} alt="${about}, taken by ${photo.by}"></a>
    <p>${about}, by ${photo.by}</p>
    ${choose ? html`<label><input type="checkbox" .checked=${live(chosen !== undefined)} aria-label="Show in the report: ${about}"
        @change=${e => choose({file: photo.file, shown: e.target.checked})}>Show in the report</label>
      ${chosen ? html`<label class="words" for="words-${i}">What there is to see</label>
        <input id="words-${i}" maxlength="500" autocomplete="off" .value=${live(chosen.words)}
          @change=${e => choose({file: photo.file, shown: true, words: e.target.value})}>` : nothing}`
      : chosen ? html`<p><strong>In the report.</strong> ${chosen.words}</p>` : nothing}</li>`;
}
