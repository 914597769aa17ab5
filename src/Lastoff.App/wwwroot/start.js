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
    const [name, length] = line.split(' ');
    parts[name] = whole.slice(at, at += Number(length));
  }

  return parts;
}

const parts = takeApart();
Blazor.start({
  loadBootResource: (type, name, uri) => type === 'assembly'
    ? parts.then(parts => parts[name] ? new Response(parts[name], { headers: { 'content-type': 'application/wasm' } }) : fetch(uri))
    : undefined,
});
