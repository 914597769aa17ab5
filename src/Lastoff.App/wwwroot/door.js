// Passkeys (W3C Web Authentication, level 3), and the code a phone was handed.

export const hasPasskeys = () => !!globalThis.PublicKeyCredential?.parseCreationOptionsFromJSON;

/** Makes a passkey on this device; empty when the person would not. */
export async function makePasskey(options) {
  const publicKey = PublicKeyCredential.parseCreationOptionsFromJSON(JSON.parse(options));
  return answer(() => navigator.credentials.create({ publicKey }));
}

/** Answers the server's challenge with a passkey of this device; empty when the person would not. */
export async function showPasskey(options) {
  const publicKey = PublicKeyCredential.parseRequestOptionsFromJSON(JSON.parse(options));
  return answer(() => navigator.credentials.get({ publicKey }));
}

async function answer(ask) {
  try {
    return JSON.stringify(await ask());
  } catch (fault) {
    if (fault instanceof DOMException) {
      return '';
    }

    throw fault;
  }
}

/** The code in the address, which is then taken out of it: it opens once and is nobody else's business. */
export function takeCode() {
  const code = location.hash.slice(1);
  history.replaceState(history.state, '', location.pathname);
  return code;
}
