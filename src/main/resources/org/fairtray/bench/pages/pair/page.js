// Lets this browser in: by the code that the bench shows, or by a link to look.
import {html, nothing, render} from '/assets/vendored/lit-html/lit-html.js';
import {ApiError, me, send} from '/assets/api.js';

const NAME = 'fairtray.name';
const LINK = /^[A-Za-z0-9_-]{43}$/;

async function show(root, params, app) {
  const given = behindHash();
  const before = await whoIsHere();
  // A code that is read twice by the same phone must not be used up, nor a link make one that counts look on.
  if (given !== '' && before && before.role !== 'look') {
    app.know(before);
    await app.replace(local(params.back));
    return;
  }
  app.head('Join the bench');
  const wasIn = !before && localStorage.getItem('fairtray.me') !== null;
  let wrong = '';
  let busy = false;

  async function pair(code, name) {
    busy = true;
    wrong = '';
    draw(code, name);
    try {
      await send('POST', '/api/pair', {code, name});
      if (!LINK.test(code)) {
        localStorage.setItem(NAME, name);
      }
      app.know(await me());
      await app.replace(local(params.back));
    } catch (error) {
      busy = false;
      wrong = error.message;
      draw(LINK.test(code) ? '' : code, name);
    }
  }

  function draw(code, name) {
    if (busy && LINK.test(code)) {
      render(html`<p>One moment.</p>`, root);
      return;
    }
    const submit = event => {
      event.preventDefault();
      const form = new FormData(event.target);
      pair(form.get('code').trim(), form.get('name').trim());
    };
    render(html`<form class="card" @submit=${submit}>
      ${wasIn && !wrong ? html`<p class="warn">This browser isn’t in any more: it was removed, or it joined more than 30 days ago. Ask for a new code at the computer that the bench runs on. Counts that wait here are kept, and sent when you have joined.</p>` : nothing}
      ${before ? html`<p>You are here as ${before.name}. With a code you come in anew, by the name you say here.</p>` : nothing}
      <p>The computer with the trials shows a code. It works once.</p>
      <p><label for="code">Code</label><input id="code" name="code" autocomplete="off" autocapitalize="characters" spellcheck="false" required maxlength="20" .value=${code}></p>
      <p><label for="name">Your name, kept with each count</label><input id="name" name="name" autocomplete="name" required maxlength="40" .value=${name}></p>
      ${wrong ? html`<p class="wrong" role="alert">${wrong}</p>` : nothing}
      <button class="main" ?disabled=${busy}>${busy ? 'One moment' : 'Join'}</button></form>`, root);
  }

  const name = localStorage.getItem(NAME) ?? '';
  draw(LINK.test(given) ? '' : given, name);
  if (LINK.test(given) || (given && name)) {
    setTimeout(() => pair(given, name));
  }
}

function behindHash() {
  try {
    return decodeURIComponent(location.hash.slice(1)).trim();
  } catch {
    return '';
  }
}

async function whoIsHere() {
  try {
    return await me();
  } catch (error) {
    if (error instanceof ApiError && error.status === 401) {
      return null;
    }
    throw error;
  }
}

/** Only a page of this bench: one slash, then no other and no backslash. */
export function local(path) {
  return /^\/(?![/\\])[^\\\u0000-\u001f]*$/.test(path ?? '') ? path : '/';
}

export default {title: () => 'Join the bench', show};
