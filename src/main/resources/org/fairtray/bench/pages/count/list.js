// Today's trays in walking order, the day, and when the trays were sown.
import {html, nothing} from '/assets/vendored/lit-html/lit-html.js';
import * as rules from '/assets/count/rules.js';
import {conflictCards, refusedCards} from '/assets/count/conflicts.js';

const MARKS = {needs: ['▲', 'needs you'], waiting: ['↑', 'not sent yet'], done: ['●', 'done'], part: ['◐', 'part'], open: ['○', 'to do']};

/** The day, always said, and what is left of it. */
export function dayBar(state, actions) {
  const {sheet, day, today} = state;
  const left = day == null ? 0 : state.left().length;
  const pace = rules.pace(state.seconds, left);
  return html`<section class="daybar" aria-label="The day">
    <label><span>Counting </span><select @change=${event => actions.choose(Number(event.target.value))}>
      ${day == null ? html`<option value="" selected>choose the day</option>` : nothing}
      ${sheet.days.map(each => html`<option value=${each} .selected=${each === day}>day ${each}${each === today ? ' (today)' : ''}</option>`)}
    </select></label>
    ${day == null ? nothing : html`<p><b>${left} of ${sheet.trays.length}</b> trays left${pace ? html`<br>${pace}` : nothing}</p>`}
  </section>
  ${day !== null && today !== null && today !== undefined && day !== today && actions.askDay() ? html`<section class="warn" role="alert">
    <p>The bench says that today is day ${today}. You are counting day ${day}.</p>
    <div class="row"><button type="button" @click=${() => actions.choose(today)}>Go on with day ${today}</button>
    <button type="button" @click=${actions.stay}>Stay with day ${day}</button></div></section>` : nothing}`;
}

export function listView(state, actions) {
  const day = state.day;
  return html`
    ${state.sownOn ? nothing : sownPart(state, actions)}
    ${day == null ? html`<p class="warn">${state.todayWhy} Choose the day that you count.</p>` : nothing}
    ${refusedCards(state, actions)}
    ${conflictCards(state, actions, state.conflicts)}
    ${day == null ? nothing : html`<h2>Trays of day ${day}</h2>
      <ol class="trays">${rules.walked(state.sheet, day).map(({tray, where}) => item(state, tray, where, actions))}</ol>
      <div class="thumb go">
        ${state.undo && actions.may ? html`<button type="button" @click=${actions.undo}>Undo ${state.undo.tray}</button>` : nothing}
        <button type="button" class="main" @click=${actions.start}>
        ${state.left().length === 0 ? 'All trays are counted' : `Count ${state.left()[0] === undefined ? '' : actions.first()}`}</button></div>`}`;
}

function item(state, tray, where, actions) {
  const [shape, words] = MARKS[state.mark(tray)];
  const cells = rules.frames(state.sheet).map(frame => state.at(tray, state.day, frame)).filter(Boolean);
  const figures = cells.length === 0 ? '' : rules.wanted(state.sheet, state.day)
    .map(column => `${column.name} ${cells.map(cell => cell.values[column.name] ?? '–').join(' / ')}`).join(', ');
  return html`<li><a href=${actions.link(tray)}><span class="shape" aria-hidden="true">${shape}</span>
    <span class="which"><b>${tray}</b> ${where}<small>${figures}</small></span><span class="state">${words}</span></a></li>`;
}

function sownPart(state, actions) {
  if (!actions.may) {
    return html`<p class="warn">Nobody has said when the trays were sown. Someone who counts can say it.</p>`;
  }
  const send = event => {
    event.preventDefault();
    actions.sown(new FormData(event.target).get('date'));
  };
  return html`<section class="card"><h2>When were the trays sown?</h2>
    <div class="row"><button type="button" @click=${() => actions.sown(date(0))}>Today</button>
    <button type="button" @click=${() => actions.sown(date(1))}>Yesterday</button></div>
    <form class="row" @submit=${send}><label>Another date <input type="date" name="date" max=${date(0)} required></label>
    <button>Use it</button></form></section>`;
}

function date(daysAgo) {
  const day = new Date();
  day.setDate(day.getDate() - daysAgo);
  return [day.getFullYear(), day.getMonth() + 1, day.getDate()].map(part => String(part).padStart(2, '0')).join('-');
}
