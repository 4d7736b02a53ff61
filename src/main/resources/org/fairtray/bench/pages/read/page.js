// Reading a trial: how counts came on, the seal, the photos, what came out, and what to try next.
import {html, render} from '/assets/vendored/lit-html/lit-html.js';
import {get, send, wentWrong} from '/assets/api.js';
import {curves} from '/assets/read/curves.js';
import {leftWords} from '/assets/read/left.js';
import {sharing} from '/assets/read/pack.js';
import {photos} from '/assets/read/photos.js';

const LAID = ['laid', 'counting', 'opened'];

export default {
  style: '/assets/read/read.css',

  async show(root, {id}, app) {
    const page = new Reading(root, id, app);
    await page.load();
  },
};

class Reading {
  constructor(root, id, app) {
    Object.assign(this, {root, id, app, busy: '', analysis: null, next: null, pack: null, folder: false, made: 0});
    this.address = `/api/trials/${encodeURIComponent(id)}`;
    this.here = `/trial/${encodeURIComponent(id)}`;
    this.host = app.me.role === 'host';
  }

  async load() {
    this.trial = await get(this.address);
    this.app.head(this.trial.title || this.id, this.id, 'read');
    if (LAID.includes(this.trial.state)) {
      [this.count, this.progress, {photos: this.shown}] = await Promise.all(
        [get(`${this.address}/count`), get(`${this.address}/curves`), this.shownPhotos()]);
    }
    if (this.host) {
      this.folder = (await get('/api/trials')).folder;
    }
    this.draw();
  }

  /** Which photos the report shows; a broken photos.csv is told, and hides nothing else. */
  async shownPhotos() {
    try {
      return await get(`${this.address}/shown-photos`);
    } catch (error) {
      this.app.tell(wentWrong(error), 'wrong');
      return {photos: []};
    }
  }

  /** Does something while the page says that it is being done, and tells what went wrong. */
  async act(what, work) {
    this.busy = what;
    this.draw();
    try {
      await work();
    } catch (error) {
      this.app.tell(wentWrong(error), 'wrong');
    }
    this.busy = '';
    this.draw();
  }

  draw() {
    if (!LAID.includes(this.trial.state)) {
      render(html`<p>There is nothing to read yet: the trial has no layout. <a href=${this.here}>See what is next</a>.</p>`, this.root);
      return;
    }
    render(html`
      ${(this.trial.problems ?? []).map(p => html`<p class="wrong">${p.sentence ?? p}</p>`)}
      ${this.report()}
      ${this.whatNext()}
      ${this.share()}
      ${this.seal()}
      <p class="warn">${this.progress.warning}</p>
      ${curves(this.address, this.progress)}
      ${this.photos()}`, this.root);
  }

  seal() {
    const {opened, openedAt, countedAfterOpening: after} = this.trial;
    if (opened) {
      return html`<section class="card"><h2>The seal is open</h2>
        <p>${openedAt ? `It was opened on ${when(openedAt)}. ` : ''}${after > 0
          ? `${after === 1 ? '1 count was' : `${after} counts were`} written after that, when it could be known which tray got what.`
          : 'Nothing was counted after that.'}</p></section>`;
    }
    return html`<section class="card"><h2>The seal</h2>
      <p>Until you open the seal, nobody at the bench sees which tray got what, so hopes can’t sway the counts.
        After that you see the treatments, and the trial can be analysed. It can’t be closed again.</p>
      ${this.host ? html`<button type="button" class="main" ?disabled=${this.busy !== ''} @click=${() => this.ask()}>Open the seal</button>${this.dialog()}`
        : html`<p>It is opened at the computer that the bench runs on.</p>`}</section>`;
  }

  async ask() {
    await this.act('seal', async () => {
      this.count = await get(`${this.address}/count`);
    });
    this.root.querySelector('dialog')?.showModal();
  }

  dialog() {
    const close = () => this.root.querySelector('dialog').close();
    const open = () => {
      close();
      this.act('seal', async () => {
        await send('POST', `${this.address}/open`, {});
        await this.load();
        this.app.tell('The seal is open.');
      });
    };
    const left = leftWords(this.count);
    return html`<dialog aria-labelledby="sure"><h2 id="sure">Open the seal for good?</h2>
      ${left.length === 0 ? html`<p>Every tray has been counted on every day of the plan.</p>` : html`
        <p>This stays to do. Counts that come later are not blind. This page will say how many there were.</p>
        <ul>${left.map(l => html`<li>${l}</li>`)}</ul>`}
      <p>When it was opened is kept. It can’t be closed again.</p>
      <div class="row"><button type="button" @click=${close}>Leave it shut</button>
        <button type="button" class="main" @click=${open}>Open it for good</button></div></dialog>`;
  }

  report() {
    const {opened, analysed} = this.trial;
    if (!opened) {
      return '';
    }
    const runs = this.busy === 'analyse';
    return html`<section class="card" aria-busy=${runs}><h2>What came out</h2>
      ${this.host ? html`<div class="row"><button type="button" class=${analysed ? '' : 'main'} ?disabled=${this.busy !== ''} @click=${() => this.analyse()}>
        ${analysed ? 'Analyse again' : 'Analyse'}</button></div>` : analysed ? '' : html`<p>It is analysed at the computer that the bench runs on.</p>`}
      <p role="status">${runs ? 'It runs. A big trial takes a minute or more.' : ''}</p>
      ${this.count.conflicts.length === 0 ? '' : html`<p class="warn">People differ about a figure. <a href="${this.here}/count">Settle it first</a>.</p>`}
      ${this.analysis === null ? '' : this.verdicts(this.analysis)}
      ${analysed ? this.written() : ''}</section>`;
  }

  analyse() {
    return this.act('analyse', async () => {
      this.analysis = await send('POST', `${this.address}/analyse`, {});
      this.made++;
      this.next = null;
      this.pack = null;
      await this.load();
    });
  }

  verdicts({outcomes, warnings, lines}) {
    return html`
      ${(warnings ?? []).map(w => html`<p class="warn">${w}</p>`)}
      ${(outcomes ?? []).map(o => html`<h3>${o.name}, day ${o.day}</h3>
        <ul>${o.verdicts.map(v => html`<li><strong>${v.factor}: ${v.verdict}.</strong> ${v.sentence}</li>`)}</ul>`)}
      ${(lines ?? []).length === 0 ? '' : html`<details><summary>What was written</summary>${lines.map(l => html`<p>${l}</p>`)}</details>`}`;
  }

  written() {
    const files = `${this.address}/files`;
    return html`<div class="row"><a class="button" href="${files}/report.html" target="_blank">Open the report alone</a>
        ${['report.html', 'readings.csv', 'results.json'].map(f => html`<a class="button" href="${files}/${f}" download=${f}>Save ${f}</a>`)}</div>
      <p class="soft">To print it, open the report alone.</p>
      <iframe class="report-frame" src="${files}/report.html?made=${this.made}" title="The report of ${this.trial.title || this.id}"></iframe>`;
  }

  whatNext() {
    if (!this.trial.opened || !this.trial.analysed || !this.host) {
      return '';
    }
    const ask = () => this.act('next', async () => {
      this.next = await send('POST', `${this.address}/next`, {});
    });
    return html`<section class="card" aria-busy=${this.busy === 'next'}><h2>What next</h2>
      <button type="button" ?disabled=${this.busy !== ''} @click=${ask}>Plan the trial after this one</button>
      <p role="status">${this.busy === 'next' ? 'It is being worked out.' : ''}</p>
      ${this.next === null ? '' : html`${this.next.lines.map(l => html`<p>${l}</p>`)}${this.next.plan === null ? '' : this.begin()}`}</section>`;
  }

  share() {
    if (!this.trial.opened || !this.trial.analysed || !this.host) {
      return '';
    }
    return sharing(this.address, this.pack, this.busy, () => this.act('pack', async () => {
      this.pack = await get(`${this.address}/pack`);
    }));
  }

  begin() {
    const make = event => {
      event.preventDefault();
      const name = event.target.elements.name.value.trim();
      this.act('begin', async () => {
        const {id} = await send('POST', '/api/trials', {name, plan: this.next.plan});
        this.app.go(`/trial/${encodeURIComponent(id)}/plan`);
      });
    };
    return html`<details open><summary>Its plan</summary><pre class="plan-text" tabindex="0">${this.next.plan}</pre></details>
      ${this.folder ? html`<form @submit=${make}><p><label for="name">Name of its folder</label>
        <input id="name" name="name" required autocomplete="off"></p>
        <button class="main" ?disabled=${this.busy !== ''}>Begin this trial</button></form>`
        : html`<p class="soft">To begin it, save this text as plan.yaml in a new folder.</p>`}`;
  }

  photos() {
    const choose = this.host ? chosen => this.act('photo', async () => {
      this.shown = (await send('PUT', `${this.address}/shown-photos`, chosen)).photos;
    }) : null;
    return photos(this.address, this.count.photos, this.shown, choose);
  }
}

function when(time) {
  return new Date(time).toLocaleString('en-GB', {dateStyle: 'long', timeStyle: 'short'});
}
