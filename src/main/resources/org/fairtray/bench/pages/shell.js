// Picks the page for the address, draws the head above it, and says what happened.
import {html, render} from '/assets/vendored/lit-html/lit-html.js';
import {ApiError, Unreachable, me} from '/assets/api.js';

const ROUTES = [
  [/^\/$/, 'trials', []],
  [/^\/pair$/, 'pair', []],
  [/^\/people$/, 'people', []],
  [/^\/trial\/([^/]+)$/, 'trial', ['id']],
  [/^\/trial\/([^/]+)\/plan$/, 'plan', ['id']],
  [/^\/trial\/([^/]+)\/count$/, 'count', ['id']],
  [/^\/trial\/([^/]+)\/tray\/([^/]+)$/, 'count', ['id', 'tray']],
  [/^\/trial\/([^/]+)\/read$/, 'read', ['id']],
];
const ME = 'fairtray.me';
const STEPS = [['plan', 'Plan'], ['count', 'Count'], ['read', 'Read']];

const page = document.getElementById('page');
const top = document.getElementById('top');
const told = document.getElementById('told');
let leave = null;
let dressed = null;
// Where in this browser's history we are, so that a step back that is not wanted can be taken again.
let at = history.state?.at ?? 0;
let shown = null;
let turns = 0;

const app = {
  me: null,

  /** What a page with changes asks before it is left: false to stay. */
  mayLeave: null,

  /** Shows another page of the bench without loading anew. */
  go(path) {
    if (app.mayLeave?.() === false) {
      return undefined;
    }
    history.pushState({at: ++at}, '', path);
    return show();
  },

  /** The same, in place of the page before: going back doesn't lead there. */
  replace(path) {
    history.replaceState({at}, '', path);
    return show();
  },

  /** Keeps who this browser is to the bench, for when the bench is out of reach. */
  know(who) {
    app.me = who;
    localStorage.setItem(ME, JSON.stringify({name: who.name, role: who.role}));
  },

  /** Says something in a line that screen readers read out; it goes by itself. */
  tell(text, kind = 'note') {
    render(html`<p class=${kind}>${text}</p>`, told);
    clearTimeout(app.telling);
    app.telling = setTimeout(() => render('', told), kind === 'wrong' ? 12000 : 5000);
  },

  /** Draws the head: where we are, and the steps of a trial. */
  head(title, id, step) {
    document.title = title;
    render(head(title, id, step), top);
  },
};

function head(title, id, step) {
  return html`
    <a class="home" href="/">Bench</a>
    <h1>${title}</h1>
    ${id === undefined ? '' : html`<nav aria-label="Steps of this trial">${STEPS.filter(([name]) => name !== 'plan' || app.me.role === 'host').map(([name, words]) => html`
      <a href="/trial/${encodeURIComponent(id)}/${name}" aria-current=${name === step ? 'page' : 'false'}>${words}</a>`)}</nav>`}`;
}

function found(path) {
  for (const [pattern, name, keys] of ROUTES) {
    const match = pattern.exec(path);
    if (match) {
      try {
        return [name, Object.fromEntries(keys.map((key, i) => [key, decodeURIComponent(match[i + 1])]))];
      } catch {
        break;
      }
    }
  }
  return ['lost', {}];
}

/** What tells one page from another; not the part behind the #, which is a place on it. */
function address() {
  return location.pathname + location.search;
}

async function show() {
  leave?.();
  leave = null;
  app.mayLeave = null;
  shown = address();
  const turn = ++turns;
  const late = () => turn !== turns;
  render(html`<p>One moment.</p>`, page);
  try {
    const [name, params] = found(location.pathname);
    const module = await import(`/assets/${name}/page.js`);
    if (name !== 'pair' && app.me === null) {
      await whoAmI(module.default.worksAway);
    }
    if (late()) {
      return;
    }
    const query = Object.fromEntries(new URLSearchParams(location.search));
    // A page draws into a room of its own, so that nothing of the one before is left.
    const room = document.createElement('div');
    page.replaceChildren(room);
    dress(module.default.style);
    const left = await module.default.show(room, {...query, ...params}, app);
    if (late()) {
      left?.();
      return;
    }
    leave = left;
    page.focus({preventScroll: true});
  } catch (error) {
    if (!late()) {
      stumble(error);
    }
  }
}

/** Back and forward: as links do, they ask first where a page has changes. */
function stepped(event) {
  const to = event.state?.at ?? at;
  if (address() === shown) {
    // A link within the page makes an entry of its own, which knows no place yet.
    at = event.state === null ? at + 1 : to;
    history.replaceState({at}, '');
    // A code for joining comes behind the # too; that is no place in the page.
    if (document.getElementById(location.hash.slice(1)) === null && location.hash !== '') {
      show();
    }
  } else if (to !== at && app.mayLeave?.() === false) {
    history.go(at - to);
  } else {
    at = to;
    show();
  }
}

/** Gives the page the look that it asks for besides that of all pages, in place of the one before. */
function dress(address) {
  dressed?.remove();
  dressed = null;
  if (address) {
    dressed = Object.assign(document.createElement('link'), {rel: 'stylesheet', href: address});
    document.head.append(dressed);
  }
}

/** Who this browser is; a page that works away from the bench goes on with who it was before. */
async function whoAmI(worksAway) {
  const before = localStorage.getItem(ME);
  try {
    app.know(await me());
  } catch (error) {
    if (!(worksAway && error instanceof Unreachable && before)) {
      throw error;
    }
    app.me = JSON.parse(before);
  }
}

function stumble(error) {
  if (error instanceof ApiError && error.status === 401) {
    history.replaceState({at}, '', `/pair?back=${encodeURIComponent(address())}`);
    show();
    return;
  }
  const room = document.createElement('div');
  page.replaceChildren(room);
  app.head('Bench');
  render(html`
    <section class="wrong">
      <h2>${error instanceof Unreachable ? "The bench can't be reached" : "That didn't work"}</h2>
      <p>${error.message}</p>
      ${(error.problems ?? []).map(problem => html`<p>${problem.sentence}</p>`)}
      <button type="button" @click=${show}>Try again</button>
    </section>`, room);
  if (!(error instanceof ApiError || error instanceof Unreachable)) {
    console.error(error);
  }
}

document.addEventListener('click', event => {
  const link = event.target.closest?.('a[href]');
  const plain = event.button === 0 && !event.metaKey && !event.ctrlKey && !event.shiftKey && !event.altKey;
  const inside = link && link.origin === location.origin && !link.target && !link.hasAttribute('download');
  if (plain && inside && !link.hash && !link.pathname.startsWith('/api/')) {
    event.preventDefault();
    app.go(link.pathname + link.search);
  }
});
window.addEventListener('popstate', stepped);
history.replaceState({at}, '');
show();
if (window.isSecureContext && 'serviceWorker' in navigator) {
  const loaded = () => performance.getEntriesByType('resource').map(entry => entry.name);
  navigator.serviceWorker.register('/sw.js').then(() => navigator.serviceWorker.ready)
    .then(worker => worker.active.postMessage(loaded())).catch(() => undefined);
}
