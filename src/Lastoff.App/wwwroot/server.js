// The app's questions to the workshop's server.

const open = new Map();

/** Answers with what came, an error of the server's included; throws when nothing came in time. */
export async function ask(number, method, path, body, type, patience) {
  const line = new AbortController();
  const timer = setTimeout(() => line.abort(), patience);
  open.set(number, line);
  try {
    const answer = await fetch(path, { method, body, headers: body === null ? {} : { 'content-type': type }, signal: line.signal });
    return { status: answer.status, text: await answer.text(), store: answer.headers.get('lastoff-store'), version: Number(answer.headers.get('lastoff-version') ?? 0) };
  } finally {
    clearTimeout(timer);
    open.delete(number);
  }
}

export function stop(number) {
  open.get(number)?.abort();
}
