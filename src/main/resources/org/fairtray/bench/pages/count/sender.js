// Sends what is kept on this phone until it is on the bench. One for the whole tab.
import {ApiError, me, send, upload} from '/assets/api.js';
import {afterFailure, batch, newId, wait} from '/assets/count/queue.js';
import {openStore} from '/assets/count/store.js';

const listeners = new Set();
const others = 'BroadcastChannel' in window ? new BroadcastChannel('fairtray') : null;
let opened = null;
let timer = 0;
let running = null;
let again = false;
let failed = 0;
let most = 50;

/** What listeners see: counts and photos kept here, and what is in the way. */
export const outbox = {entries: [], photos: [], durable: true, trouble: '', paired: true};

export function store() {
  opened ??= openStore();
  return opened;
}

/** Starts to send, and tells of each change until the answered function is called. */
export async function follow(listener) {
  listeners.add(listener);
  await refresh();
  flush();
  return () => listeners.delete(listener);
}

/**
 * Keeps counts on this phone; `sent` of the answer is over when an attempt to send them is. Each has beside what is sent
 * a `view`: what its counter had in view, by column.
 */
export async function keep(trial, counts, mended = []) {
  const kept = await store();
  await kept.add(counts.map(({view, ...body}) => {
    const id = newId();
    return {id, trial, body: {id, ...body}, view, state: 'waiting'};
  }), mended);
  await refresh();
  others?.postMessage('changed');
  failed = 0;
  return {sent: flush()};
}

export async function keepPhoto(photo) {
  const kept = await store();
  await kept.keepPhoto({...photo, id: newId(), state: 'waiting'});
  await refresh();
  flush();
}

export async function throwAway(ids, photos = []) {
  const kept = await store();
  await kept.drop(ids);
  await Promise.all(photos.map(id => kept.dropPhoto(id)));
  await refresh();
}

export async function refresh() {
  const kept = await store();
  outbox.durable = kept.durable;
  outbox.entries = (await kept.counts()).sort((a, b) => a.n - b.n);
  outbox.photos = await kept.photos();
  tell(null);
}

function tell(answer) {
  listeners.forEach(listener => listener(answer));
}

/** Sends now. One run at a time; whoever asks meanwhile gets another run after it. */
export function flush() {
  clearTimeout(timer);
  if (running) {
    again = true;
    return running;
  }
  running = runs().finally(() => { running = null; });
  return running;
}

async function runs() {
  do {
    again = false;
    await run();
  } while (again);
}

async function run() {
  try {
    for (const trial of new Set(outbox.entries.filter(waiting).map(entry => entry.trial))) {
      await sendCounts(trial);
    }
    for (const photo of outbox.photos.filter(waiting)) {
      await sendPhoto(photo);
    }
    failed = 0;
    most = 50;
    outbox.trouble = '';
    outbox.paired = true;
  } catch (error) {
    failed += 1;
    outbox.trouble = error.message;
    if (error instanceof ApiError && afterFailure(error.status) === 'pair') {
      outbox.paired = false;
      outbox.trouble = 'This phone is no longer paired with the bench.';
    }
  }
  if (outbox.entries.some(waiting) || outbox.photos.some(waiting)) {
    clearTimeout(timer);
    timer = setTimeout(flush, wait(Math.max(1, failed)));
  }
  tell(null);
}

function waiting(entry) {
  return entry.state === 'waiting';
}

async function sendCounts(trial) {
  for (let next = batch(outbox.entries, trial, most); next.length > 0; next = batch(outbox.entries, trial, most)) {
    try {
      const answer = await asked(() =>
        send('POST', `/api/trials/${encodeURIComponent(trial)}/counts`, {counts: next.map(entry => entry.body)}));
      await take(answer.results);
      tell({trial, ...answer});
    } catch (error) {
      await refusedWhole(error, next);
    }
  }
}

/** Asks once more with a new token where the old one isn't believed: the bench may have been started anew. */
async function asked(call) {
  try {
    return await call();
  } catch (error) {
    if (error instanceof ApiError && afterFailure(error.status) === 'renew') {
      await me();
      return call();
    }
    throw error;
  }
}

async function take(results) {
  const kept = await store();
  const about = await kept.answer(results);
  await refresh();
  if (about === 0) {
    throw new Error('The bench answered, but not about these counts.');
  }
}

async function refusedWhole(error, sent) {
  const what = error instanceof ApiError ? afterFailure(error.status, sent.length) : 'later';
  if (what === 'smaller') {
    most = Math.max(1, Math.floor(sent.length / 2));
  } else if (what === 'refused') {
    await take([{id: sent[0].id, status: 'refused', reason: error.message}]);
  } else {
    throw error;
  }
}

async function sendPhoto(photo) {
  const kept = await store();
  const path = ['photos', photo.tray, photo.day, photo.id].map(encodeURIComponent).join('/');
  try {
    await asked(() => upload(`/api/trials/${encodeURIComponent(photo.trial)}/${path}`, photo.blob));
    await kept.dropPhoto(photo.id);
  } catch (error) {
    if (!(error instanceof ApiError) || afterFailure(error.status, 1) !== 'refused') {
      throw error;
    }
    await kept.keepPhoto({...photo, state: 'refused', reason: error.message});
  }
  await refresh();
}

window.addEventListener('online', () => flush());
document.addEventListener('visibilitychange', () => document.hidden || flush());
others?.addEventListener('message', refresh);
