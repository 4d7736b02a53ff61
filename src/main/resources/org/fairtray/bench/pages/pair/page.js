// Pairs this browser with the bench by the code that the host shows.
import {html, nothing, render} from '/assets/vendored/lit-html/lit-html.js';
import {me, send} from '/assets/api.js';

const NAME = 'fairtray.name';

async function show(root, params, app) {
  const given = decodeURIComponent(location.hash.slice(1));
  let wrong = '';
  let busy = false;
  app.head('Join the bench');

  async function pair(code, name) {
    busy = true;
    wrong = '';
    draw(code, name);
    try {
      await send('POST', '/api/pair', {code, name});
      localStorage.setItem(NAME, name);
      app.me = await me();
      await app.go(local(params.back));
    } catch (error) {
      busy = false;
      wrong = error.message;
      draw(code, name);
    }
  }

  function draw(code, name) {
    const submit = event => {
      event.preventDefault();
      const form = new FormData(event.target);
      pair(form.get('code').trim(), form.get('name').trim());
    };
    render(html`<form class="card" @submit=${submit}>
      <p>The computer with the trials shows a code. It works once.</p>
      <p><label>Code <input name="code" autocomplete="off" autocapitalize="characters" required maxlength="80" .value=${code}></label></p>
      <p><label>Your name, kept with each count <input name="name" autocomplete="name" required maxlength="60" .value=${name}></label></p>
      ${wrong ? html`<p class="wrong" role="alert">${wrong}</p>` : nothing}
      <button class="main" ?disabled=${busy}>${busy ? 'One moment' : 'Join'}</button></form>`, root);
  }

  const name = localStorage.getItem(NAME) ?? '';
  draw(given, name);
  if (given && name) {
    setTimeout(() => pair(given, name));
  }
}

/** Only a page of this bench: one slash, then no other and no backslash. */
export function local(path) {
  return /^\/(?![/\\])[^\\\u0000-\u001f]*$/.test(path ?? '') ? path : '/';
}

export default {title: () => 'Join the bench', show};
