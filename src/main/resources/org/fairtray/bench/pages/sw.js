// Keeps the pages so that a reload works without the bench. Never anything of /api.
const SHELL = 'fairtray-pages-1';

self.addEventListener('install', event => event.waitUntil(keep(['/']).then(() => self.skipWaiting())));
self.addEventListener('activate', event => event.waitUntil(self.clients.claim()));
self.addEventListener('message', event => event.waitUntil(keep(event.data.filter(ours))));
self.addEventListener('fetch', event => {
  if (event.request.method === 'GET' && ours(event.request.url)) {
    event.respondWith(fresh(event.request));
  }
});

function ours(address) {
  const url = new URL(address, self.location.origin);
  return url.origin === self.location.origin && !url.pathname.startsWith('/api/') && url.pathname !== '/sw.js';
}

async function keep(addresses) {
  const cache = await caches.open(SHELL);
  await Promise.all(addresses.map(address => cache.add(address).catch(() => undefined)));
}

async function fresh(request) {
  const cache = await caches.open(SHELL);
  const key = request.mode === 'navigate' ? '/' : request;
  try {
    const response = await fetch(request);
    if (response.ok) {
      await cache.put(key, response.clone());
    }
    return response;
  } catch (error) {
    const kept = await cache.match(key);
    if (kept) {
      return kept;
    }
    throw error;
  }
}
