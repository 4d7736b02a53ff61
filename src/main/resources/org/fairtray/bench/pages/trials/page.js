// All trials of this bench, what is to do in each, and a new one.
import {html, render} from '/assets/vendored/lit-html/lit-html.js';
import {get, send} from '/assets/api.js';

const STATES = {'no plan': 'no plan yet', planned: 'planned', laid: 'laid out', counting: 'being counted', opened: 'opened', broken: 'something is wrong with its files'};

export default {
  style: '/assets/trials/trials.css',

  async show(root, params, app) {
    app.head('Trials');
    const {trials, folder} = await get('/api/trials');
    const host = app.me.role === 'host';
    const ready = host && folder ? await get('/api/ready-plans') : [];
    const make = async event => {
      event.preventDefault();
      const form = event.target;
      const name = form.elements.name.value.trim();
      const like = form.elements.like.value;
      try {
        const {id} = await send('POST', '/api/trials', like === '' ? {name} : {name, like});
        app.go(`/trial/${encodeURIComponent(id)}/plan`);
      } catch (error) {
        app.tell(error.message, 'wrong');
      }
    };
    render(html`
      ${trials.length === 0 ? html`<p>No trial yet.</p>` : trials.map(t => html`<section class="card">
        <h2><a class="whole" href="/trial/${encodeURIComponent(t.id)}">${t.title || t.id}</a></h2>
        <p class="soft">${STATES[t.state] ?? t.state}</p>${t.toDo ? html`<p>${t.toDo}</p>` : ''}</section>`)}
      ${host && folder ? html`<form class="card" @submit=${make}><h2>A new trial</h2>
        <p><label for="name">Name of its folder: small letters, digits and hyphens</label><input id="name" name="name" required maxlength="60" autocomplete="off" autocapitalize="none" spellcheck="false"></p>
        <p><label for="like">Begin with</label><select id="like" name="like"><option value="">a plain plan with remarks</option>
          ${ready.map(r => html`<option value=${r.name}>${r.title}</option>`)}</select></p>
        <button class="main">Make it</button></form>` : ''}
      ${host ? html`<p><a class="button" href="/people">Phones and helpers</a></p>` : ''}`, root);
  },
};
