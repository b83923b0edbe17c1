// Evaluated in a page: has every sheet drawn that an order offers, one after the other, and says how long each took and what went wrong.

async ({ slug, inputs, paper }) => {
  const base = document.querySelector("script[src$='/handbook.js']").src;
  const { client } = await import(base);
  const offered = await client.compute(slug, inputs);
  const times = [];
  const failed = offered.problems.map((problem) => `${problem.input}: ${problem.message}`);
  for (const { name } of offered.sheets) {
    const start = performance.now();
    const drawn = await client.sheet(slug, inputs, name, paper);
    if (drawn instanceof Uint8Array) times.push([name, performance.now() - start, drawn.length]);
    else failed.push(`${name}: ${drawn.bug?.details ?? drawn.problems?.[0]?.message}`);
  }
  return { times, failed };
};
