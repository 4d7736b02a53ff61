// The trial as one file to share: what stays at home is said before anyone can take it.
import {html, nothing} from '/assets/vendored/lit-html/lit-html.js';

/** `pack` is {name, leftOut, never, notices}, or null until someone asks; `ask` asks. */
export function sharing(address, pack, busy, ask) {
  return html`<section class="card" aria-busy=${busy === 'pack'}><h2>The pack to share</h2>
    <p>One file with plan, layout, counts, results and report, for another farm or for advice. Who counted, notes, times of day and photos are left out.</p>
    ${pack === null ? html`<button type="button" ?disabled=${busy !== ''} @click=${ask}>See what is left out</button>` : contents(address, pack)}
    <p role="status">${busy === 'pack' ? 'It is being looked through.' : ''}</p></section>`;
}

function contents(address, {name, leftOut, never, notices}) {
  return html`${leftOut.length === 0 ? html`<p>Nothing personal was found beside the counts.</p>` : html`
      <p>Left out:</p><ul>${leftOut.map(what => html`<li>${what}</li>`)}</ul>`}
    <p>Never in a pack: ${never}</p>
    ${notices.length === 0 ? nothing : notices.map(notice => html`<p>${notice}</p>`)}
    <div class="row"><a class="button" href="${address}/pack.zip" download=${name}>Save ${name}</a></div>
    <p class="soft">The results and the report in it are made anew, which takes as long as an analysis.</p>`;
}
