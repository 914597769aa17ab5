// Pictures: shrunk here, kept beside the entries that name them (store.js), shown from the device.

import { photo, keepPhoto } from './store.js';

const photoSide = 1600;
const thumbnailSide = 240;

/** The picture chosen in a field, as two JPEG files; undefined when none was. The field is empty again afterwards. */
export async function shrink(field) {
  const input = document.getElementById(field);
  const file = input.files[0];
  if (!file) {
    return undefined;
  }

  try {
    // What the camera wrote beside the picture, the place for one, is left behind.
    const picture = await createImageBitmap(file, { imageOrientation: 'from-image' });
    try {
      return { photo: await draw(picture, photoSide, 0.8), thumbnail: await draw(picture, thumbnailSide, 0.7) };
    } finally {
      picture.close();
    }
  } finally {
    input.value = '';
  }
}

async function draw(picture, longest, quality) {
  const scale = Math.min(1, longest / Math.max(picture.width, picture.height));
  const canvas = document.createElement('canvas');
  canvas.width = Math.max(1, Math.round(picture.width * scale));
  canvas.height = Math.max(1, Math.round(picture.height * scale));
  const context = canvas.getContext('2d');
  context.imageSmoothingQuality = 'high';
  // JPEG knows nothing see-through; it would come out black.
  context.fillStyle = 'white';
  context.fillRect(0, 0, canvas.width, canvas.height);
  context.drawImage(picture, 0, 0, canvas.width, canvas.height);
  const blob = await new Promise(done => canvas.toBlob(done, 'image/jpeg', quality));
  return new Uint8Array(await blob.arrayBuffer());
}

/** What store.js keeps: each file under its hash. */
export const named = (shot, photoHash, thumbnailHash) => [
  { hash: photoHash, bytes: shot.photo },
  { hash: thumbnailHash, bytes: shot.thumbnail },
];

/** An address under which the page can show a photo of this device; empty when it is not here. */
export async function addressOf(hash) {
  const kept = await photo(hash);
  return kept ? URL.createObjectURL(new Blob([kept.bytes], { type: 'image/jpeg' })) : '';
}

export const letGo = address => URL.revokeObjectURL(address);

/** Fetches a photo from the server and keeps it; false when it is not there yet. */
export async function fetchPhoto(hash) {
  const answer = await fetch(`api/photos/${hash}`);
  if (!answer.ok) {
    return false;
  }

  await keepPhoto(hash, new Uint8Array(await answer.arrayBuffer()));
  return true;
}

/** How long a kept file is, 0 when it is not here. */
export const lengthOf = async hash => (await photo(hash))?.bytes.length ?? 0;

/** Sends one piece of a file; the server's answer: its status and what it said. */
export async function sendPiece(hash, from, length) {
  const { bytes } = await photo(hash);
  const piece = bytes.subarray(from, from + length);
  const answer = await fetch(`api/photos/${hash}`, {
    method: 'PUT',
    headers: { 'Content-Range': `bytes ${from}-${from + piece.length - 1}/${bytes.length}` },
    body: piece,
    signal: AbortSignal.timeout(60_000),
  });
  return JSON.stringify({ status: answer.status, said: await answer.text() });
}
