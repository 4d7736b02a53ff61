// One trial: where it stands, and what is next: plan, lay out, print, sow, count, open, analyse.
import {html, render} from '/assets/vendored/lit-html/lit-html.js';
import {get, send, wentWrong} from '/assets/api.js';
import {map} from '/assets/trial/map.js';

const STEPS = ['Plan', 'Lay out', 'Print and sow', 'Count', 'Open the seal', 'Analyse'];

export default {
  style: '/assets/trial/trial.css',

  async show(root, {id}, app) {
    const page = new Standing(root, id, app);
    await page.load();
  },
};

class Standing {
  constructor(root, id, app) {
    Object.assign(this, {root, id, app, lines: [], files: [], busy: false, cautions: []});
    this.address = `/api/trials/${encodeURIComponent(id)}`;
    this.here = `/trial/${encodeURIComponent(id)}`;
    this.host = app.me.role === 'host';
  }

  async load() {
    this.trial = await get(this.address);
    this.app.head(this.trial.title || this.id, this.id);
    const laid = ['laid', 'counting', 'opened'].includes(this.trial.state);
    this.rack = laid ? await get(`${this.address}/rack`) : null;
    if (this.step() === 2 && this.host) {
      const {text} = await get(`${this.address}/plan`);
      this.cautions = (await send('POST', `${this.address}/advice`, {text})).cautions ?? [];
    }
    this.draw();
  }

  step() {
    const {state, sownOn, today, opened} = this.trial;
    if (opened) {
      return 5;
    }
    if (state === 'laid' || state === 'counting') {
      const counted = this.trial.readings > 0 || sownOn;
      return !counted ? 2 : today === null && this.trial.readings > 0 ? 4 : 3;
    }
    return state === 'planned' ? 1 : 0;
  }

  /** Does something at the bench, then shows what came of it. */
  async act(path, body, told) {
    this.busy = true;
    this.draw();
    try {
      const answer = await send('POST', `${this.address}/${path}`, body);
      this.lines = answer?.lines ?? [];
      this.files = answer?.files ?? [];
      await this.load();
      this.app.tell(told);
    } catch (error) {
      this.app.tell(wentWrong(error), 'wrong');
    }
    this.busy = false;
    this.draw();
  }

  draw() {
    const {question, problems, notices, state} = this.trial;
    const now = this.step();
    render(html`
      ${question ? html`<p>${question}</p>` : ''}
      ${(problems ?? []).map(p => html`<p class="wrong">${p.sentence ?? p}</p>`)}
      ${(notices ?? []).map(n => html`<p class="warn">${n}</p>`)}
      <section class="card"><h2>Where it stands</h2><ol class="steps">${STEPS.map((s, i) => html`
        <li aria-current=${i === now ? 'step' : 'false'}>${i < now ? html`${s}: done` : i === now ? html`<strong>${s}: now</strong>` : s}</li>`)}</ol>
        <div class="row">${state === 'broken' ? html`<a class="button main" href="${this.here}/plan">See the plan</a>` : this.next(now)}</div></section>
      ${this.lines.length === 0 ? '' : html`<section class="card" aria-live="polite">${this.lines.map(l => html`<p>${l}</p>`)}</section>`}
      ${this.host && this.rack !== null ? this.sheets() : ''}
      ${this.cautions.length === 0 ? '' : html`<section class="card"><h2>Before you sow</h2><ul>${this.cautions.map(c => html`<li>${c}</li>`)}</ul></section>`}
      ${this.rack === null ? '' : map(this.rack)}
      ${this.host && this.trial.canDraw && now > 1 ? html`<details class="card"><summary>Draw the layout again</summary>${this.lay(true)}</details>` : ''}`, this.root);
  }

  next(now) {
    if (now === 3) {
      return html`<a class="button main" href="${this.here}/count">${this.app.me.role === 'look' ? 'Look at the counts' : 'Count today’s trays'}</a>`;
    }
    if (!this.host) {
      return html`<p>The next step is for the computer that the bench runs on.</p>`;
    }
    return [
      () => html`<a class="button main" href="${this.here}/plan">Write the plan</a>`,
      () => html`${this.lay(false)}<a class="button" href="${this.here}/plan">Change the plan</a>`,
      () => this.sown(),
      null,
      () => html`<a class="button main" href="${this.here}/read">Read, and open the seal</a>`,
      () => html`<a class="button main" href="${this.here}/read">Analyse and read</a>`,
    ][now]();
  }

  lay(again) {
    const submit = event => {
      event.preventDefault();
      const seed = event.target.elements.seed.value.trim();
      if (!again || confirm('The present layout and its sheets are replaced. Labels that were printed no longer hold. Draw again?')) {
        this.act('lay', seed === '' ? {} : {seed}, 'Laid out.');
      }
    };
    return html`<form @submit=${submit}><p><label for="seed">Seed, if you want the same draw again (a whole number)</label>
      <input id="seed" name="seed" inputmode="numeric" pattern="-?[0-9]+" autocomplete="off"></p>
      <button class="main" ?disabled=${this.busy}>${again ? 'Draw again' : 'Lay out'}</button></form>`;
  }

  sown() {
    const submit = event => {
      event.preventDefault();
      this.act('sown', {date: event.target.elements.date.value}, 'Kept.');
    };
    const today = new Date();
    const local = new Date(today - today.getTimezoneOffset() * 60000).toISOString().slice(0, 10);
    return html`<form @submit=${submit}><p>Print the sheets below, sow, then say when.</p>
      <p><label for="date">Sown on</label><input id="date" name="date" type="date" required .value=${local}></p>
      <button class="main" ?disabled=${this.busy}>Say that it is sown</button></form>`;
  }

  sheets() {
    const print = event => {
      event.preventDefault();
      this.act('sheets', {paper: event.target.elements.paper.value}, 'The sheets are ready.');
    };
    return html`<form class="card" @submit=${print}><h2>Sheets to print</h2>
      <p><label for="paper">Paper</label><select id="paper" name="paper"><option value="a4">A4</option><option value="letter">US Letter</option></select></p>
      <div class="row"><button ?disabled=${this.busy}>Make the sheets</button>
        ${this.files.some(f => f.endsWith('sheets.pdf')) ? html`<a class="button" href="${this.address}/files/sheets.pdf" target="_blank">Open sheets.pdf</a>` : ''}</div>
      <p class="soft">${this.app.me.shared ? 'A phone that reads the code on a label opens the page of its tray, as long as this computer keeps its address in the network.'
        : 'The codes on labels will hold the trays’ names alone. Start the bench with --share before you print, and a phone opens a tray’s page by its label.'}</p>
      <p class="soft">The key says which tray gets what. It lies in the trial’s folder as key.pdf. Only the one who sows should print
        it, and whoever counts should not see it. ${this.trial.opened ? html`<a href="${this.address}/files/key.pdf" target="_blank">key.pdf</a>` : 'Here it stays shut until the seal is opened.'}</p></form>`;
  }
}
