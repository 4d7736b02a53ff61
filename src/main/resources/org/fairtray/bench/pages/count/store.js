// What is kept on this phone: counts and photos that aren't on the bench yet, the last sheet that was fetched, and what the
// bench answered to the newest count of each frame.
import {openDB} from '/assets/vendored/idb/build/index.js';
import {afterAnswer, based} from '/assets/count/queue.js';
import {slot} from '/assets/count/rules.js';

const SURE = {durability: 'strict'};

/** Opens the store of this browser; in a private window that has none, one that lasts as long as the page. */
export async function openStore() {
  try {
    const base = await openDB('fairtray', 2, {
      upgrade(fresh, before) {
        if (before < 1) {
          fresh.createObjectStore('counts', {keyPath: 'n', autoIncrement: true}).createIndex('id', 'id', {unique: true});
          fresh.createObjectStore('photos', {keyPath: 'id'});
          fresh.createObjectStore('sheets', {keyPath: 'trial'});
        }
        fresh.createObjectStore('answers');
      },
      blocking: (now, then, event) => event.target.close(),
    });
    await base.count('counts');
    return kept(base);
  } catch {
    return passing();
  }
}

function kept(base) {
  return {
    durable: true,
    counts: () => base.getAll('counts'),

    /**
     * Keeps new counts, and lets go of refused ones that they mend, at once or not at all. The answer to a count before
     * one of them may be taken at any time; within one transaction none comes in between.
     */
    async add(entries, mended = []) {
      const all = base.transaction(['counts', 'answers'], 'readwrite', SURE);
      const counts = all.objectStore('counts');
      for (const entry of entries) {
        await counts.add(based(entry, await all.objectStore('answers').get(frame(entry))));
      }
      await letGo(counts, mended);
      await all.done;
    },

    /** Takes what the bench answered over to the counts that are kept now; says how many it was about. */
    async answer(results) {
      const all = base.transaction(['counts', 'answers'], 'readwrite', SURE);
      const counts = all.objectStore('counts');
      const entries = await counts.getAll();
      const {gone, changed} = afterAnswer(entries, results);
      for (const [key, cell] of answers(entries, results)) {
        await all.objectStore('answers').put(cell, key);
      }
      for (const entry of changed) {
        await counts.put(entry);
      }
      await letGo(counts, gone);
      await all.done;
      return gone.length + changed.length;
    },

    async drop(ids) {
      const all = base.transaction('counts', 'readwrite', SURE);
      await letGo(all.store, ids);
      await all.done;
    },

    photos: () => base.getAll('photos'),
    keepPhoto: photo => base.put('photos', photo),
    dropPhoto: id => base.delete('photos', id),
    sheet: trial => base.get('sheets', trial),
    keepSheet: sheet => base.put('sheets', sheet),
  };
}

function frame({trial, body}) {
  return `${trial}|${slot(body.tray, body.day, body.frame)}`;
}

/** What stands now, by frame, as far as the answer is about counts of this phone. */
function answers(entries, results) {
  return results.map(({id, cell}) => [entries.find(entry => entry.id === id), cell])
    .filter(([entry, cell]) => entry && cell).map(([entry, cell]) => [frame(entry), cell]);
}

async function letGo(counts, ids) {
  for (const id of ids) {
    const n = await counts.index('id').getKey(id);
    if (n !== undefined) {
      await counts.delete(n);
    }
  }
}

function passing() {
  let entries = [];
  let newest = 0;
  const photos = new Map();
  const answered = new Map();
  const without = ids => entries.filter(entry => !ids.includes(entry.id));
  return {
    durable: false,
    counts: async () => [...entries],
    async add(fresh, mended = []) {
      entries = [...without(mended), ...fresh.map(entry => ({...based(entry, answered.get(frame(entry))), n: ++newest}))];
    },
    async answer(results) {
      const {gone, changed} = afterAnswer(entries, results);
      answers(entries, results).forEach(([key, cell]) => answered.set(key, cell));
      entries = without(gone).map(entry => changed.find(each => each.n === entry.n) ?? entry);
      return gone.length + changed.length;
    },
    async drop(ids) {
      entries = without(ids);
    },
    photos: async () => [...photos.values()],
    keepPhoto: async photo => photos.set(photo.id, photo),
    dropPhoto: async id => photos.delete(id),
    sheet: async () => undefined,
    keepSheet: async () => undefined,
  };
}
