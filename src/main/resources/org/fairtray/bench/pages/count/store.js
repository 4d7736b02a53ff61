// What is kept on this phone: counts and photos that aren't on the bench yet, and the last sheet that was fetched.
import {openDB} from '/assets/vendored/idb/build/index.js';

const SURE = {durability: 'strict'};

/** Opens the store of this browser; in a private window that has none, one that lasts as long as the page. */
export async function openStore() {
  try {
    const base = await openDB('fairtray', 1, {
      upgrade(fresh) {
        fresh.createObjectStore('counts', {keyPath: 'n', autoIncrement: true}).createIndex('id', 'id', {unique: true});
        fresh.createObjectStore('photos', {keyPath: 'id'});
        fresh.createObjectStore('sheets', {keyPath: 'trial'});
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

    /** Keeps new counts, and lets go of refused ones that they mend, at once or not at all. */
    async add(entries, mended = []) {
      const all = base.transaction('counts', 'readwrite', SURE);
      for (const entry of entries) {
        await all.store.add(entry);
      }
      await letGo(all.store, mended);
      await all.done;
    },

    /** Takes over what an answer changed; what another page of this phone let go of meanwhile stays gone. */
    async settle(gone, changed) {
      const all = base.transaction('counts', 'readwrite', SURE);
      for (const entry of changed) {
        if (await all.store.get(entry.n)) {
          await all.store.put(entry);
        }
      }
      await letGo(all.store, gone);
      await all.done;
    },

    photos: () => base.getAll('photos'),
    keepPhoto: photo => base.put('photos', photo),
    dropPhoto: id => base.delete('photos', id),
    sheet: trial => base.get('sheets', trial),
    keepSheet: sheet => base.put('sheets', sheet),
  };
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
  const without = ids => entries.filter(entry => !ids.includes(entry.id));
  return {
    durable: false,
    counts: async () => [...entries],
    async add(fresh, mended = []) {
      entries = [...without(mended), ...fresh.map(entry => ({...entry, n: ++newest}))];
    },
    async settle(gone, changed) {
      entries = without(gone).map(entry => changed.find(each => each.n === entry.n) ?? entry);
    },
    photos: async () => [...photos.values()],
    keepPhoto: async photo => photos.set(photo.id, photo),
    dropPhoto: async id => photos.delete(id),
    sheet: async () => undefined,
    keepSheet: async () => undefined,
  };
}
