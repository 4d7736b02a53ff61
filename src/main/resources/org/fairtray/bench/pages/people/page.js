// Who is at the bench: pair a phone, give helpers a link to look, send somebody away.
import {html, render} from '/assets/vendored/lit-html/lit-html.js';
import {get, send} from '/assets/api.js';

const ROLES = {host: 'this computer, may do everything', count: 'may count, take photos and read', look: 'may only look'};

export default {
  style: '/assets/people/people.css',

  async show(root, params, app) {
    app.head('People');
    if (app.me.role !== 'host') {
      render(html`<section class="card"><p>You are here as <strong class="who">${app.me.name}</strong>: ${ROLES[app.me.role] ?? app.me.role}. People are let in at the computer that the bench runs on.</p>
        <p><a class="button" href="/pair">Join under another name</a></p></section>`, root);
      return undefined;
    }
    const page = new People(root, app);
    await page.load();
    // Phones that join while the page is open are shown, and a used code gives way to the next.
    const look = setInterval(() => page.load().catch(() => undefined), 4000);
    return () => clearInterval(look);
  },
};

class People {
  constructor(root, app) {
    Object.assign(this, {root, app, link: null, leaving: null});
  }

  async load() {
    const {here, share} = await get('/api/people');
    Object.assign(this, {here, share});
    this.draw();
  }

  async act(work) {
    try {
      await work();
      await this.load();
    } catch (error) {
      this.app.tell(error.message, 'wrong');
    }
  }

  draw() {
    render(html`${this.pairing()}${this.links()}${this.inside()}`, this.root);
  }

  pairing() {
    if (this.share === null) {
      return html`<section class="card"><h2>Count with phones</h2>
        <p>This bench is open to this computer alone. To let phones in, stop it and start it again with <code>--share</code>.
          Then a code stands here, and phones in the same network can join with it. Nothing that was counted is lost.</p></section>`;
    }
    const {url, code, qr} = this.share;
    return html`<section class="card"><h2>Let a phone in</h2>
      <p>The phone must be in the same network. Point its camera at the picture, or type the address and the code. A code works once.</p>
      <img class="pairing" src="${qr}?code=${encodeURIComponent(code)}" width="240" height="240" alt="Picture for the camera: it holds the address and the code that stand beside it.">
      <p>Address: <strong>${url}</strong></p><p>Code: <strong class="code">${code}</strong></p></section>`;
  }

  links() {
    if (this.share === null) {
      return '';
    }
    const make = event => {
      event.preventDefault();
      const form = event.target;
      const name = form.elements.name.value.trim();
      this.act(async () => {
        const {url, picture} = await send('POST', '/api/links', {name});
        this.link = {name, url, picture: URL.createObjectURL(new Blob([picture], {type: 'image/svg+xml'}))};
        form.reset();
      });
    };
    return html`<form class="card" @submit=${make}><h2>A link to look</h2>
      <p>Whoever has the link can look at the trials, and change nothing. It works only in this network, and only until you remove it below.</p>
      <p><label for="name">Who it is for</label><input id="name" name="name" required maxlength="40" autocomplete="off"></p>
      <button>Make a link</button>
      ${this.link === null ? '' : html`<p><label for="address">The link for <span class="who">${this.link.name}</span>. Copy it now; it isn’t shown again.</label>
        <input id="address" class="address" readonly .value=${this.link.url} @focus=${e => e.target.select()}></p>
        <img class="pairing" src=${this.link.picture} width="240" height="240" alt="The same link for a camera.">`}</form>`;
  }

  inside() {
    return html`<section class="card"><h2>Who is in</h2><ul class="people">${this.here.map(person => html`<li class="row">
      <span><strong class="who">${person.name}</strong>${person.you ? ' (you)' : ''}, ${ROLES[person.role] ?? person.role}${person.since ? `, since ${when(person.since)}` : ''}</span>
      ${person.you ? '' : this.remove(person)}</li>`)}</ul></section>`;
  }

  /** Two presses: the second says what it means. */
  remove(person) {
    const ask = id => {
      this.leaving = id;
      this.draw();
    };
    const away = () => this.act(async () => {
      await send('DELETE', `/api/people/${encodeURIComponent(person.id)}`);
      this.leaving = null;
      this.app.tell(`${person.name} is out.`);
    });
    return this.leaving === person.id ? html`<span>${person.role === 'look' ? 'The link stops working for everyone who has it.' : 'What was counted stays. What still waits on that phone can’t be sent until it joins again.'}</span>
      <button type="button" class="main" @click=${away}>Remove ${person.name}</button><button type="button" @click=${() => ask(null)}>Keep</button>`
      : html`<button type="button" @click=${() => ask(person.id)} aria-label="Remove ${person.name}">Remove</button>`;
  }
}

function when(time) {
  return new Date(time).toLocaleString('en-GB', {dateStyle: 'medium', timeStyle: 'short'});
}
