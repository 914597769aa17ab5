// Keeps the whole app on the device, so that it starts without a network. The workshop's data is not its business: see store.js.
self.importScripts('./service-worker-assets.js');

const prefix = 'lastoff-';
const cacheName = prefix + self.assetsManifest.version;
const base = new URL('./', self.location);
// .pdb: an unpublished app loads them at the start, and would not start offline without.
const kept = /\.(dll|pdb|wasm|html|js|json|css|png|svg|blat|dat|webmanifest)$/;
const assets = self.assetsManifest.assets.filter(asset => kept.test(asset.url) && asset.url !== 'service-worker.js');
// Pages of the server's own: the customer's, and how a phone comes to trust it.
const served = ['record/', 'trust'].map(path => base.pathname + path);
const known = new Set(assets.map(asset => new URL(asset.url, base).href));

self.addEventListener('install', event => event.waitUntil(fill()));
self.addEventListener('activate', event => event.waitUntil(takeOver()));
self.addEventListener('message', event => {
  if (event.data === 'use-new-version') {
    self.skipWaiting();
  }
});
self.addEventListener('fetch', event => {
  const { request } = event;
  const url = new URL(request.url);
  if (request.method !== 'GET' || url.origin !== base.origin || url.pathname.startsWith(base.pathname + 'api/') || served.some(path => url.pathname.startsWith(path))) {
    return;
  }

  if (request.mode === 'navigate' && !known.has(url.href)) {
    event.respondWith(answer('index.html', request));
  } else if (known.has(url.href)) {
    event.respondWith(answer(request, request));
  }
});

async function fill() {
  const cache = await caches.open(cacheName);
  // The hash makes sure that no file of another version gets in between.
  await cache.addAll(assets.map(asset => new Request(asset.url, { integrity: asset.hash, cache: 'no-cache' })));
}

async function takeOver() {
  const names = await caches.keys();
  await Promise.all(names.filter(name => name.startsWith(prefix) && name !== cacheName).map(name => caches.delete(name)));
  await self.clients.claim();
}

async function answer(wanted, request) {
  const cache = await caches.open(cacheName);
  return await cache.match(wanted) ?? fetch(request);
}
