// Where two people gave different figures, and where the bench refused one: both are shown until a person decides.
import {html, nothing} from '/assets/vendored/lit-html/lit-html.js';

export function conflictCards(state, actions, conflicts) {
  return conflicts.map(each => {
    const place = `${each.tray}, day ${each.day}${state.sheet.frames > 1 ? `, frame ${each.frame}` : ''}, ${each.column}`;
    const other = event => {
      event.preventDefault();
      actions.settle(each, new FormData(event.target).get('figure').trim());
    };
    return html`<section class="warn needs"><h3>▲ ${place}: two figures</h3>
      <p>${said(each.held)}.<br>${said(each.offered)}.</p>
      ${actions.may ? html`<div class="row">
        ${[each.held, each.offered].map(figure => html`<button type="button" @click=${() => actions.settle(each, figure.value)}>
          ${figure.value || 'Empty'} is right</button>`)}</div>
        <form class="row" @submit=${other}><label>Another figure
          <input name="figure" inputmode="decimal" autocomplete="off" size="6" required></label><button>Use it</button></form>`
    : nothing}</section>`;
  });
}

export function refusedCards(state, actions) {
  return state.refused.map(({id, body, reason}) => html`<section class="wrong needs">
    <h3>▲ ${body.tray}, day ${body.day}: the bench refused a count</h3>
    <p>${given(body)}. ${reason}</p>
    <div class="row"><button type="button" @click=${() => actions.mend(body)}>Mend it</button>
    <button type="button" @click=${() => actions.throwAway(id, body)}>Throw it away</button></div></section>`);
}

function given({values, note, sown}) {
  return Object.entries({...values, ...(sown === undefined ? {} : {'seeds sown': sown || 'as planned'}),
    ...(note === undefined ? {} : {note})}).map(([name, value]) => `${name} ${value || 'empty'}`).join(', ');
}

function said({value, by, time}) {
  const who = by === 'readings.csv' ? 'The spreadsheet readings.csv says' : `${by || 'Someone'} counted`;
  const when = time ? new Date(time) : null;
  return `${who} ${value || 'nothing'}${when && when.getTime() > 0 ? ` (${when.toLocaleString([], {
    day: 'numeric', month: 'short', hour: '2-digit', minute: '2-digit', hour12: false})})` : ''}`;
}
