// What becomes of counts on their way to the bench. Plain functions: no page, no server, no storage.
// An entry: {n, id, trial, body (as it is sent), view, state: 'waiting' | 'refused', reason}.
// `view` is what its counter had in view, by the columns that it gives: {column: figure or null}.
import {slot} from '/assets/count/rules.js';

const BATCH = 50;

/** 128 bits of chance as text. Works on plain http too. */
export function newId() {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  return Array.from(bytes, byte => byte.toString(16).padStart(2, '0')).join('');
}

/** Milliseconds until the next attempt, after so many that failed. */
export function wait(failed) {
  return Math.min(30000, 1000 * 2 ** Math.max(0, failed - 1));
}

/** The next counts to send: of one trial, in order, and of each frame only the oldest, since the next one builds on it. */
export function batch(entries, trial, most = BATCH) {
  const taken = new Set();
  return entries.filter(entry => entry.trial === trial && entry.state === 'waiting')
    .sort((a, b) => a.n - b.n)
    .filter(entry => {
      const key = slot(entry.body.tray, entry.body.day, entry.body.frame);
      const first = !taken.has(key);
      taken.add(key);
      return first;
    })
    .slice(0, most);
}

export function sameFrame(a, b) {
  return a.tray === b.tray && a.day === b.day && a.frame === b.frame;
}

/** What an answer does to the counts kept here: which go, which are refused, which are now based on what it says. */
export function afterAnswer(entries, results) {
  const gone = [];
  const changed = new Map();
  for (const result of results) {
    const entry = entries.find(each => each.id === result.id);
    if (entry === undefined) {
      continue;
    }
    if (result.status === 'refused') {
      changed.set(entry.id, {...entry, state: 'refused', reason: result.reason ?? 'The bench refused it.'});
    } else {
      gone.push(entry.id);
    }
    entries.filter(each => each.state === 'waiting' && each.id !== entry.id && each.trial === entry.trial
      && sameFrame(each.body, entry.body)).forEach(each => changed.set(each.id, based(changed.get(each.id) ?? each, result.cell)));
  }
  return {gone, changed: [...changed.values()].filter(each => !gone.includes(each.id))};
}

/**
 * A count, based on what stands for its frame where its counter had just that in view: the phone's own count before it, as
 * a rule. Where someone else gave another figure meanwhile it stays based on the older one, so that the bench sees that they differ.
 */
export function based(entry, cell) {
  const {body, view} = entry;
  const stands = {...cell?.values, note: cell?.note, sown: cell?.sown};
  const same = cell && view && cell.sequence > body.seen
    && Object.entries(view).every(([column, value]) => text(stands[column]) === text(value));
  return same ? {...entry, body: {...body, seen: cell.sequence}} : entry;
}

function text(value) {
  return String(value ?? '');
}

/** What a failed attempt means: 'later' (send again), 'pair', 'renew' (the token), 'smaller' (fewer at once) or 'refused'. */
export function afterFailure(status, sent) {
  if (status === 401) {
    return 'pair';
  }
  if (status === 403) {
    return 'renew';
  }
  if (status === 400 || status === 413) {
    return sent > 1 ? 'smaller' : 'refused';
  }
  return 'later';
}

/** Where the counts of this phone are, in words. */
export function stateLine({waiting, refused, photos, durable, trouble}) {
  const parts = [];
  if (refused > 0) {
    parts.push(`${counts(refused)} refused: needs you.`);
  }
  if (waiting > 0) {
    parts.push(`${counts(waiting)} ${waiting === 1 ? 'waits' : 'wait'} on this phone; keep this page open.`);
  }
  if (photos > 0) {
    parts.push(`${photos} ${photos === 1 ? 'photo waits' : 'photos wait'} on this phone.`);
  }
  if (parts.length === 0) {
    parts.push('All counts are on the bench.');
  }
  if (trouble) {
    parts.push(trouble);
  }
  if (!durable) {
    parts.push('This browser keeps nothing by itself (a private window?): a count is saved only when the bench has answered.');
  }
  return parts.join(' ');
}

function counts(n) {
  return n === 1 ? '1 count' : `${n} counts`;
}
