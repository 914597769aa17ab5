// Starts the app. The assemblies of a published app come in one file (see build/AssembliesInOne.cs) and are taken out of it here; an app that is only built has them one by one.

async function takeApart() {
  const answer = await fetch('_framework/assemblies.dat');
  if (!answer.ok) {
    return {};
  }

  const whole = await answer.arrayBuffer();
  const start = 4 + new DataView(whole).getUint32(0, true);
  const parts = {};
  let at = start;
  for (const line of new TextDecoder().decode(whole.slice(4, start)).trim().split('\n')) {
    const [name, length, tables, ...sizes] = line.split(' ');
    parts[name] = turnBack(new Uint8Array(whole.slice(at, at += Number(length))), Number(tables), sizes.map(Number));
  }

  return parts;
}

/** Each table of rows lies with its first bytes together, then its second ones, and so on; some of them as the steps from one to the next. */
function turnBack(part, at, sizes) {
  for (let i = 0; i < sizes.length; i += 3) {
    const [rows, width, steps] = sizes.slice(i, i + 3);
    const turned = part.slice(at, at + rows * width);
    for (let column = 0; column < width; column++) {
      for (let row = 1; steps >> column & 1 && row < rows; row++) {
        turned[column * rows + row] += turned[column * rows + row - 1];
      }
    }

    for (let row = 0, to = at; row < rows; row++) {
      for (let from = row; from < turned.length; from += rows) {
        part[to++] = turned[from];
      }
    }

    at += rows * width;
  }

  return part;
}

const parts = takeApart();
Blazor.start({
  loadBootResource: (type, name, uri) => type === 'assembly'
    ? parts.then(parts => parts[name] ? new Response(parts[name], { headers: { 'content-type': 'application/wasm' } }) : fetch(uri))
    : undefined,
});
