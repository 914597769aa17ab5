// The device's own record, in IndexedDB. Every function takes and gives JSON text, but for the bytes of photos; a promise that comes good means: on the disk.

const everything = ['entries', 'jobs', 'photos'];
let opening;

function database() {
  return opening ??= new Promise((done, failed) => {
    const request = indexedDB.open('lastoff', 3);
    request.onupgradeneeded = event => {
      if (event.oldVersion < 1) {
        const entries = request.result.createObjectStore('entries', { keyPath: 'id' });
        entries.createIndex('job', 'job');
        entries.createIndex('waiting', 'waiting');
        // Two tabs of one device can never both write its next entry.
        entries.createIndex('place', ['job', 'device', 'seq'], { unique: true });
        request.result.createObjectStore('jobs', { keyPath: 'id' });
        request.result.createObjectStore('maps', { keyPath: 'name' });
        request.result.createObjectStore('settings');
      }

      if (event.oldVersion < 2) {
        const photos = request.result.createObjectStore('photos', { keyPath: 'hash' });
        photos.createIndex('waiting', 'waiting');
      }

      if (event.oldVersion < 3) {
        // Maps that were kept with their text wait in their store for giveHash.
        const texts = request.result.createObjectStore('texts', { keyPath: 'hash' });
        texts.createIndex('waiting', 'waiting');
      }
    };
    request.onsuccess = () => {
      request.result.onversionchange = () => {
        request.result.close();
        opening = undefined;
      };
      done(request.result);
    };
    request.onerror = () => {
      opening = undefined;
      failed(request.error);
    };
  });
}

// True once everything is on the disk, false when another tab was quicker.
async function write(stores, work) {
  const db = await database();
  return new Promise((done, failed) => {
    const transaction = db.transaction(stores, 'readwrite', { durability: 'strict' });
    transaction.oncomplete = () => done(true);
    transaction.onabort = () => transaction.error?.name === 'ConstraintError' ? done(false) : failed(transaction.error);
    work(transaction);
  });
}

async function read(store, work) {
  const db = await database();
  return new Promise((done, failed) => {
    const request = work(db.transaction(store).objectStore(store));
    request.onsuccess = () => done(request.result);
    request.onerror = () => failed(request.error);
  });
}

function merge(store, record) {
  store.get(record.id).onsuccess = event => store.put({ ...event.target.result, ...record });
}

const tabs = new BroadcastChannel('lastoff');

/** Calls back with the job whenever another tab of this device has written in it. */
export function listen(heard) {
  tabs.onmessage = event => heard(event.data);
}

/** An entry, with the job that it opens or the photos that it names: all of it is kept, or nothing. */
export async function keepEntry(entry, job, photos) {
  const record = JSON.parse(entry);
  const isKept = await write(everything, transaction => {
    transaction.objectStore('entries').add(record);
    if (job) {
      transaction.objectStore('jobs').put(JSON.parse(job));
    }

    for (const photo of photos ?? []) {
      transaction.objectStore('photos').put({ ...photo, waiting: photo.bytes.length });
    }
  });
  tabs.postMessage(record.job);
  return isKept;
}

/** Entries from the server, with how far the job has been read. Those that are here already stay; if they were waiting, they are there now. */
export async function keepArrived(entries, job) {
  const jobRecord = JSON.parse(job);
  await write(everything, transaction => {
    const store = transaction.objectStore('entries');
    for (const entry of JSON.parse(entries)) {
      store.put(entry).onerror = event => event.preventDefault();
    }

    merge(transaction.objectStore('jobs'), jobRecord);
  });
  tabs.postMessage(jobRecord.id);
}

export function markSent(ids) {
  return change(JSON.parse(ids).map(id => ({ id, waiting: undefined, refused: undefined })));
}

export function markRefused(refusals) {
  return change(JSON.parse(refusals).map(({ id, why }) => ({ id, refused: why })));
}

/** The server has lost entries that it had: all of the job goes to it once more. */
export async function sendAgain(job) {
  await write(['entries'], transaction => {
    transaction.objectStore('entries').index('job').openCursor(job).onsuccess = event => {
      const cursor = event.target.result;
      if (cursor) {
        cursor.update({ ...cursor.value, waiting: 1 });
        cursor.continue();
      }
    };
  });
}

function change(records) {
  return write(['entries'], transaction => {
    const store = transaction.objectStore('entries');
    for (const record of records) {
      store.get(record.id).onsuccess = event => {
        if (event.target.result) {
          store.put(withoutEmpty({ ...event.target.result, ...record }));
        }
      };
    }
  });
}

function withoutEmpty(record) {
  return Object.fromEntries(Object.entries(record).filter(([, value]) => value !== undefined));
}

export const entriesOf = async job => JSON.stringify(await read('entries', store => store.index('job').getAll(job)));
export const waitingEntries = async () => JSON.stringify(await read('entries', store => store.index('waiting').getAll()));
export const allJobs = async () => JSON.stringify(await read('jobs', store => store.getAll()));

/** Every job with how many entries there are of it and its line of last time; one look at it all, because each look takes a while at the start. */
export async function shownJobs() {
  const db = await database();
  return new Promise((done, failed) => {
    const transaction = db.transaction(['jobs', 'entries', 'settings']);
    const shown = [];
    transaction.onabort = () => failed(transaction.error);
    transaction.oncomplete = () => done(JSON.stringify(shown));
    transaction.objectStore('jobs').getAll().onsuccess = event => {
      for (const job of event.target.result) {
        const one = { job };
        shown.push(one);
        transaction.objectStore('entries').index('job').count(job.id).onsuccess = counted => one.count = counted.target.result;
        transaction.objectStore('settings').get(`line ${job.id}`).onsuccess = kept => one.line = kept.target.result;
      }
    };
  });
}

export const allMaps = async () => JSON.stringify(await mapsWhere(map => map.hash));
export const setting = async name => await read('settings', store => store.get(name)) ?? '';
export const keepSetting = (name, value) => write(['settings'], transaction => transaction.objectStore('settings').put(value, name));

const mapsWhere = async isWanted => (await read('maps', store => store.getAll())).filter(isWanted);

/** The texts by name of maps that an earlier version kept. */
export const mapsWithoutHash = async () => JSON.stringify(Object.fromEntries((await mapsWhere(map => !map.hash)).map(map => [map.name, map.yaml])));

/** Such a text goes where texts are, and its map names it by its hash. */
export const giveHash = (name, hash) => write(['maps', 'texts'], transaction => {
  const maps = transaction.objectStore('maps');
  maps.get(name).onsuccess = event => {
    const { yaml, ...map } = event.target.result;
    if (!map.hash) {
      transaction.objectStore('texts').put({ hash, name, yaml });
      maps.put({ ...map, hash });
    }
  };
});

/** A text that was saved here, which is the newest of its map from now on. */
export const keepSavedText = (text, map) => write(['maps', 'texts'], transaction => {
  transaction.objectStore('texts').put(JSON.parse(text));
  transaction.objectStore('maps').put(JSON.parse(map));
});

/** A text from the server; the newest of the map, if one is given, unless one that was saved here waits. */
export const keepFetchedText = (text, map) => write(['maps', 'texts'], transaction => {
  const texts = transaction.objectStore('texts');
  const record = JSON.parse(text);
  texts.get(record.hash).onsuccess = event => event.target.result || texts.put(record);
  if (map) {
    texts.index('waiting').getAll(IDBKeyRange.lowerBound(1)).onsuccess = event => {
      if (!event.target.result.some(saved => saved.name === record.name)) {
        transaction.objectStore('maps').put(JSON.parse(map));
      }
    };
  }
});

export const textOf = async hash => JSON.stringify(await read('texts', store => store.get(hash))) ?? '';
export const waitingTexts = async () => JSON.stringify(await read('texts', store => store.index('waiting').getAll()));

/** The server has a text, or, with a reason, would not take it as the newest. */
export const markText = (hash, saving, refused, newest) => write(['texts'], transaction => {
  const texts = transaction.objectStore('texts');
  texts.get(hash).onsuccess = event => {
    // It may have been saved once more meanwhile.
    if (event.target.result?.waiting === saving) {
      texts.put(withoutEmpty({ ...event.target.result, waiting: refused ? saving : undefined, refused: refused ?? undefined, newest: newest ?? undefined }));
    }
  };
});

/** The server is another: it gets every text that is here. */
export const sendTextsAgain = () => write(['texts'], transaction => {
  transaction.objectStore('texts').openCursor().onsuccess = event => {
    const cursor = event.target.result;
    if (cursor) {
      cursor.update({ ...cursor.value, waiting: cursor.value.waiting ?? 0 });
      cursor.continue();
    }
  };
});

export const photo = hash => read('photos', store => store.get(hash));
export const keepPhoto = (hash, bytes) => write(['photos'], transaction => transaction.objectStore('photos').put({ hash, bytes }));
export const hasPhoto = async hash => await read('photos', store => store.count(hash)) > 0;

/** The hashes of the photos that the server does not have, small ones first. Only keys are read: the pictures themselves are large. */
export async function waitingPhotos() {
  const db = await database();
  return new Promise((done, failed) => {
    const hashes = [];
    const request = db.transaction('photos').objectStore('photos').index('waiting').openKeyCursor();
    request.onerror = () => failed(request.error);
    request.onsuccess = () => {
      if (request.result) {
        hashes.push(request.result.primaryKey);
        request.result.continue();
      } else {
        done(JSON.stringify(hashes));
      }
    };
  });
}

/** A photo waits no longer: the server has it, or would not take it. */
export const markPhoto = hash => write(['photos'], transaction => {
  const store = transaction.objectStore('photos');
  store.get(hash).onsuccess = event => event.target.result && store.put(withoutEmpty({ ...event.target.result, waiting: undefined }));
});

/** The server is another: it is asked again for every photo that was taken here. */
export const sendPhotosAgain = () => write(['photos'], transaction => {
  transaction.objectStore('photos').openCursor().onsuccess = event => {
    const cursor = event.target.result;
    if (cursor) {
      cursor.update({ ...cursor.value, waiting: cursor.value.bytes.length });
      cursor.continue();
    }
  };
});
