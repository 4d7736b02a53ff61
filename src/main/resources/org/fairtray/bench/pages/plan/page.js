// The plan of a trial: form and text side by side, always the same thing, and what can be said of it.
import {html, render} from '/assets/vendored/lit-html/lit-html.js';
import {live} from '/assets/vendored/lit-html/directives/live.js';
import {get, send} from '/assets/api.js';
import {advice} from '/assets/plan/advice.js';
import {form} from '/assets/plan/form.js';
import {read} from '/assets/plan/text.js';

const PAUSE = 500;
const LEAVE = 'There are changes that aren’t saved. Leave anyway? They stay in this browser.';

export default {
  style: '/assets/plan/plan.css',

  async show(root, {id}, app) {
    app.head('Plan', id, 'plan');
    const held = await get(`/api/trials/${encodeURIComponent(id)}/plan`);
    return new Planner(root, id, app, held).begin();
  },
};

/** Keeps the text, which is the truth, and draws everything else from it. */
class Planner {
  constructor(root, id, app, held) {
    Object.assign(this, {root, id, app, held, text: held.text, said: null, asked: 0, theirs: null, busy: false});
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
    const within = event => {
      const link = event.target.closest?.('a[href]');
      if (link && !link.target && this.unsaved() && !confirm(LEAVE)) {
        event.preventDefault();
        event.stopImmediatePropagation();
      }
    };
    document.addEventListener('click', within, true);
    this.ask();
    this.draw();
    return () => {
      clearTimeout(this.waiting);
      this.asked++;
      window.removeEventListener('beforeunload', leaving);
      document.removeEventListener('click', within, true);
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
    try {
      const said = await send('POST', `${this.address}/advice`, {text: this.text});
      if (number === this.asked) {
        this.said = said;
        this.draw();
      }
    } catch (error) {
      if (number === this.asked) {
        this.app.tell(error.message, 'wrong');
      }
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

  toLine(line) {
    const area = this.root.querySelector('#plan-text');
    const lines = this.text.split('\n');
    const from = lines.slice(0, line - 1).reduce((sum, l) => sum + l.length + 1, 0);
    area.focus();
    area.setSelectionRange(from, from + (lines[line - 1] ?? '').length);
    area.scrollTop = area.scrollHeight * (line - 3) / lines.length;
  }

  draw() {
    const readable = read(this.text) !== null;
    render(html`
      ${this.draft === null ? '' : this.offer()}${this.theirs === null ? '' : this.both()}
      <div class="planner">
        <div><h2>Form</h2>
          <p class="soft">The form and the text are the same plan. The form keeps remarks and what it doesn’t know; in a list
            that it changes, spaces and line breaks may become others.</p>
          ${readable ? '' : html`<p class="warn">The text can’t be read at the moment. Mend it there; then the form goes on.</p>`}
          <fieldset class="all" aria-label="The parts of the plan" ?disabled=${!readable}>
            ${form(this.plan, edit => this.change(edit(this.text)))}</fieldset></div>
        <div><h2><label for="plan-text">Text of plan.yaml</label></h2>
          <textarea id="plan-text" spellcheck="false" autocapitalize="off" .value=${live(this.text)}
            @input=${e => this.change(e.target.value)}></textarea>
          <div>${advice(this.said, line => this.toLine(line))}</div></div>
      </div>
      <div class="save row"><button type="button" class="main" ?disabled=${this.busy || !this.unsaved()} @click=${() => this.save()}>Save the plan</button>
        <span>${this.unsaved() ? 'Not saved yet.' : 'Saved.'} ${wrong(this.said)}</span></div>`, this.root);
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

function wrong(said) {
  const number = said?.problems.length ?? 0;
  return number === 0 ? '' : number === 1 ? 'One thing is wrong.' : `${number} things are wrong.`;
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
