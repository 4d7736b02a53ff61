// The plan of a trial: form and text side by side, always the same thing, and what can be said of it.
import {html, render} from '/assets/vendored/lit-html/lit-html.js';
import {live} from '/assets/vendored/lit-html/directives/live.js';
import {get, send} from '/assets/api.js';
import {advice, inOneLine} from '/assets/plan/advice.js';
import {TITLES, form} from '/assets/plan/form.js';
import {read} from '/assets/plan/text.js';

const PAUSE = 500;
const PATIENCE = 1500;
const SLOW = 'Still being worked out; type on. What is said here is of the plan before.';
const WIDE = '(min-width: 60rem)';
const LEAVE = 'There are changes that aren’t saved. Leave anyway? They stay in this browser.';

// What saving would come to, where more has been done with the plan already.
const STATES = {
  laid: 'A layout was drawn from this plan. If you change the plan, draw the layout again before sowing.',
  counting: 'Counting has begun, so this plan can’t be changed any more. Begin another trial for another plan.',
  opened: 'Counting has begun, so this plan can’t be changed any more. Begin another trial for another plan.',
};

export default {
  style: '/assets/plan/plan.css',

  async show(root, {id}, app) {
    app.head('Plan', id, 'plan');
    const address = `/api/trials/${encodeURIComponent(id)}`;
    const [held, {state}] = await Promise.all([get(`${address}/plan`), get(address)]);
    return new Planner(root, id, app, held, state).begin();
  },
};

/** Keeps the text, which is the truth, and draws everything else from it. */
class Planner {
  constructor(root, id, app, held, state) {
    Object.assign(this, {root, id, app, held, state, text: held.text, said: null, asked: 0, theirs: null, busy: false, slow: false});
    this.open = new Set();
    // On a phone the form and the advice come first.
    this.textOpen = matchMedia(WIDE).matches;
    this.draftName = `plan draft of ${id}`;
    this.address = `/api/trials/${encodeURIComponent(id)}`;
    this.plan = read(this.text) ?? {};
    this.draft = draftOf(this.draftName);
    if (this.draft === this.text) {
      this.draft = null;
    }
  }

  begin() {
    const leaving = event => this.unsaved() && event.preventDefault();
    window.addEventListener('beforeunload', leaving);
    this.app.mayLeave = () => !this.unsaved() || confirm(LEAVE);
    this.ask();
    this.draw();
    return () => {
      clearTimeout(this.waiting);
      this.asked++;
      window.removeEventListener('beforeunload', leaving);
    };
  }

  unsaved() {
    return this.text !== this.held.text;
  }

  change(text) {
    this.text = text;
    this.plan = read(text) ?? this.plan;
    keep(this.draftName, this.unsaved() ? text : null);
    clearTimeout(this.waiting);
    this.waiting = setTimeout(() => this.ask(), PAUSE);
    this.draw();
  }

  /** Asks what can be said; an answer to an older text is dropped. */
  async ask() {
    const number = ++this.asked;
    const text = this.text;
    const patience = setTimeout(() => this.isSlow(number), PATIENCE);
    try {
      const said = await send('POST', `${this.address}/advice`, {text});
      if (number === this.asked) {
        Object.assign(this, {said, saidOf: text, slow: false});
        this.draw();
      }
    } catch (error) {
      if (number === this.asked) {
        this.app.tell(error.message, 'wrong');
      }
    } finally {
      clearTimeout(patience);
    }
  }

  isSlow(number) {
    if (number === this.asked) {
      this.slow = true;
      this.draw();
    }
  }

  async save() {
    this.busy = true;
    this.draw();
    const text = this.text;
    try {
      const {sha256} = await send('PUT', `${this.address}/plan`, {text, sha256: this.held.sha256});
      this.held = {text, sha256};
      this.theirs = null;
      keep(this.draftName, this.unsaved() ? this.text : null);
      this.app.tell('Saved.');
    } catch (error) {
      this.app.tell(error.message, 'wrong');
      if (error.status === 409) {
        const now = await get(`${this.address}/plan`).catch(() => null);
        this.theirs = now && now.text !== this.held.text ? now : null;
      }
    }
    this.busy = false;
    this.draw();
  }

  /** What is saved now counts as what was loaded; nothing is written. */
  settle(text) {
    this.held = this.theirs;
    this.theirs = null;
    this.change(text);
  }

  turn(title, open) {
    this.open[open ? 'add' : 'delete'](title);
    this.draw();
  }

  turnAll() {
    this.open = new Set(this.allOpen() ? [] : TITLES);
    this.draw();
  }

  allOpen() {
    return this.open.size === TITLES.length;
  }

  turnText(open) {
    this.textOpen = open;
    this.draw();
  }

  toLine(line) {
    this.turnText(true);
    const area = this.root.querySelector('#plan-text');
    const lines = this.text.split('\n');
    const from = lines.slice(0, line - 1).reduce((sum, l) => sum + l.length + 1, 0);
    area.focus();
    area.setSelectionRange(from, from + (lines[line - 1] ?? '').length);
    area.scrollTop = area.scrollHeight * (line - 3) / lines.length;
  }

  toAdvice() {
    const found = this.root.querySelector('#advice');
    found.focus({preventScroll: true});
    found.scrollIntoView();
  }

  draw() {
    const readable = read(this.text) !== null;
    const stale = this.saidOf !== this.text;
    render(html`
      ${this.draft === null ? '' : this.offer()}${this.theirs === null ? '' : this.both()}
      ${STATES[this.state] ? html`<p class="warn">${STATES[this.state]}</p>` : ''}
      <div class="planner">
        <section class="form" aria-labelledby="form-head"><div class="row"><h2 id="form-head">Form</h2>
            <button type="button" ?disabled=${!readable} @click=${() => this.turnAll()}>${this.allOpen() ? 'Fold all parts' : 'Open all parts'}</button></div>
          <p class="soft">Form and text are the same plan. Remarks and what the form doesn’t know are kept; in a list that
            the form changes, spaces and line breaks may become others.</p>
          ${readable ? '' : html`<p class="warn">The text can’t be read at the moment. Mend it there; then the form goes on.</p>`}
          <fieldset class="all" aria-label="The parts of the plan" ?disabled=${!readable}>
            ${form(this.plan, this.open, (title, open) => this.turn(title, open), edit => this.change(edit(this.text)))}</fieldset></section>
        <section class="advice" id="advice" tabindex="0" aria-labelledby="advice-head" aria-busy=${stale}>
          <div class="row"><h2 id="advice-head">Advice</h2></div>
          ${this.slow ? html`<p class="soft">${SLOW}</p>` : ''}
          ${advice(this.said, this.plan, line => this.toLine(line))}</section>
        <details class="card text" ?open=${this.textOpen} @toggle=${e => this.turnText(e.target.open)}>
          <summary><strong id="text-head">Text of plan.yaml</strong></summary>
          <textarea id="plan-text" aria-labelledby="text-head" spellcheck="false" autocapitalize="off" .value=${live(this.text)}
            @input=${e => this.change(e.target.value)}></textarea></details>
        <pre class="printed">${this.text}</pre>
      </div>
      <div class="save"><div class="row"><button type="button" class="main" ?disabled=${this.busy || !this.unsaved()} @click=${() => this.save()}>Save the plan</button>
        <button type="button" class="to-advice" @click=${() => this.toAdvice()}>See the advice</button></div>
        <p>${this.unsaved() ? html`<strong>Not saved yet.</strong> ` : ''}<span aria-live="polite">${this.slow ? SLOW : inOneLine(this.said)}</span></p></div>`, this.root);
  }

  offer() {
    const take = text => {
      this.draft = null;
      this.change(text);
    };
    return html`<div class="warn"><p>This browser kept changes to this plan that were not saved.</p><div class="row">
      <button type="button" @click=${() => take(this.draft)}>Go on with them</button>
      <button type="button" @click=${() => take(this.text)}>Throw them away</button></div></div>`;
  }

  both() {
    return html`<section class="wrong"><h2>Someone else saved this plan meanwhile</h2>
      <p>Nothing was overwritten. Theirs is here, yours is in the text below.</p>
      <div class="planner texts"><label>Theirs<textarea readonly .value=${this.theirs.text}></textarea></label>
        <label>Yours<textarea readonly .value=${this.text}></textarea></label></div>
      <div class="row"><button type="button" @click=${() => this.settle(this.theirs.text)}>Take theirs</button>
        <button type="button" @click=${() => this.settle(this.text)}>Keep mine to save over it</button></div></section>`;
  }
}

function draftOf(name) {
  try {
    return localStorage.getItem(name);
  } catch {
    return null;
  }
}

function keep(name, text) {
  try {
    if (text === null) {
      localStorage.removeItem(name);
    } else {
      localStorage.setItem(name, text);
    }
  } catch {
    // A browser that keeps nothing still asks before leaving.
  }
}
