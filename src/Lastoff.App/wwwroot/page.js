// What only the browser can do for the app.

export function download(fileName, text, type) {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(new Blob([text], { type }));
  link.download = fileName;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
}

export function showSheet(id) {
  const sheet = document.getElementById(id);
  if (sheet && !sheet.open) {
    sheet.showModal();
  }
}

export function closeSheet(id) {
  document.getElementById(id)?.close();
}

export function focusIfLost(id) {
  if (!document.activeElement || document.activeElement === document.body) {
    document.getElementById(id)?.focus({ preventScroll: true });
  }
}

export function goTo(id) {
  const element = document.getElementById(id);
  element?.scrollIntoView({ block: 'center' });
  element?.focus({ preventScroll: true });
}

export function toTop(id) {
  document.getElementById(id)?.scrollTo({ top: 0 });
}

/** Brings what is chosen in a row that goes on sideways into sight. */
export function showPressed(id) {
  document.querySelector(`#${id} [aria-pressed=true]`)?.scrollIntoView({ block: 'nearest', inline: 'center' });
}

/** Hands an address to whatever sends messages here, or else to the clipboard. A browser without either, as over plain http, says so. */
export async function passOn(url) {
  try {
    if (navigator.share) {
      await navigator.share({ url });
      return 'sent';
    }

    await navigator.clipboard.writeText(url);
    return 'copied';
  } catch {
    return '';
  }
}

/** Where the way back from the next page leads. */
export function comeBackTo(address) {
  history.replaceState(history.state, '', address);
}

export function goBack() {
  if (history.length > 1) {
    history.back();
  } else {
    location.assign(document.baseURI);
  }
}

/** Puts the caret of a text area, whose lines do not wrap, on a line. */
export function goToLine(id, line) {
  const area = document.getElementById(id);
  const lines = area?.value.split('\n') ?? [];
  if (line < 1 || line > lines.length) {
    return;
  }

  const start = lines.slice(0, line - 1).reduce((length, before) => length + before.length + 1, 0);
  area.focus();
  area.setSelectionRange(start, start + lines[line - 1].length);
  area.scrollTop = Math.max(0, line - 4) * parseFloat(getComputedStyle(area).lineHeight);
}

// Before there were zones, offsets had seconds.
export const offsetAt = moment => -Math.round(new Date(moment).getTimezoneOffset());

export const momentOf = (year, month, day, hour, minute) => new Date(year, month - 1, day, hour, minute).getTime();

export const browserLanguage = () => navigator.language.slice(0, 2).toLowerCase();

export function dress(language, hand) {
  document.documentElement.lang = language;
  document.documentElement.dataset.hand = hand;
}

let wantsLight = false;
let light;

/** Where it is not supported, or the battery is low, the screen goes dark as it always does. */
function holdLight() {
  if (!wantsLight || light || document.visibilityState !== 'visible') {
    return;
  }

  // Kept while it is still asked for, so that nobody asks twice, and given back if it is no longer wanted when it comes.
  const asked = navigator.wakeLock?.request('screen').then(lock => {
    lock.addEventListener('release', () => light = light === asked ? undefined : light);
    return lock;
  }, () => {
    light = light === asked ? undefined : light;
  });
  light = asked;
}

export function stayAwake(awake) {
  if (!wantsLight && awake) {
    addEventListener('visibilitychange', holdLight);
  }

  wantsLight = awake;
  if (awake) {
    holdLight();
  } else {
    removeEventListener('visibilitychange', holdLight);
    light?.then(lock => lock?.release());
  }
}

/** Asks the browser not to clear the device's record when room is short. */
export const askToStay = async () => await navigator.storage?.persist?.() ?? false;

export function whenOnline(back) {
  addEventListener('online', () => back());
  addEventListener('visibilitychange', () => document.visibilityState === 'visible' && back());
}

/** Calls back when the server says that there is something to fetch. Only the tab that is looked at listens: a browser keeps few lines to one server. */
export function whenTold(back) {
  let line;
  const hangUp = () => {
    line?.close();
    line = undefined;
  };
  const follow = () => {
    if (document.visibilityState !== 'visible') {
      hangUp();
    } else if (!line) {
      line = new EventSource('api/live');
      line.addEventListener('here', () => back());
      line.addEventListener('entries', () => back());
      line.onerror = () => {
        // The browser calls again by itself, unless it was answered with an error.
        if (line?.readyState === EventSource.CLOSED) {
          hangUp();
          setTimeout(follow, 15_000);
        }
      };
    }
  };
  addEventListener('visibilitychange', follow);
  follow();
}

/** What a button was refused for comes into sight: on a phone it may stand above the edge or below it. */
new MutationObserver(changes => {
  const told = changes.map(change => (change.target.nodeType === Node.TEXT_NODE ? change.target.parentElement : change.target)?.closest('.fault')).find(fault => fault?.textContent.trim());
  if (told && document.activeElement?.matches('button')) {
    told.scrollIntoView({ block: 'center' });
  }
}).observe(document.body, { subtree: true, childList: true, characterData: true });

let waitingWorker;

/** Installs the worker that makes the app start offline, and tells when a new version stands ready; false where the browser allows none. */
export async function keepForOffline(isReady) {
  if (!('serviceWorker' in navigator)) {
    return false;
  }

  const registration = await navigator.serviceWorker.register('service-worker.js', { updateViaCache: 'none' });
  const offer = worker => {
    waitingWorker = worker;
    isReady();
  };
  if (registration.waiting && navigator.serviceWorker.controller) {
    offer(registration.waiting);
  }

  registration.addEventListener('updatefound', () => {
    const worker = registration.installing;
    worker?.addEventListener('statechange', () => {
      if (worker.state === 'installed' && navigator.serviceWorker.controller) {
        offer(worker);
      }
    });
  });
  return true;
}

export function takeNewVersion() {
  navigator.serviceWorker.addEventListener('controllerchange', () => location.reload(), { once: true });
  waitingWorker?.postMessage('use-new-version');
}
